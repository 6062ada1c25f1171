"""Searches kept under a name: found again as they were, renamed, forgotten, undone; from an older keeper and into another."""

import sqlite3
from datetime import date

import pytest
from sqlite_utils import Database

from keeper.actions import finding, people, writing
from keeper.actions.finding import Sought, kept
from keeper.actions.history import undoing
from keeper.errors import AlreadyKept, UnknownThing, UnreadableText
from keeper.model import Tracker
from keeper.store import trackers
from keeper.store.file.migrations import migrations
from keeper.store.file.opening import FILE, MARK, SCHEMA, open_store
from keeper.store.finding.narrowing import Within
from keeper.store.history.shapes import watch
from keeper.store.places import named as places

NIGHT = date(2025, 1, 5)


@pytest.fixture
def all_of_it(store, clock):
    """A search that is narrowed by everything."""
    writing.write_line(store, NIGHT, "memory", "Pauli and the ferry.", clock)
    writing.set_place(store, NIGHT, "Turku", clock)
    from keeper.model import Act

    mood = trackers.add(store, Tracker("", "mood", "scale", 0, 10, "", "higher", date(2024, 1, 1)), Act("Mood"))
    return Sought(
        "ferry", ("memory",), (places.names(store)[0][1],), (3,), date(2024, 1, 1), date(2026, 1, 1), True,
        (people.add(store, "Pauli").id,), (6,), (12, 1, 2), True, False, (Within(mood, 1.0, 3.5),),
    )  # fmt: skip


def test_it_is_found_again_as_it_was(store, all_of_it):
    kept.keep(store, "  Ferries,  in winter ", all_of_it)
    kept.keep(store, "Ice", Sought("ice"))
    assert [(one.name, one.sought) for one in kept.every(store)] == [("Ferries, in winter", all_of_it), ("Ice", Sought("ice"))]
    assert kept.named(store, "ferries").sought == all_of_it
    with pytest.raises(UnknownThing, match="No search is kept as"):
        kept.named(store, "herring")


def test_the_same_name_looks_for_something_else_then(store):
    kept.keep(store, "Ice", Sought("ice"))
    kept.keep(store, "ICE", Sought("ice", weekdays=(0,)))
    assert [(one.name, one.sought) for one in kept.every(store)] == [("ICE", Sought("ice", weekdays=(0,)))]


def test_it_is_renamed_and_forgotten_and_each_is_undone(store):
    one = kept.rename(store, kept.keep(store, "Ice", Sought("ice")), "Frost")
    kept.forget(store, one)
    assert kept.every(store) == ()
    names = []
    for _ in range(3):
        undoing.undo(store)
        names.append([one.name for one in kept.every(store)])
    assert names == [["Frost"], ["Ice"], []]
    assert undoing.redo(store).sentence == "Done again: The search \u201cIce\u201d kept."
    with pytest.raises(UnknownThing, match="kept no more"):
        kept.forget(store, kept.KeptSearch("gone", "Gone", Sought("x")))


def test_a_name_that_cannot_be_is_refused_in_words(store):
    kept.keep(store, "Ice", Sought("ice"))
    other = kept.keep(store, "Felt", Sought("felt"))
    with pytest.raises(AlreadyKept, match="already"):
        kept.rename(store, other, "icé")
    for name in ("", " ! ", "x" * 61):
        with pytest.raises(UnreadableText):
            kept.keep(store, name, Sought("ice"))
    with pytest.raises(UnreadableText, match="nothing to look for"):
        kept.keep(store, "Nothing", Sought(" ", best_first=True))


def test_what_has_another_id_here_is_known_by_its_name(store, all_of_it, clock):
    one = kept.keep(store, "All", all_of_it)
    people.take_out(store, all_of_it.people[0])
    again = people.add(store, "Pauli")
    assert kept.every(store)[0].sought.people == (again.id,)
    people.take_out(store, again.id)
    assert kept.every(store)[0].sought.people == all_of_it.people
    assert finding.with_every_word(store, Sought(people=one.sought.people)) == ()


def test_one_that_is_damaged_is_left_out_and_told(store):
    kept.keep(store, "Ice", Sought("ice"))
    kept.keep(store, "Felt", Sought("felt"))
    with store.writing() as connection:
        connection.execute("UPDATE kept_search SET sought = '{\"months\": 3}' WHERE name = 'Ice'")
    assert [one.name for one in kept.every(store)] == ["Felt"]
    assert any("a search that is kept" in told for told in store.news_of_damage())


def test_an_older_keeper_gets_room_for_them(folder):
    (folder / "backups").mkdir(parents=True)
    old = Database(sqlite3.connect(folder / FILE, isolation_level=None))
    old.execute("PRAGMA journal_mode = WAL")
    later = sorted(one.name for one in migrations.pending(old) if one.name >= "m022")
    migrations.apply(old, stop_before=later[0])
    watch(old.conn)
    old.execute(f"PRAGMA application_id = {MARK}")
    old.execute("PRAGMA user_version = 19")
    old.conn.close()
    with open_store(folder) as store:
        assert store.row("PRAGMA user_version") == (SCHEMA,)
        kept.keep(store, "Ice", Sought("ice"))
        undoing.undo(store)
        assert kept.every(store) == ()
