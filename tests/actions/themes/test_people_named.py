"""People marked as threads: every line that names them in any spelling, beside the themes."""

from datetime import date

import pytest

from keeper.actions import people, writing
from keeper.actions.themes.people_named import people_named

LINES = {1: "Coffee with Frau Petersen.", 2: "Jens rowed.", 3: "Petersen, and her bean.", 4: "The petersen lamp; no one.", 5: "Will rang."}


@pytest.fixture
def kept(store, clock):
    for day, text in LINES.items():
        writing.write_line(store, date(2026, 3, day), "memory", text, clock)
    return {name: people.add(store, name) for name in ("Frau Petersen, Petersen", "Jens", "Nobody")}


def test_every_line_that_names_them_in_any_spelling_is_of_their_thread(store, kept):
    threads = people_named(store)
    assert [(one.name, one.lines, one.first.day, one.last.day) for one in threads] == [("Frau Petersen", 2, 1, 3), ("Jens", 1, 2, 2)]


def test_who_rests_has_none_and_is_in_no_other(store, clock, kept):
    writing.write_line(store, date(2026, 3, 6), "memory", "Jens and Petersen at the quay.", clock)
    people.rest(store, kept["Jens"].id)
    (only,) = people_named(store)
    assert only.name == "Frau Petersen" and only.lines == 3
    assert not any("Jens" in line.text for line in only.central)


def test_one_whom_no_line_names_has_none(store, kept):
    assert "Nobody" not in {one.name for one in people_named(store)}
