"""Readings on one axis, kept in the file."""

import sqlite3
from datetime import date

import pytest
from sqlite_utils import Database

from keeper.actions.readings import axes
from keeper.errors import UnknownThing
from keeper.model import Reading, Tracker
from keeper.store import open_store, trackers
from keeper.store.file.migrations import migrations
from keeper.store.file.opening import FILE, MARK, SCHEMA


def scale(name: str, high: float = 10.0) -> Tracker:
    return Tracker(name, name, "scale", 0.0, high, "", "neither", date(2026, 1, 1))


@pytest.fixture
def known(store):
    for one in (scale("mood"), scale("stress"), scale("rest"), scale("pain", 5.0)):
        trackers.add(store, one)
    return store


def kept(store) -> dict[str, str]:
    return {one.id: one.axis for one in trackers.every(store)}


def groups(store) -> list[list[str]]:
    return [[one.name for one in group] for group in axes.shared(trackers.every(store))]


def test_two_share_an_axis_until_they_stand_alone(known):
    axes.put_on_one_axis(known, ["stress", "mood"])
    assert groups(known) == [["mood", "stress"]] and not kept(known)["rest"]
    axes.put_on_one_axis(known, ["mood", "rest"])
    assert groups(known) == [["mood", "rest"]] and not kept(known)["stress"]
    axes.stand_alone(known, ["mood", "rest"])
    assert not any(kept(known).values())


def test_nothing_noted_and_no_name_changes(known):
    trackers.note(known, [Reading(date(2026, 6, 3), "mood", 7.0)])
    before = trackers.readings(known, date(2026, 6, 3), date(2026, 6, 3))
    axes.put_on_one_axis(known, ["mood", "stress"])
    assert trackers.readings(known, date(2026, 6, 3), date(2026, 6, 3)) == before
    trackers.change(known, scale("mood"))
    assert groups(known) == [["mood", "stress"]]


@pytest.mark.parametrize("ids", [["mood", "pain"], ["mood"], ["mood", "nobody"], ["mood", "stress", "rest", "pain"]])
def test_what_cannot_be_on_one_axis_is_refused_with_a_sentence(known, ids):
    with pytest.raises(UnknownThing, match=r"\.$"):
        axes.put_on_one_axis(known, ids)
    assert not any(kept(known).values())


def test_the_act_is_told_as_the_person_would(known, monkeypatch):
    told = []
    writing = type(known).writing
    monkeypatch.setattr(type(known), "writing", lambda self, act=None: told.append(act) or writing(self, act))
    axes.put_on_one_axis(known, ["mood", "stress", "rest"])
    axes.stand_alone(known, ["mood"])
    assert [act.told for act in told if act] == ["mood, stress and rest on one axis"] + ["mood each on an axis of its own"] * 2


def test_an_older_keeper_comes_along_with_each_reading_alone(folder):
    (folder / "backups").mkdir(parents=True)
    old = Database(sqlite3.connect(folder / FILE, isolation_level=None))
    old.execute("PRAGMA journal_mode = WAL")
    later = sorted(one.name for one in migrations.pending(old) if one.name >= "m011")
    migrations.apply(old, stop_before=later[0])
    old.execute("INSERT INTO tracker (id, name, form, unit, better, began, position) "
                "VALUES ('m', 'mood', 'scale', '', 'higher', '2026-01-01', 0)")  # fmt: skip
    old.execute(f"PRAGMA application_id = {MARK}")
    old.execute("PRAGMA user_version = 10")
    old.conn.close()
    with open_store(folder) as store:
        assert store.row("PRAGMA user_version") == (SCHEMA,) and kept(store) == {"m": ""}
