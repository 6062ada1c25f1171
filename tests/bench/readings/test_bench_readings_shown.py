"""Readings shown, with twenty trackers over fifty years behind them.

Targets: the data of a month's page under 60 ms; the first visit of a page
blocks the window for 50 ms at most.
"""

import os
import shutil
import sqlite3
import subprocess
import sys
from datetime import date, timedelta
from pathlib import Path

import pytest

from keeper.actions.months import shown as months
from keeper.actions.months import tinting
from keeper.actions.opening import open_kept
from keeper.actions.sheet.asking import sheet_of
from keeper.actions.years import shown as years
from keeper.model import Reading, Tracker
from keeper.store import trackers

MANY = 20
FORMS = ("scale", "hours", "count", "amount", "mark")
ONE_MONTH = "SELECT tracker_id, night, value FROM reading WHERE night BETWEEN ? AND ? ORDER BY night"


def fill(folder: Path) -> None:
    """Twenty trackers, each noted on nine nights of ten for fifty years."""
    with open_kept(folder) as store, store.writing():
        first, last = date(1975, 10, 22), date(2025, 12, 31)
        for n in range(MANY):
            ends = (0.0, 10.0) if FORMS[n % 5] == "scale" else (None, None)
            trackers.add(store, Tracker(f"t{n}", f"reading {n}", FORMS[n % 5], *ends, "", "neither", first))
            nights = (first + timedelta(days=d) for d in range((last - first).days + 1) if (d + n) % 10)
            trackers.note(store, (Reading(night, f"t{n}", float((night.toordinal() + n) % (2 if n % 5 == 4 else 11))) for night in nights))


@pytest.fixture(scope="module")
def noted(fifty, tmp_path_factory) -> Path:
    folder = tmp_path_factory.mktemp("noted") / "keeper"
    shutil.copytree(fifty, folder)
    fill(folder)
    return folder


@pytest.fixture(scope="module")
def store(noted):
    with open_kept(noted) as opened_:
        yield opened_


def bare(store):
    connection = sqlite3.connect(store.folder / "keeper.db")
    return lambda n: connection.execute(ONE_MONTH, (f"2025-{n % 12 + 1:02}-01", f"2025-{n % 12 + 1:02}-31")).fetchall()


def test_a_month_s_page(store, compared):
    compared("a month with twenty readings after fifty years (target: 60 ms)",
             lambda n: months.month_page(store, date(2025, n % 12 + 1, 1)), bare(store), rounds=36)  # fmt: skip


def test_the_sheet_of_a_month(store, compared):
    compared("the sheet of a month", lambda n: sheet_of(store, date(2025, n % 12 + 1, 1), date(2025, n % 12 + 1, 28)), bare(store), rounds=36)


def test_a_year_s_page(store, compared):
    compared("a year with twenty readings, in brief", lambda n: years.year_page(store, 2025 - n, brief=True), bare(store), rounds=8)


def test_a_tint(store, compared):
    compared("a year of the ribbon tinted", lambda n: tinting.tint_of(store, 2025 - n % 9, f"t{n % MANY}"), bare(store), rounds=36)


def test_first_visits(noted, tmp_path, capsys):
    folder = tmp_path / "keeper"
    shutil.copytree(noted, folder)
    script = Path(__file__).parents[1] / "first_visits.py"
    done = subprocess.run([sys.executable, script, folder, "after-quiet"], capture_output=True, text=True, check=False,
                          env={**os.environ, "QT_QPA_PLATFORM": "offscreen"})  # fmt: skip
    with capsys.disabled():
        print(f"\nlongest blocks of first visits, ms (target: 50): {done.stdout.strip()} {done.stderr[-400:]}")
