"""Themes as they were last found: rows that can all be made anew, but for their numbers."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime

from keeper.errors import NotAKeeper
from keeper.store.file.opening import Store
from keeper.store.ids import new_id
from keeper.store.moments import day, number, told, utc_instant, utc_text, words

Membership = tuple[str, int | None, float]
"""A line's id, its theme (None: loose), and how near it is to its middle, 0 to 1."""

Second = tuple[str, int, float, bool]
"""A line's id, the theme it stands in besides, how near it is to that; True: it is loose, and that comes nearest to it."""


@dataclass(frozen=True, slots=True)
class KeptTheme:
    """A theme's row. ``named``: the name is the person's; ``terms``: words with weights, heaviest first."""

    number: int
    name: str
    named: bool
    pinned: bool
    sure: float
    terms: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True)
class Build:
    """What is true of the last rebuild as a whole.

    ``id`` tells it from every other. ``lines`` is how many there were;
    ``decided`` and ``speech`` stand for the decisions and the words left out
    that it heeded; ``form`` is that of the arrays.
    """

    id: str
    built_at: datetime
    lines: int
    enough: bool
    sure: float
    decided: str
    speech: str
    form: int


@dataclass(frozen=True, slots=True)
class Outcome:
    """All that a rebuild or redraw gives, ready to be kept.

    ``read`` are the texts it was made from, by line id; ``base`` and
    ``base_terms`` are the layer before the person's decisions; None leaves the
    one that is there. ``unsure``: the lines to ask about, of each theme that the
    person began; ``parts``: what lies within themes, as ``parts.Kept``.
    """

    build: Build
    arrays: bytes
    themes: Sequence[KeptTheme]
    members: Sequence[Membership]
    base: Mapping[str, int | None] | None
    base_terms: Mapping[int, Sequence[str]]
    read: Mapping[str, str]
    unsure: Mapping[int, Sequence[str]] = field(default_factory=dict)
    parts: Sequence[tuple[int, int, str, Sequence[str]]] = ()
    seconds: Sequence[Second] = ()


_COLUMNS = "number, name, named, pinned, sure, terms"


def _theme(row: tuple) -> KeptTheme:
    # How sure it is and its words can be found again, its name cannot.
    terms = tuple(pair for pair in _pairs(row[5]))
    return KeptTheme(row[0], words(row[1]), bool(row[2]), bool(row[3]), number(row[4], -1e9, 1e9) or 0.0, terms)


def _pairs(text: str) -> list[tuple[str, float]]:
    try:
        return [(word, weight) for word, weight in told(text, list) if isinstance(word, str) and number(weight, 0, 1e9) is not None]
    except (NotAKeeper, TypeError, ValueError):
        return []


def every(store: Store) -> tuple[KeptTheme, ...]:
    """The themes that are shown, by number."""
    rows = store.rows(f"SELECT {_COLUMNS} FROM theme WHERE retired_at IS NULL ORDER BY number")
    return store.made(_theme, rows)


def one(store: Store, number: int) -> KeptTheme | None:
    """The theme of this number, if it is shown."""
    row = store.row(f"SELECT {_COLUMNS} FROM theme WHERE number = ? AND retired_at IS NULL", (number,))
    return next(iter(store.made(_theme, [row] if row else [])), None)


def next_number(store: Store) -> int:
    """The first number that no theme ever had."""
    return store.row("SELECT coalesce(max(number), 0) + 1 FROM theme")[0]


def reserve(store: Store, number: int, at: datetime) -> None:
    """Give a number away, to a theme that will be shown from the next redraw on."""
    with store.writing() as connection:
        connection.execute(
            "INSERT INTO theme (number, id, begun_at, retired_at) VALUES (?, ?, ?, ?)",
            (number, new_id(), utc_text(at), utc_text(at)),
        )


def call(store: Store, number: int, name: str) -> None:
    """Let a theme bear the person's name for it."""
    with store.writing() as connection:
        connection.execute("UPDATE theme SET name = ?, named = 1 WHERE number = ?", (name, number))


def pin(store: Store, number: int, pinned: bool) -> None:
    """Say whether a theme is always there."""
    with store.writing() as connection:
        connection.execute("UPDATE theme SET pinned = ? WHERE number = ?", (int(pinned), number))


# what a rebuild reads


OUT_OF_THEMES = "(SELECT key FROM kind WHERE NOT in_themes)"
"""The kinds whose lines belong to no theme, and look for none."""


def plain_lines(store: Store, of_all_kinds: bool = False) -> list[tuple[str, str, date]]:
    """Every line whose kind is in themes (or every line at all) as id, text and night, oldest first."""
    only = "" if of_all_kinds else f"WHERE kind NOT IN {OUT_OF_THEMES} "
    rows = store.rows(f"SELECT id, text, night FROM line {only}ORDER BY number")
    return list(store.made(lambda row: (row[0], words(row[1]), day(row[2])), rows))


def line_count(store: Store) -> int:
    """How many lines have a kind that is in themes."""
    return store.row(f"SELECT count(*) FROM line WHERE kind NOT IN {OUT_OF_THEMES}")[0]


def base(store: Store) -> dict[int, tuple[tuple[str, ...], tuple[str, ...]]]:
    """Line ids and terms of each theme as found before the person's decisions, by number."""
    members: dict[int, list[str]] = {}
    for line_id, theme in store.rows("SELECT line_id, theme FROM theme_base WHERE theme IS NOT NULL ORDER BY line_id"):
        members.setdefault(theme, []).append(line_id)
    terms = dict(store.rows("SELECT number, base_terms FROM theme"))
    return {theme: (tuple(ids), tuple(told(terms[theme], list))) for theme, ids in sorted(members.items())}


def loose_in_base(store: Store) -> tuple[str, ...]:
    """The lines that the last rebuild left without a theme."""
    return tuple(row[0] for row in store.rows("SELECT line_id FROM theme_base WHERE theme IS NULL"))


def build(store: Store) -> Build | None:
    """What is true of the last rebuild; None before the first, and where it is damaged: it can be made again."""
    row = store.row("SELECT built_at, told FROM theme_model WHERE name = 'themes'")
    try:
        return Build(built_at=utc_instant(row[0]), **told(row[1], dict)) if row else None
    except (NotAKeeper, TypeError):
        return None


def arrays(store: Store) -> bytes:
    """What places a new line, as the rebuild gave it; empty when there is nothing."""
    row = store.row("SELECT arrays FROM theme_model WHERE name = 'themes'")
    return row[0] if row else b""


def new_count(store: Store) -> int:
    """How many lines the last rebuild has not seen as they are now."""
    return store.row(
        f"SELECT count(*) FROM line WHERE id NOT IN (SELECT line_id FROM theme_base) AND kind NOT IN {OUT_OF_THEMES}"
    )[0]


def unplaced(store: Store, limit: int) -> list[tuple[str, str, int | None]]:
    """Lines that have not yet looked for a theme, latest first: id, text, and the theme where it was at home."""
    return store.rows(
        "SELECT id, text, theme_base.theme FROM line LEFT JOIN theme_base ON theme_base.line_id = id "
        f"WHERE id NOT IN (SELECT line_id FROM theme_line) AND kind NOT IN {OUT_OF_THEMES} ORDER BY number DESC LIMIT ?",
        (limit,),
    )


# keeping


def put(store: Store, members: Sequence[Membership], seconds: Sequence[Second] = ()) -> None:
    """Say where some lines belong, first and second; those taken out in the meantime are passed over."""
    with store.writing() as connection:
        connection.executemany(
            f"INSERT INTO theme_line (line_id, theme, closeness) SELECT id, ?, ? FROM line WHERE id = ? AND kind NOT IN {OUT_OF_THEMES} "
            "ON CONFLICT (line_id) DO UPDATE SET theme = excluded.theme, closeness = excluded.closeness",
            [(theme, closeness, line_id) for line_id, theme, closeness in members],
        )
        connection.executemany("DELETE FROM theme_second WHERE line_id = ?", [(line_id,) for line_id, _, _ in members])
        connection.executemany(
            "INSERT INTO theme_second (line_id, theme, closeness, offered) SELECT line_id, ?, ?, ? FROM theme_line WHERE line_id = ?",
            [(theme, closeness, int(offered), line_id) for line_id, theme, closeness, offered in seconds],
        )


def let_go_of_kind(store: Store, key: str) -> None:
    """Take the lines of a kind out of all themes; what the person decided of them waits for their return."""
    with store.writing() as connection:
        for layer in ("theme_line", "theme_base"):
            connection.execute(f"DELETE FROM {layer} WHERE line_id IN (SELECT id FROM line WHERE kind = ?)", (key,))


def keep_build(store: Store, build: Build, arrays: bytes | None = None) -> None:
    """Keep what is true of a rebuild; None leaves the arrays as they are."""
    told = {name: getattr(build, name) for name in Build.__slots__ if name != "built_at"}
    with store.writing() as connection:
        connection.execute(
            "INSERT INTO theme_model (name, built_at, told, arrays) VALUES ('themes', ?, ?, coalesce(?, X'')) ON CONFLICT DO UPDATE SET "
            "built_at = excluded.built_at, told = excluded.told, arrays = coalesce(?, arrays)",
            (utc_text(build.built_at), json.dumps(told), arrays, arrays),
        )
