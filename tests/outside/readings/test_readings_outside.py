"""Sums over readings against what others published."""

from datetime import date

import pytest

from keeper.model import Reading, Tracker
from keeper.review.readings.year import week, year_readings
from keeper.study.readings.spread import share, spread


def test_a_share_of_nights_has_the_interval_that_newcombe_prints():
    """Newcombe, Statistics in Medicine 17 (1998), 857-872, table I: 81 of 263, Wilson's score interval."""
    found = share(81, 263)
    assert (found.low, found.high) == pytest.approx((0.2553, 0.3662), abs=5e-5) and found.nights == 263


def test_a_month_s_mark_is_told_with_that_interval():
    """Newcombe, the same table: 15 of 148 is 0.0624 to 0.1605, and 0 of 20 is 0.0000 to 0.1611."""
    for hits, of, wanted in ((15, 148, (0.0624, 0.1605)), (0, 20, (0.0, 0.1611))):
        assert (share(hits, of).low, share(hits, of).high) == pytest.approx(wanted, abs=5e-5)
    tea = Tracker("t", "tea", "mark", None, None, "", "neither", date(2026, 1, 1))
    noted = [Reading(date(2026, 6, day), "t", float(day <= 12)) for day in range(1, 31)]
    (found,) = year_readings(2026, [tea], noted, {one.night for one in noted}, {})
    assert found.months[5] == share(12, 30)


def test_quartiles_are_those_of_definition_7():
    """Hyndman & Fan, The American Statistician 50 (1996), 361-365, definition 7: at (n - 1)p + 1 among those in order.

    Worked by hand for 1, 2, 4, 8, 16, 32: the places are 2.25, 3.5 and 4.75.
    """
    assert spread([32.0, 1.0, 16.0, 2.0, 8.0, 4.0]) == spread([1.0, 2.0, 4.0, 8.0, 16.0, 32.0])
    found = spread([1.0, 2.0, 4.0, 8.0, 16.0, 32.0])
    assert (found.low, found.middle, found.high) == (2.5, 6.0, 14.0)


@pytest.mark.parametrize(("night", "number"), [
    (date(2026, 1, 1), 1), (date(2026, 1, 4), 1), (date(2026, 1, 5), 2), (date(2024, 12, 30), 53), (date(2000, 12, 31), 53),
    (date(2012, 12, 31), 54),
])  # fmt: skip
def test_a_week_begins_on_a_monday(night, number):
    """ISO 8601-1:2019, 4.2.2: a calendar week begins on Monday. Counted here by the Mondays of the year, from 1."""
    assert week(night) == number
