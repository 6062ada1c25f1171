"""People whose names the person marked, and the lines that have those names."""

import json
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date

from keeper.model import Person
from keeper.store.file.opening import Store
from keeper.store.folding import any_named
from keeper.store.ids import new_id
from keeper.store.moments import day, line_number, words

_COLUMNS = "id, name, EXISTS (SELECT 1 FROM resting WHERE what = 'person' AND ref = person.id)"
_AT_FIRST = 16


def every(store: Store) -> tuple[Person, ...]:
    """All people marked, by name."""
    rows = store.rows(f"SELECT {_COLUMNS} FROM person ORDER BY name, id")
    return store.made(lambda row: Person(row[0], words(row[1]), bool(row[2])), rows)


def by_id(store: Store, person_id: str) -> Person | None:
    """The person with this id."""
    row = store.row(f"SELECT {_COLUMNS} FROM person WHERE id = ?", (person_id,))
    return Person(row[0], row[1], bool(row[2])) if row else None


def names(store: Store) -> tuple[str, ...]:
    """Every spelling of every name, each person's together."""
    return tuple(name for person in every(store) for name in person.names)


def resting_names(store: Store) -> tuple[str, ...]:
    """Every spelling of the names that rest."""
    return tuple(name for person in every(store) if person.resting for name in person.names)


def resting_on_photos(store: Store) -> frozenset[str]:
    """The ids of photos that somebody who rests is marked on."""
    asked = "SELECT photo_id FROM photo_person JOIN resting ON what = 'person' AND ref = person_id"
    return frozenset(row[0] for row in store.rows(asked))


def add(store: Store, person: Person) -> Person:
    """Mark someone; an empty id is given one. Returns the person as kept."""
    kept = replace(person, id=person.id or new_id(), resting=False)
    with store.writing() as connection:
        connection.execute("INSERT INTO person (id, name) VALUES (?, ?)", (kept.id, kept.name))
    return kept


def rename(store: Store, person_id: str, name: str) -> None:
    """Write a name anew."""
    with store.writing() as connection:
        connection.execute("UPDATE person SET name = ? WHERE id = ?", (name, person_id))


def take_out(store: Store, person_id: str) -> None:
    """Mark someone no more, and let them rest no more; lines stay as they are."""
    with store.writing() as connection:
        connection.execute("DELETE FROM resting WHERE what = 'person' AND ref = ?", (person_id,))
        # By themselves, so that each comes back after the person, should this be undone.
        for table in ("photo_person", "person_day", "person_about"):
            connection.execute(f"DELETE FROM {table} WHERE person_id = ?", (person_id,))
        connection.execute("DELETE FROM person WHERE id = ?", (person_id,))


def texts_naming(store: Store, spellings: Sequence[str], before: date | None = None) -> Iterator[str]:
    """The texts of lines (of nights before a date) that have any of these names by the index of words, oldest first.

    The index takes neither capitals nor accents to heart: whoever minds them
    looks at each text. Asked for a few at a time, since one may be enough.
    """
    match = any_named(spellings)
    after, limit, many = -1, line_number(before or date.max, 0), _AT_FIRST
    while match:
        rows = store.rows(
            "SELECT number, text FROM line_words JOIN line ON number = line_words.rowid "
            "WHERE line_words MATCH ? AND line_words.rowid > ? AND line_words.rowid < ? "
            "ORDER BY line_words.rowid LIMIT ?",
            (match, after, limit, many),
        )
        yield from (row[1] for row in rows)
        if len(rows) < many:
            return
        after, many = rows[-1][0], many * 8


def lines_with(store: Store, spellings: Sequence[str]) -> tuple[tuple[date, str], ...]:
    """Night and text of every line that has any of these names by the index of words, as ``texts_naming`` finds them."""
    return tuple((night, text) for _, night, text in numbered_with(store, spellings))


def numbered_with(store: Store, spellings: Sequence[str]) -> tuple[tuple[int, date, str], ...]:
    """The same, each with the line's number."""
    match = any_named(spellings)
    rows = store.rows(
        "SELECT number, night, text FROM line_words JOIN line ON number = line_words.rowid WHERE line_words MATCH ? "
        "ORDER BY line_words.rowid", (match,),
    ) if match else ()  # fmt: skip
    return store.made(lambda row: (row[0], day(row[1]), words(row[2])), rows)


def places_of(store: Store, nights: Sequence[date]) -> tuple[tuple[str, str, int], ...]:
    """The places at which these nights were spent: id, name and how many of them, the most first."""
    rows = store.rows(
        "SELECT place.id, place.name, count(*) FROM json_each(?) AS wanted JOIN night ON night.date = wanted.value "
        "JOIN place ON place.id = night.place_id GROUP BY place.id ORDER BY count(*) DESC, place.name",
        (json.dumps([night.isoformat() for night in nights]),),
    )
    return store.made(lambda row: (words(row[0]), words(row[1]), row[2]), rows)
