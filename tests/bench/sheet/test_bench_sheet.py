"""A month typed up with fifty years, and twenty trackers noted all the while, behind it.

Target: every cell answers in 16 ms, the longest too: the time that the window's own thread
computes for a key, and in each turn that comes of it (see month_timed.py), so that a busy machine does
not tell. The sheet asked for is compared with the bare rows of its lines.
"""

import shutil
import sqlite3
import subprocess
import sys
from datetime import date
from pathlib import Path

from keeper.actions.opening import open_kept
from keeper.actions.sheet.asking import sheet_of

ONE_MONTH = "SELECT night, kind, text FROM line WHERE night BETWEEN ? AND ? ORDER BY number"


def test_the_sheet_of_a_month(fifty_noted, compared):
    connection = sqlite3.connect(fifty_noted / "keeper.db")
    span = lambda n: (date(2024, n % 12 + 1, 1), date(2024, n % 12 + 1, 28))  # noqa: E731
    with open_kept(fifty_noted) as store:
        compared("the sheet of a month after fifty years",
                 lambda n: sheet_of(store, *span(n)),
                 lambda n: connection.execute(ONE_MONTH, [one.isoformat() for one in span(n)]).fetchall(), rounds=24)  # fmt: skip


def test_every_cell(fifty_noted, tmp_path, capsys):
    keeper = shutil.copytree(fifty_noted, tmp_path / "keeper")
    script = Path(__file__).with_name("month_timed.py")
    done = subprocess.run([sys.executable, script, keeper], capture_output=True, text=True, check=True)
    with capsys.disabled():
        print(f"\n{done.stdout}")
