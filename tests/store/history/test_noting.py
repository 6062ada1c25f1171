"""What is noted as an act, and that nothing a person does is left out."""

import re
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from whole_keeper import content

import keeper.store
from keeper.actions import writing
from keeper.actions.opening import open_again
from keeper.model import Act
from keeper.store import people, settings
from keeper.store.history import acts, turning, watched
from keeper.store.history.triggers import lay, lift

NIGHT = date(2026, 11, 14)


def told(store) -> list[str]:
    return [one.act.told for one in acts.latest(store, 99)][::-1]


def triggers(store) -> set[str]:
    return {name for (name,) in store.rows("SELECT name FROM sqlite_schema WHERE type = 'trigger' AND name LIKE 'history_%'")}


def test_every_table_is_watched_or_listed_with_a_reason(store):
    every = {name for (name,) in store.rows(
        "SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND substr(name, 1, 1) <> '_' "
        "AND name NOT LIKE 'sqlite_%'")}  # fmt: skip
    seen = {table.name for table in watched.watched(store.connection)}
    assert seen | watched.NOT_WATCHED.keys() == every and not seen & watched.NOT_WATCHED.keys()
    assert all(watched.NOT_WATCHED.values())
    assert triggers(store) == {f"history_{name}_{when}" for name in seen for when in ("in", "out", "anew")}
    assert {"line", "wording", "night", "setting", "theme_decision"} <= seen


def test_every_watched_table_has_a_key(store):
    assert [table.name for table in watched.watched(store.connection) if not table.key] == []


def test_nothing_is_replaced_and_nothing_put_in_without_its_columns():
    """No trigger hears of a row that is replaced."""
    texts = {path.name: path.read_text("utf-8") for path in Path(keeper.store.__file__).parent.rglob("*.py")}
    bad = re.compile(r"OR REPLACE|INTO \{?\w+\}? (VALUES|SELECT)")
    spoken = {name: bad.findall(text) for name, text in texts.items() if name not in ("migrations.py", "keeping.py")}
    assert {name: found for name, found in spoken.items() if found} == {}
    assert "OR REPLACE" not in texts["keeping.py"]


def test_an_act_is_one_transaction_and_says_what_where_and_from_where(store, clock):
    writing.write_line(store, NIGHT, "memory", "Fog.", clock)
    store.done_from = "command line"
    writing.set_place(store, NIGHT, "Visby", clock)
    line, place = acts.latest(store, 9)[::-1]
    assert (line.act, line.done_from) == (Act("Memory for the night of 14 November 2026", "night", NIGHT, "memory"), "window")
    assert (place.act.told, place.done_from) == ("Visby for the night of 14 November 2026", "command line")
    assert line.number < place.number and line.at <= place.at


def test_the_outermost_name_holds_and_an_inner_one_where_there_is_none(store):
    with store.writing(Act("Outer")), store.writing(Act("Inner")):
        settings.write(store, {"ink": "plum"})
    with store.writing(), store.writing(Act("Inner")):
        settings.write(store, {"ink": "sepia"})
    assert told(store) == ["Outer", "Inner"]


def test_nothing_changed_is_no_act(store, clock):
    for _ in range(2):
        writing.write_line(store, NIGHT, "memory", "Fog.", clock)
        writing.keep_draft(store, NIGHT, "gratitude", "being typed", clock)
        settings.write(store, {"page": "night", "window": "x"})
    assert told(store) == ["Memory for the night of 14 November 2026"]


def test_what_fails_is_no_act(store):
    with pytest.raises(ZeroDivisionError), store.writing(Act("Broken")):
        settings.write(store, {"ink": "plum"})
        raise ZeroDivisionError
    assert told(store) == [] and store.rows("SELECT * FROM change") == []


def test_several_transactions_are_one_act_though_another_writes_between(store, folder):
    with open_again(folder) as other, store.going_on(Act("Many")):
        for number in range(3):
            settings.write(store, {f"m{number}": "x"})
            settings.write(other, {f"o{number}": "x"})
    assert told(store) == ["Many", "A change", "A change", "A change"]
    turning.turn(store, 1)
    assert settings.read(store).keys() == {"o0", "o1", "o2"}
    turning.turn(store, 1)
    assert len(settings.read(store)) == 6


def test_what_goes_on_with_an_act_that_was_undone_meanwhile_is_another(store):
    with store.going_on(Act("Many")) as one:
        settings.write(store, {"a": "x"})
        turning.turn(store, one.number)
        settings.write(store, {"b": "x"})
    assert told(store) == ["Many", "Many"] and settings.read(store) == {"b": "x"}


def test_an_action_without_an_act_is_noticed(store, monkeypatch):
    """What the fixture of all tests does: here a room of the program writes and says not what."""
    source = "def act(store):\n    from keeper.store import settings\n    settings.write(store, {'ink': 'plum'})"
    room = {"__name__": "keeper.actions.violating"}
    exec(source, room)
    with pytest.raises(AssertionError, match="violating changed something"):
        room["act"](store)
    assert settings.read(store) == {}


def test_the_window_is_left_where_it_was_and_settings_are_undone(store):
    settings.write(store, {"ink": "plum", "page": "month"})
    settings.write(store, {"page": "year"})
    turning.turn(store, turning.next_undone(store))
    assert settings.read(store) == {"page": "year"}


# No reading is larger, and what is smaller than any that is typed loses digits in SQLite itself.
FLOATS = st.floats(-1e15, 1e15).filter(lambda value: value == 0 or abs(value) > 1e-15)
VALUES = st.one_of(st.none(), st.integers(-(2**63), 2**63 - 1), FLOATS, st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0")), st.binary())


@given(st.lists(st.tuples(VALUES, st.none() | FLOATS | st.just(float('inf')), st.none() | st.binary()), max_size=4), VALUES)
def test_values_of_all_sorts_come_back_to_the_last_digit(store, rows, other):
    with store.unnoted() as connection:
        lift(connection)
        connection.execute("CREATE TABLE IF NOT EXISTS sort (id INTEGER PRIMARY KEY, any ANY, real REAL, blob BLOB) STRICT")
        connection.execute("DELETE FROM sort")
        lay(connection)
    with store.writing(Act("In")) as connection:
        connection.executemany("INSERT INTO sort (any, real, blob) VALUES (?, ?, ?)", rows)
    there = content(store)
    with store.writing(Act("Anew")) as connection:
        connection.execute("UPDATE sort SET any = ?, real = 1, blob = x'00'", (other,))
    with store.writing(Act("Out")) as connection:
        connection.execute("DELETE FROM sort")
    for _ in range(2 if rows else 0):
        turning.turn(store, turning.next_undone(store))
    assert content(store) == there


def test_one_that_marks_and_renames_is_undone_in_turn(store):
    from keeper.model import Person

    with store.writing(Act("Marked")):
        kept = people.add(store, Person("", "Aino"))
    with store.writing(Act("Called")):
        people.rename(store, kept.id, "Aino Mets")
    turning.turn(store, turning.next_undone(store))
    assert people.names(store) == ("Aino",)
    turning.turn(store, turning.next_undone(store))
    assert people.names(store) == ()
    assert turning.next_undone(store) is None
