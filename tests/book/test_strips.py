"""The readings of a month as the templates draw them."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper import cautions
from keeper.book import pages
from keeper.book.coverage import faces
from keeper.book.letters import Compositor
from keeper.book.strips import strip
from keeper.review.book import BookMonth, BookStrip, MonthSheet
from keeper.shipped import resource

LETTERS = Compositor(faces(resource("fonts")))
VALUES = st.lists(st.none() | st.just(0.0) | st.floats(0, 10), min_size=28, max_size=31)


def drawn(form="hours", values=(), **told):
    return strip(BookStrip("sleep", "h", form, 0, 12, tuple(values), **told), 112, LETTERS)


def days(runs) -> set[int]:
    return {day for run in runs for day, _ in run}


def test_a_line_is_broken_where_nothing_was_noted_and_a_nought_is_on_it():
    assert drawn(values=(6.0, None, 0.0, 15.0, None))["lines"] == [[[(1, 0.5)], [(3, 0.0), (4, 1.0)]]]


def test_a_nought_of_a_stick_and_a_no_are_drawn_and_what_was_not_noted_is_not():
    cups = drawn("count", (3.0, 0.0, None), how="stick")
    assert (cups["lines"], cups["noughts"], cups["noes"]) == ([[[(1, 0.25)]]], [2], [])
    swam = strip(BookStrip("swam", "", "mark", 0, 1, (1.0, 0.0, None, 1.0)), 112, LETTERS)
    assert (swam["lines"], swam["noes"], swam["known"], swam["scale"]) == ([[[(1, 1.0)], [(4, 1.0)]]], [2], [(1, 2), (4, 4)], "2 of 3")


@given(VALUES, st.sampled_from([("hours", "line"), ("count", "stick"), ("mark", "mark")]))
def test_each_night_noted_is_drawn_once_and_no_other(values, form):
    values = [None if value is None else float(value > 5) if form[0] == "mark" else value for value in values]
    made = drawn(form[0], values, how=form[1])
    parts = [days(made["lines"][0]), set(made["noughts"]), set(made["noes"])]
    assert set().union(*parts) == {day for day, value in enumerate(values, 1) if value is not None}
    assert sum(map(len, parts)) == len(set().union(*parts))


def test_where_it_began_and_ended_is_ruled():
    made = drawn(values=(None,) * 30, in_force=range(4, 21), began=4, ended=20)
    assert (made["ruled"], made["began"], made["ended"]) == ([(4, 20)], 4, 20)
    assert drawn(values=(None,) * 30)["ruled"] == [(1, 30)] and drawn(values=(None,) * 30, in_force=range(0))["ruled"] == []


def test_readings_on_one_axis_are_drawn_together_with_their_crossings():
    other = BookStrip("fasting", "h", "hours", 0, 12, (6.0, 3.0))
    made = drawn(values=(3.0, 6.0), beside=(other,), crossed=((1.5, 4.5),), told="sleep and fasting cross: 2")
    assert made["names"] == ["sleep", "fasting"] and [days(line) for line in made["lines"]] == [{1, 2}] * 2
    assert made["crossed"] == [[1.5, 0.375]] and made["told"] == "sleep and fasting cross: 2"


@pytest.mark.parametrize(("body", "wanted"), [(True, cautions.OF_THE_BODY), (False, cautions.LABEL)])
def test_the_caution_stands_once_under_the_first_readings(body, wanted):
    with_readings = BookMonth(date(2026, 2, 1), 1, readings=(BookStrip("mood", "", "scale", 0, 10, (5.0,) * 28, body=body),))
    months = [BookMonth(date(2026, 1, 1), 1), with_readings, with_readings]
    made = pages._cautioned(months, [pages._month(one, {}, 112, LETTERS) for one in months])
    assert [one["caution"] for one in made] == ["", wanted, ""]
    sheet = pages.of_sheet(MonthSheet(months[0], "a5", "#1f2a44", "en"), {}, {"photo": [100, 100]}, LETTERS)
    assert sheet["months"][0]["caution"] == ""
