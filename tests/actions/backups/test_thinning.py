"""Which backups stay: seven days, four weeks, twelve months, every year; and it does not matter when one is asked."""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from keeper.actions.backups.thinning import kept

days = st.sets(st.dates(date(2019, 1, 1), date(2026, 12, 31)), max_size=120)


@given(days)
def test_the_newest_stays_and_one_of_every_year(those):
    staying = kept(those)
    assert staying <= those
    assert max(those, default=None) == max(staying, default=None)
    assert {day.year for day in staying} == {day.year for day in those}


@given(days)
def test_no_more_stay_than_is_said(those):
    assert len(kept(those)) <= 7 + 4 + 12 + len({day.year for day in those})


@given(days)
def test_the_last_days_weeks_and_months_have_one(those):
    staying = kept(those)
    assert set(sorted(those)[-7:]) <= staying
    for part, many in ((lambda day: day.isocalendar()[:2], 4), (lambda day: day.strftime("%Y-%m"), 12)):
        wanted = sorted({part(day) for day in those})[-many:]
        assert set(wanted) <= {part(day) for day in staying}
        assert {max(day for day in those if part(day) == one) for one in wanted} <= staying


@given(days)
def test_asked_again_it_lets_go_of_nothing_more(those):
    assert kept(kept(those)) == kept(those)


@given(st.lists(st.integers(1, 40), max_size=80))
def test_one_day_at_a_time_is_as_all_at_once(steps):
    day, staying, all_days = date(2022, 12, 20), frozenset(), set()
    for step in steps:
        day += timedelta(days=step)
        all_days.add(day)
        staying = kept(staying | {day})
    assert staying == kept(all_days)


def test_a_backup_each_day_for_three_years():
    those = [date(2024, 1, 1) + timedelta(days=number) for number in range(1096)]
    told = sorted(day.isoformat() for day in kept(those))
    # The last of each year, month and week, and the last seven days.
    assert told == [
        "2024-12-31", "2025-12-31", "2026-01-31", "2026-02-28", "2026-03-31", "2026-04-30", "2026-05-31", "2026-06-30",
        "2026-07-31", "2026-08-31", "2026-09-30", "2026-10-31", "2026-11-30", "2026-12-13", "2026-12-20", "2026-12-25",
        "2026-12-26", "2026-12-27", "2026-12-28", "2026-12-29", "2026-12-30", "2026-12-31",
    ]  # fmt: skip
