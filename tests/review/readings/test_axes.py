"""Readings that share an axis."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.model import Tracker
from keeper.review.month_series import Series
from keeper.review.readings.axes import MOST, axes, can_share


def tracker(name, form="scale", low=0.0, high=10.0, unit="", axis=""):
    return Tracker(name, name, form, low, high, unit, "neither", date(2026, 1, 1), axis=axis)


def series(name, values=(5.0,), axis="", **told):
    return Series(tracker(name, axis=axis, **told), tuple(values), 0.0, 10.0)


@pytest.mark.parametrize(("some", "wanted"), [
    ([tracker("mood"), tracker("stress")], True),
    ([tracker("mood"), tracker("stress", high=5.0)], False),
    ([tracker("mood")], False),
    ([tracker("a"), tracker("b"), tracker("c"), tracker("d")], False),
    ([tracker("sleep", "hours", None, None), tracker("fasting", "hours", None, 16.0)], True),
    ([tracker("tea", "amount", unit="l"), tracker("coffee", "amount", unit="cups")], False),
    ([tracker("tea", "mark"), tracker("coffee", "mark")], False),
    ([tracker("mood"), tracker("sleep", "hours")], False),
    ([], False),
])  # fmt: skip
def test_what_measures_alike_can_share_an_axis(some, wanted):
    assert can_share(some) is wanted


def test_a_shared_axis_stands_where_its_first_reading_does_and_names_its_crossings():
    shown = [series("sleep"), series("mood", (3.0, 7.0), "x"), series("tea"), series("stress", (5.0, 5.0), "x")]
    made = axes([series("sleep", (5.0, 5.0)), shown[1], series("tea", (5.0, 5.0)), shown[3]])
    assert [[one.tracker.name for one in axis.series] for axis in made] == [["sleep"], ["mood", "stress"], ["tea"]]
    (crossed,) = made[1].crossed
    assert (crossed.one, crossed.other, crossed.crossing.day, crossed.crossing.over) == ("mood", "stress", 2, True)


def test_those_that_no_longer_measure_alike_stand_alone():
    made = axes([series("mood", axis="x"), series("stress", axis="x", high=5.0)])
    assert [len(axis.series) for axis in made] == [1, 1] and not any(axis.crossed for axis in made)


@given(st.lists(st.sampled_from(["", "x", "y"]), max_size=8))
def test_no_reading_is_lost_or_shown_twice(given_axes):
    shown = [series(f"t{n}", axis=axis) for n, axis in enumerate(given_axes)]
    made = axes(shown)
    assert sorted(one.tracker.id for axis in made for one in axis.series) == sorted(one.tracker.id for one in shown)
    assert all(len(axis.series) <= MOST for axis in made)
