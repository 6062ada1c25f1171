"""How far apart two days are, in words."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.dates.distance import Span, apart, span
from keeper.days import anniversary

days = st.dates(date(1800, 1, 1), date(2999, 12, 31))


@pytest.mark.parametrize(
    ("earlier", "later", "said"),
    [
        ("2026-11-14", "2026-11-14", "no days"),
        ("2026-11-13", "2026-11-14", "a day"),
        ("2026-10-14", "2026-11-14", "a month"),
        ("2023-11-13", "2026-11-14", "three years and a day"),
        ("2023-11-16", "2026-11-14", "three years less two days"),
        ("2025-11-21", "2026-11-14", "a year less seven days"),
        ("2025-11-22", "2026-11-14", "eleven months and 23 days"),
        ("2021-09-10", "2026-11-14", "five years, two months and four days"),
        ("1999-11-14", "2026-11-14", "27 years"),
        # A year of a leap day is full on the 28th where there is no 29th.
        ("2024-02-29", "2025-02-28", "a year"),
        ("2024-02-29", "2025-03-01", "a year and a day"),
        ("2024-02-29", "2028-02-28", "four years less a day"),
        ("2024-02-29", "2028-02-29", "four years"),
        ("2023-02-28", "2024-02-29", "a year and a day"),
        ("2023-03-01", "2024-02-29", "a year less a day"),
        ("2026-01-31", "2026-02-28", "a month"),
        ("2026-01-31", "2026-03-01", "a month and a day"),
    ],
)
def test_said_as_one_would(earlier, later, said):
    assert apart(date.fromisoformat(earlier), date.fromisoformat(later)) == said


@given(days, days)
def test_the_span_leads_from_one_day_to_the_other(one, other):
    earlier, later = sorted((one, other))
    years, months, rest = span(earlier, later)
    assert 0 <= months < 12 and 0 <= rest <= 31 and years >= 0
    on = earlier.year * 12 + earlier.month - 1 + years * 12 + months
    reached = later - timedelta(days=rest)
    assert (reached.year * 12 + reached.month - 1) == on
    # The day of the month is kept, or the month has none such and ends here.
    assert reached.day == earlier.day or (reached.day < earlier.day and (reached + timedelta(days=1)).day == 1)


@given(days, st.integers(0, 300))
def test_an_anniversary_is_a_round_number_of_years(day, years):
    later = anniversary(day, day.year + years)
    assert span(day, later) == Span(years, 0, 0)


def test_what_lies_before_has_no_distance():
    with pytest.raises(ValueError, match="before"):
        span(date(2026, 11, 14), date(2026, 11, 13))
