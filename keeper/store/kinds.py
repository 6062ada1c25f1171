"""Kinds of lines: rows that are never deleted, since lines keep their kind and its number."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from keeper.errors import NotAKeeper, UnknownThing
from keeper.model import LineKind
from keeper.store.file.opening import Store
from keeper.store.ids import new_id
from keeper.store.moments import NUMBERS_A_NIGHT, day, kind, words

_COLUMNS = "key, number, name, prompt, position, in_themes, began, ended"


def every(store: Store) -> tuple[LineKind, ...]:
    """All kinds, ended ones too, in the person's order."""
    rows = store.rows(f"SELECT {_COLUMNS} FROM kind ORDER BY position, number")
    return store.made(lambda row: _as_far_as_whole(store, row), rows)


def _as_far_as_whole(store: Store, row: tuple) -> LineKind:
    try:
        return _kind(row)
    except NotAKeeper as damage:
        # Its lines are still of this kind, and there is to be somewhere to write.
        rest = LineKind(kind(row[0]), row[1], position=row[4])
        store.note_damage(str(damage))
        return rest


def _kind(row: tuple) -> LineKind:
    began, ended = (day(text) if text else None for text in row[6:])
    return LineKind(kind(row[0]), row[1], words(row[2]), words(row[3]), row[4], bool(row[5]), began, ended)


def number(store: Store, key: str) -> int:
    """The number of a kind. Raises UnknownThing."""
    row = store.row("SELECT number FROM kind WHERE key = ?", (key,))
    if row is None:
        raise unknown()
    return row[0]


def unknown() -> UnknownThing:
    """The sentence on a kind that is none of this keeper's."""
    return UnknownThing("There is no such kind of line in this keeper.")


def name(store: Store, key: str) -> str:
    """The person's name for a kind; "" where it bears the program's, and for one that is not known."""
    row = store.row("SELECT name FROM kind WHERE key = ?", (key,))
    return row[0] if row else ""


def add(store: Store, kind: LineKind) -> LineKind:
    """Add a kind after the others; it is given a key, a number and a position. Returns it as kept.

    Raises UnknownThing where all numbers are given.
    """
    with store.writing() as connection:
        last, position = store.row("SELECT max(number), max(position) FROM kind")
        if last + 1 >= NUMBERS_A_NIGHT:
            raise UnknownThing(
                f"This keeper has had {NUMBERS_A_NIGHT} kinds of line, and there is no room for another. "
                "One that was left out can be taken up again, and renamed."
            )
        kept = replace(kind, key=new_id(), number=last + 1, position=position + 1)
        connection.execute(
            f"INSERT INTO kind ({_COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
            (kept.key, kept.number, kept.name, kept.prompt, kept.position, int(kept.in_themes),
             _text(kept.began), _text(kept.ended)),
        )  # fmt: skip
    return kept


def change(store: Store, kind: LineKind) -> None:
    """Keep a kind's name, prompt, begin and end, and whether it is in themes."""
    with store.writing() as connection:
        connection.execute(
            "UPDATE kind SET name = ?, prompt = ?, in_themes = ?, began = ?, ended = ? WHERE key = ?",
            (kind.name, kind.prompt, int(kind.in_themes), _text(kind.began), _text(kind.ended), kind.key),
        )


def order(store: Store, keys: Iterable[str]) -> None:
    """Put the kinds in this order."""
    with store.writing() as connection:
        connection.executemany(
            "UPDATE kind SET position = ? WHERE key = ? AND position <> ?",
            [(place, key, place) for place, key in enumerate(keys)],
        )


def _text(night: date | None) -> str | None:
    return night.isoformat() if night else None
