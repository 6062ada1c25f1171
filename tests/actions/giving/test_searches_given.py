"""Kept searches in an archive, whole or in part, and taken into another keeper."""

import json
from datetime import date

import pytest

from keeper.actions import people, writing
from keeper.actions.finding import Sought, find, kept
from keeper.actions.giving.making import give
from keeper.actions.giving.taking import take
from keeper.actions.giving.wanted import ToGive
from keeper.actions.history import undoing
from keeper.actions.opening import open_or_begin
from keeper.actions.places import known as places

EARLY, LATE = date(2023, 11, 14), date(2024, 3, 1)
FEW = frozenset(("json", "text", "tables"))


@pytest.fixture
def searches(store, clock):
    """Two places, one of which rests, and somebody who does."""
    writing.write_line(store, EARLY, "memory", "The felt in Turku was damp, and Agneta laughed.", clock)
    turku = writing.set_place(store, EARLY, "Turku", clock)
    writing.write_line(store, LATE, "memory", "Better left alone.", clock)
    riga = writing.set_place(store, LATE, "Riga", clock)
    agneta = people.add(store, "Agneta")
    writing.write_line(store, EARLY, "gratitude", "Marit on the stairs.", clock)
    people.rest_by_name(store, "Marit")
    places.rest_place(store, riga.id)
    for name, sought in (
        ("Felt", Sought("felt", months=(11, 12), best_first=True)),
        ("Turku", Sought(places=(turku.id,), people=(agneta.id,))),
        ("Then", Sought("felt", last=EARLY)),
        ("Later", Sought("felt", first=LATE)),
        ("East", Sought("felt", places=(riga.id,))),
        ("Stairs", Sought("Marit")),
        ("Quay", Sought("the quay of Riga")),
        ("Asleep", Sought("felt", resting=True)),
    ):
        kept.keep(store, name, sought)


def given(folder) -> list[str]:
    """The names of the searches in an archive."""
    tables = json.loads((folder / "data/json/keeper.json").read_text("utf-8"))["tables"]
    return sorted(row["name"] for row in tables.get("kept_search", []))


@pytest.mark.parametrize(
    ("wanted", "names"),
    [
        (ToGive(FEW, resting=False), ["Felt", "Then", "Turku"]),
        (ToGive(FEW, first=LATE), ["Asleep", "East", "Felt", "Later", "Quay"]),
        (ToGive(FEW, positions=False), ["Asleep", "East", "Felt", "Later", "Quay", "Stairs", "Then", "Turku"]),
    ],
    ids=["awake", "span", "without positions"],
)
def test_a_part_has_those_that_name_nothing_held_back(store, searches, clock, tmp_path, wanted, names):
    give(store, tmp_path / "archive", wanted, clock)
    assert given(tmp_path / "archive") == names


def test_they_come_into_another_keeper_and_look_for_the_same_there(store, searches, clock, tmp_path):
    give(store, tmp_path / "archive", ToGive(FEW), clock)
    with open_or_begin(tmp_path / "other") as other:
        take(other, tmp_path / "archive", clock)
        there = {one.name: one.sought for one in kept.every(other)}
        assert len(there) == 8 and there["Felt"] == Sought("felt", months=(11, 12), best_first=True)
        assert [one.line.night for one in find(other, there["Turku"])] == [EARLY]
        assert take(other, tmp_path / "archive", clock).act is None
        undoing.undo(other)
        assert kept.every(other) == ()
