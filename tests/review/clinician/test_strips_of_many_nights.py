"""What stands below the strips of a clinician's page, and what a point of them stands for."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.review.clinician.page import nights_in_point, points, ticks

FIRST = date(2024, 3, 9)


@pytest.mark.parametrize(("nights", "named"), [
    (30, ["15", "22", "1 Apr"]), (120, ["Apr", "May", "Jun", "Jul"]), (500, ["Apr", "Jul", "Oct", "Jan 2025", "Apr", "Jul"]),
    (1200, ["2025", "2026", "2027"]),
])  # fmt: skip
def test_what_is_named_below(nights, named):
    found = ticks(FIRST, FIRST + timedelta(nights - 1))
    assert [words for _, words in found] == named
    shares = [share for share, _ in found]
    assert shares == sorted(shares) and shares[0] > 0 and shares[-1] < 1


@given(st.integers(1, 20_000))
def test_never_more_is_named_than_has_room(nights):
    first = date(1950, 1, 1)
    found = [share for share, _ in ticks(first, first + timedelta(nights - 1))]
    assert len(found) <= 15 and all(0 < share < 1 for share in found)


def test_so_many_nights_in_a_point():
    assert [nights_in_point(many) for many in (1, 430, 431, 3010, 3011)] == [1, 1, 7, 7, 30]


def test_a_point_is_the_middle_of_its_nights():
    values = [1.0, 9.0, 2.0, None, None, None, None, None, None, None, None, None, None, None, 5.0]
    assert points(values, 7, mark=False) == (2.0, None, 5.0)
    assert points([1.0, 0.0, 0.0, 1.0, None], 7, mark=True) == (0.5,)
    assert points(values, 1, mark=False) == tuple(values)
