"""Trackers and readings in the file: what was noted stays as it was noted."""

import sqlite3
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from soundness import whole
from sqlite_utils import Database

from keeper.errors import UnknownThing
from keeper.model import Reading, Tracker
from keeper.store import open_store, trackers
from keeper.store.file.migrations import migrations
from keeper.store.file.opening import FILE, MARK, SCHEMA

NIGHT = date(2026, 6, 3)
MOOD = Tracker("m", "mood", "scale", 0.0, 10.0, "", "higher", date(2026, 1, 1), None, 0.5, "m", True)
WAKING = Tracker("w", "waking", "amount", 35.0, 38.5, "\u00b0C", "neither", date(2026, 1, 1))


def noted(store, night: date = NIGHT) -> dict[str, Reading]:
    return {one.tracker_id: one for one in trackers.readings(store, night, night)}


def test_a_tracker_comes_back_as_it_was_kept(store):
    for one in (MOOD, WAKING):
        trackers.add(store, one)
    assert trackers.every(store) == (MOOD, WAKING)
    changed = replace(MOOD, name="spirits", key="s", step=1.0, body=False, ended=NIGHT)
    trackers.change(store, changed)
    assert trackers.by_id(store, "m") == changed and trackers.by_id(store, "w") == WAKING
    assert trackers.by_id(store, "x") is None


def test_a_reading_keeps_its_two_times_and_its_unit(store):
    trackers.add(store, WAKING)
    trackers.add(store, Tracker("s", "sleep", "hours", 0, 12, "h", "higher", date(2026, 1, 1)))
    given_ = {Reading(NIGHT, "s", 7.25, "23:30", "06:45"), Reading(NIGHT, "w", 97.9, unit="\u00b0F")}
    trackers.note(store, given_)
    assert set(trackers.readings(store, NIGHT, NIGHT)) == given_


def test_noting_again_replaces_and_taking_back_leaves_nothing(store):
    trackers.add(store, WAKING)
    trackers.note(store, [Reading(NIGHT, "w", 97.9, unit="\u00b0F")])
    trackers.note(store, [Reading(NIGHT, "w", 36.6)])
    assert noted(store) == {"w": Reading(NIGHT, "w", 36.6)}
    trackers.take_back(store, "w", NIGHT)
    assert noted(store) == {} and trackers.noted(store, "w") == (0, None, None)


def test_the_same_again_changes_nothing(store):
    trackers.add(store, MOOD)
    seen = []
    for value in (7.0, 7.0, 8.0):
        trackers.note(store, [Reading(NIGHT, "m", value)])
        seen += store.rows("SELECT noted_at FROM reading")
    assert seen[0] == seen[1] != seen[2]


def test_nothing_is_kept_of_a_reading_without_its_tracker(store):
    trackers.add(store, MOOD)
    with pytest.raises(UnknownThing):
        trackers.note(store, [Reading(NIGHT, "m", 7.0), Reading(NIGHT, "nobody", 7.0)])
    assert noted(store) == {}


def test_a_changed_scale_and_unit_leave_what_was_noted_on_the_old_ones(store):
    for one in (MOOD, WAKING):
        trackers.add(store, one)
    trackers.note(store, [Reading(NIGHT, "m", 7.0), Reading(NIGHT, "w", 36.6)])
    trackers.change(store, replace(MOOD, low=1.0, high=5.0))
    trackers.change(store, replace(WAKING, unit="\u00b0F"))
    assert noted(store) == {"m": Reading(NIGHT, "m", 7.0, "", "", "", 0.0, 10.0),
                            "w": Reading(NIGHT, "w", 36.6, "", "", "\u00b0C", 35.0, 38.5)}  # fmt: skip
    later = date(2026, 6, 4)
    trackers.note(store, [Reading(later, "m", 4.0), Reading(later, "w", 98.1)])
    assert noted(store, later) == {"m": Reading(later, "m", 4.0), "w": Reading(later, "w", 98.1)}
    trackers.change(store, replace(MOOD, low=0.0, high=100.0))
    assert (noted(store)["m"].high, noted(store, later)["m"].high) == (10.0, 5.0)
    # Noted anew it is on the scale of now.
    trackers.note(store, [Reading(NIGHT, "m", 70.0)])
    assert noted(store)["m"] == Reading(NIGHT, "m", 70.0)


def test_the_highest_is_told_for_each_unit(store):
    trackers.add(store, WAKING)
    trackers.note(store, [Reading(date(2026, 6, day), "w", value, unit=unit) for day, value, unit in (
        (1, 36.2, ""), (2, 36.6, ""), (3, 99.0, "\u00b0F"), (4, 98.0, "\u00b0F"))])  # fmt: skip
    assert {(one.value, one.unit) for one in trackers.highest(store, "w")} == {(36.6, ""), (99.0, "\u00b0F")}
    assert trackers.highest(store, "nobody") == ()


def test_only_a_tracker_without_readings_can_be_removed(store):
    for one in (MOOD, WAKING):
        trackers.add(store, one)
    trackers.note(store, [Reading(NIGHT, "m", 0.0)])
    for one in (MOOD, WAKING):
        trackers.remove(store, one.id)
    assert trackers.every(store) == (MOOD,) and noted(store)["m"].value == 0.0


VALUES = st.dictionaries(st.sampled_from("abcd"), st.floats(0, 10), max_size=4)
CHANGES = st.lists(st.tuples(st.sampled_from("abcd"), st.sampled_from(["rename", "retire", "scale", "unit", "first", "last"])), max_size=8)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(VALUES, CHANGES)
def test_whatever_becomes_of_trackers_what_was_noted_stays_and_nothing_else_is_noted(store, values, changes):
    with store.writing() as connection:
        for table in ("reading", "tracker_scale", "tracker"):
            connection.execute(f"DELETE FROM {table}")
    for name in "abcd":
        trackers.add(store, replace(WAKING, id=name, name=name))
    trackers.note(store, [Reading(NIGHT, name, value) for name, value in values.items()])
    for number, (name, what) in enumerate(changes):
        one = trackers.by_id(store, name)
        if what in ("first", "last"):
            rest = [other.id for other in trackers.every(store) if other.id != name]
            trackers.put_in_order(store, [name, *rest] if what == "first" else [*rest, name])
        else:
            trackers.change(store, {
                "rename": replace(one, name=f"{name} {number}"), "retire": replace(one, ended=date(2026, 5, 1)),
                "scale": replace(one, low=float(number), high=float(number + 9)),
                "unit": replace(one, unit="\u00b0F" if one.unit == "\u00b0C" else "\u00b0C"),
            }[what])  # fmt: skip
    assert {name: one.value for name, one in noted(store).items()} == values
    assert {one.unit or trackers.by_id(store, name).unit for name, one in noted(store).items()} <= {"\u00b0C"}
    assert sorted(one.id for one in trackers.every(store)) == list("abcd")
    assert whole(store)


@pytest.fixture
def version_6(folder):
    """A keeper before readings said how they were noted."""
    (folder / "backups").mkdir(parents=True)
    old = Database(sqlite3.connect(folder / FILE, isolation_level=None))
    old.execute("PRAGMA journal_mode = WAL")
    later = sorted(one.name for one in migrations.pending(old) if one.name >= "m007")
    migrations.apply(old, stop_before=later[0])
    old.execute("INSERT INTO about (name, value) VALUES ('id', 'one')")
    old.execute("INSERT INTO night (date, begun_at) VALUES ('2026-06-03', '2026-06-03T20:00:00.000000Z')")
    for row in (("m", "mood", "scale", 0.0, 10.0, ""), ("s", "sleep", "hours", 0.0, 12.0, "h"), ("t", "tea", "mark", None, None, "")):
        old.execute(
            "INSERT INTO tracker (id, name, form, low, high, unit, better, began, position) "
            "VALUES (?, ?, ?, ?, ?, ?, 'neither', '2026-01-01', 0)", row,
        )  # fmt: skip
        old.execute("INSERT INTO reading (night, tracker_id, value, noted_at) VALUES ('2026-06-03', ?, 0, '2026-06-03T20:00:00.000000Z')", row[:1])
    old.execute(f"PRAGMA application_id = {MARK}")
    old.execute("PRAGMA user_version = 6")
    old.conn.close()
    return folder


def test_a_keeper_of_version_6_keeps_its_trackers_and_readings(version_6):
    with open_store(version_6) as store:
        assert store.row("PRAGMA user_version")[0] == SCHEMA
        assert trackers.every(store) == (
            Tracker("m", "mood", "scale", 0.0, 10.0, "", "neither", date(2026, 1, 1), body=True),
            Tracker("s", "sleep", "hours", 0.0, 12.0, "h", "neither", date(2026, 1, 1), body=True),
            Tracker("t", "tea", "mark", None, None, "", "neither", date(2026, 1, 1)),
        )
        assert noted(store) == {name: Reading(NIGHT, name, 0.0) for name in "mst"}
        trackers.change(store, replace(trackers.by_id(store, "m"), low=1.0, high=5.0))
        assert (noted(store)["m"].low, noted(store)["m"].high) == (0.0, 10.0)
        assert whole(store)
    copy = sqlite3.connect(version_6 / "backups" / "before-upgrade-from-6.db")
    assert copy.execute("SELECT count(*) FROM reading").fetchone() == (3,)
    copy.close()
