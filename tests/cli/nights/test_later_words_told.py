"""A later word by command."""

from datetime import date

import pytest

from keeper.actions import writing
from keeper.actions.remembering import later
from keeper.store import lines

pytestmark = pytest.mark.usefixtures("at_home")


def test_it_is_said_shown_and_taken_out(run, store, clock):
    line = writing.write_line(store, date(2023, 11, 14), "memory", "The piano in Turku had lost its voice.", clock)
    assert run("later", "2023-11-14", "It", "has", "it", "again.") == (0, "Under Memory, Tuesday 14 November 2023.\n", "")
    assert "Later: It has it again. (2026-11-14)" in run("show", "2023-11-14")[1]
    run("later", "2023-11-14", "")
    assert lines.by_id(store, line.id).later == ()


def test_what_cannot_be_said_is_told(run, store, clock):
    writing.write_line(store, date(2023, 11, 14), "memory", "The piano in Turku had lost its voice.", clock)
    assert "Say what you think of it now" in run("later", "2023-11-14")[2]
    assert "No scale was noted on that night." in run("later", "2023-11-14", "--looks", "6")[2]
    assert "There is no line on 2023-11-13." in run("later", "2023-11-13", "Where?")[2]
    writing.write_line(store, date(2026, 11, 14), "memory", "Tonight.", clock)
    assert "on a night after the line\u2019s own" in run("later", "2026-11-14", "Too soon.")[2]


def test_what_was_said_on_another_night_is_changed_and_removed(run, store, clock):
    line = writing.write_line(store, date(2023, 11, 14), "memory", "The piano in Turku had lost its voice.", clock)
    later.write(store, line.id, date(2024, 11, 14), "Sold, I hear.", clock)
    assert run("later", "2023-11-14", "--said", "2024-11-14", "Not", "sold.")[0] == 0
    assert [(one.said_on, one.text) for one in lines.by_id(store, line.id).later] == [(date(2024, 11, 14), "Not sold.")]
    assert "Nothing was said of that line on 2025-11-14." in run("later", "2023-11-14", "--said", "2025-11-14", "Sold.")[2]
    run("later", "2023-11-14", "--said", "2024-11-14", "")
    assert lines.by_id(store, line.id).later == ()
