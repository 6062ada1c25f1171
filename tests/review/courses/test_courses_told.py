"""Middles and means in words, and that a shift of all dates changes nothing but dates."""

from datetime import date, timedelta
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.model import Tracker
from keeper.review.courses.changes import changes_told, level_told
from keeper.review.courses.cycles import cycle, cycles_told
from keeper.review.courses.values import listed, share, times, value
from keeper.study.patterns.changes import levels

FIRST = date(2025, 1, 1)


def tracker(form: str, unit: str = "", low=None, high=None) -> Tracker:
    return Tracker("t", "mood", form, low, high, unit, "neither", FIRST)


def noisy(course) -> list[float]:
    """The course with a little chance in it, in whole numbers."""
    chance = Random(4)
    return [float(round(one + chance.gauss(0, 1))) for one in course]


@pytest.mark.parametrize(("of", "amount", "told"), [
    (tracker("scale", low=0.0, high=10.0), 6.449, "6.4"), (tracker("scale", low=0.0, high=1.0), 0.449, "0.45"),
    (tracker("hours"), 7.2, "7:12"), (tracker("hours"), 6.999, "7:00"), (tracker("hours"), -0.25, "-0:15"),
    (tracker("amount", "km"), 5.254, "5.25 km"), (tracker("count", "cups"), 2.75, "2.8"), (tracker("count"), None, ""),
    (tracker("count"), float("nan"), ""),
])  # fmt: skip
def test_a_mean_is_told_by_its_form(of, amount, told):
    assert value(of, amount) == told


def test_shares_lists_and_times():
    assert [share(part) for part in (0.394, 0.02, 0.004, 0.0)] == ["39 %", "2 %", "0.4 %", "0 %"]
    assert [listed(words) for words in ((), ("a",), ("a", "b", "c"))] == ["", "a", "a, b and c"]
    assert [times(many) for many in (1, 2, 1500)] == ["once", "twice", "1,500 times"]


@given(st.integers(-60_000, 60_000))
def test_a_shift_of_all_dates_changes_nothing_but_dates(days):
    values = noisy(7.0 - 3 * (number >= 60) for number in range(120))
    found, by = levels(values), timedelta(days=days)
    one, other = (changes_told(tracker("scale", low=0.0, high=10.0), first, values, found) for first in (FIRST, FIRST + by))
    assert [other.night(level.first) - by for level in other.levels] == [one.night(level.first) for level in one.levels]
    assert [row[2:] for row in other.figures.rows] == [row[2:] for row in one.figures.rows]
    assert level_told(one, 1).partition(": ")[2] == level_told(other, 1).partition(": ")[2]
    warm = [36.4] * 14 + [36.8] * 14
    laid = [
        cycles_told(tracker("mark"), tracker("scale"), tracker("amount"), [cycle(first + timedelta(days=28 * n), warm, warm, {}) for n in (1, 0)])
        for first in (FIRST, FIRST + by)
    ]  # fmt: skip
    assert laid[0].days == laid[1].days and laid[0].sentences == laid[1].sentences
    assert [(two.begins - by, two.rise, two.said) for two in laid[1].cycles] == [(of.begins, of.rise, of.said) for of in laid[0].cycles]
    assert laid[0].cycles[0].rise == 15


def test_a_phase_that_was_said_beyond_the_cycle_is_none():
    """What was noted since may have made the cycle shorter."""
    said = {FIRST: FIRST + timedelta(days=40)}
    assert cycle(FIRST, (1.0,) * 28, (), said).rise is None and cycle(FIRST, (1.0,) * 41, (), said).rise == 41


def test_shifts_beyond_three_are_in_the_figures():
    values = noisy(3.0 + 4 * (number // 100 % 2) for number in range(600))
    told = changes_told(tracker("scale", low=0.0, high=10.0), FIRST, values, levels(values))
    assert told.sentences[0].startswith("Over 600 nights the level of mood shifted 5 times; the latest 3: around 28 October 2025 from ")
    assert len(told.figures.rows) == 6
