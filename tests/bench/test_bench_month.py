"""The page of a month, with fifty years behind it and without.

The reference is the month's lines, read bare from SQLite: what no page could
do without. Targets are those of the issue: data under 50 ms for the demo,
under 200 ms with fifty years; sums that cost no more as years are added.
"""

import shutil
import sqlite3
from datetime import date

import pytest

from keeper.actions.months import shown as months
from keeper.actions.opening import open_kept
from keeper.shipped import demo_keeper

ONE_MONTH = "SELECT night, kind, text FROM line WHERE night BETWEEN ? AND ? ORDER BY number"


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    """A copy of the demo keeper."""
    folder = tmp_path_factory.mktemp("demo") / "keeper"
    shutil.copytree(demo_keeper(), folder)
    with open_kept(folder) as opened:
        yield opened


@pytest.fixture(scope="module")
def long_kept(fifty):
    """The keeper of fifty years."""
    with open_kept(fifty) as opened:
        yield opened


def bare(store, year: int):
    connection = sqlite3.connect(store.folder / "keeper.db")
    return lambda n: connection.execute(ONE_MONTH, (f"{year}-{n % 12 + 1:02}-01", f"{year}-{n % 12 + 1:02}-31")).fetchall()


def page(store, year: int):
    return lambda n: months.month_page(store, date(year, n % 12 + 1, 1))


def test_demo(demo, compared):
    compared("a month of the demo (target: 50 ms)", page(demo, 2025), bare(demo, 2025), rounds=60)
    assert page(demo, 2025)(6).words


def test_fifty_years(long_kept, compared):
    compared("a month after fifty years (target: 200 ms)", page(long_kept, 2025), bare(long_kept, 2025), rounds=36)
    assert page(long_kept, 2025)(6).kept == 31


def test_late_years_cost_no_more_than_early_ones(long_kept, compared):
    compared("a month of the last year against one of the first", page(long_kept, 2025), page(long_kept, 1977), rounds=24)


def test_four_side_by_side(long_kept, compared):
    four = [date(2025, month, 1) for month in (1, 4, 7, 10)]
    compared("four months side by side, against one", lambda _: months.side_by_side(long_kept, four), page(long_kept, 2025), 24)


def test_the_same_month_of_fifty_years(long_kept, compared):
    compared(
        "one month of every year, against one month",
        lambda n: months.same_month_every_year(long_kept, date(2025, n % 12 + 1, 1)), page(long_kept, 2025), rounds=6,
    )  # fmt: skip
