"""Acts are let go after two years, beyond a hundred thousand, or when the keeper got another shape; never any words."""

from datetime import date, timedelta

import pytest
from whole_keeper import let_all_go

from keeper.actions import opening, writing
from keeper.errors import UnknownThing
from keeper.store import lines
from keeper.store.history import acts, letting_go, shapes, turning
from keeper.store.history.triggers import lift

NIGHT = date(2026, 11, 14)


def write(store, clock, *texts, kind="memory"):
    for text in texts:
        writing.write_line(store, NIGHT, kind, text, clock)


def undo(store, times=1):
    for _ in range(times):
        turning.turn(store, turning.next_undone(store))


def numbers(store):
    return [one.number for one in acts.latest(store, 99)]


def said(store, kind="memory"):
    return {one.text for one in lines.wordings(store, NIGHT, kind)}


def test_the_oldest_beyond_a_number_are_let_go(store, clock):
    write(store, clock, "one", "two", "three", "four")
    assert list(letting_go.let_go_old(store, most=2)) == [] and numbers(store) == [4, 3]
    assert said(store) == {"one", "two", "three"}
    undo(store, 2)
    assert lines.one(store, NIGHT, "memory").text == "two"
    with pytest.raises(UnknownThing):
        turning.turn(store, 1)
    # Nothing is left behind of those that went.
    assert store.rows("SELECT min(seq) FROM change")[0][0] > 4


def test_those_of_two_years_ago_are_let_go_when_the_keeper_is_tidied(store, clock):
    write(store, clock, "one", "two")
    with store.unnoted() as connection:
        connection.execute("UPDATE act SET at = '2020-01-01T00:00:00.000000Z' WHERE number = 1")
    opening.tidy(store)
    assert numbers(store) == [2] and lines.one(store, NIGHT, "memory").text == "two"


def test_words_that_were_undone_become_earlier_wordings(store, clock):
    write(store, clock, "one", "two")
    undo(store, 2)
    write(store, clock, "other", kind="gratitude")
    assert said(store) == set(), "they are among the acts"
    let_all_go(store)
    assert said(store) == {"one", "two"} and numbers(store) == []
    assert store.rows("SELECT count(*) FROM change") == store.rows("SELECT count(*) FROM act_more") == [(0,)]


def test_words_of_another_that_were_put_by_and_undone_are_not_lost_either(store, clock):
    writing.keep_draft(store, NIGHT, "memory", "typed elsewhere", clock)
    write(store, clock, "one")
    assert said(store) == {"typed elsewhere"}
    undo(store)
    let_all_go(store)
    assert said(store) == {"typed elsewhere", "one"}


def test_what_stands_already_is_not_kept_twice(store, clock):
    write(store, clock, "one", "two")
    undo(store)
    write(store, clock, "two")
    let_all_go(store)
    assert [one.text for one in lines.wordings(store, NIGHT, "memory")] == ["one"]


def test_another_shape_lets_go_of_what_came_before_it_and_says_so(store, clock):
    write(store, clock, "one", "two")
    undo(store)
    with store.unnoted() as connection:
        lift(connection)
        connection.execute("ALTER TABLE line ADD COLUMN more TEXT")
        shapes.watch(connection)
    assert numbers(store) == [] and acts.let_go_until(store) is not None
    assert said(store) == {"two"} and lines.one(store, NIGHT, "memory").text == "one"
    write(store, clock, "three")
    undo(store)
    assert lines.one(store, NIGHT, "memory").text == "one"


def test_another_shape_of_what_was_not_touched_lets_nothing_go(store, clock):
    write(store, clock, "one")
    with store.unnoted() as connection:
        lift(connection)
        connection.execute("ALTER TABLE goal ADD COLUMN more TEXT")
        connection.execute("CREATE TABLE thing (id INTEGER PRIMARY KEY, what TEXT) STRICT")
        connection.execute("UPDATE line SET folded = 'moved about'")
        shapes.watch(connection)
    assert numbers(store) == [1] and acts.let_go_until(store) is None
    with store.writing() as connection:
        connection.execute("INSERT INTO thing (what) VALUES ('new')")
    undo(store)
    assert store.rows("SELECT * FROM thing") == []


def test_two_years_is_what_is_promised():
    assert timedelta(days=2 * 365 + 1) <= letting_go.KEPT_FOR and letting_go.MOST == 100_000
