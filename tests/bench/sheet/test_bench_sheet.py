"""A month typed up with fifty years, and twenty trackers noted all the while, behind it.

Target: every cell answers in 16 ms: the time that the window's own thread
computes for a key and for all that comes of it, so that a busy machine does
not tell. The sheet asked for is compared with the bare rows of its lines.
"""

import sqlite3
import statistics
import time
from datetime import date

from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from turns import opened

from keeper.actions.opening import open_kept
from keeper.actions.sheet import columns
from keeper.actions.sheet.asking import sheet_of
from keeper.window.frame import opening
from keeper.window.frame.start.warming import Warming

NIGHTS = 31
ONE_MONTH = "SELECT night, kind, text FROM line WHERE night BETWEEN ? AND ? ORDER BY number"
TARGET = 16


def test_the_sheet_of_a_month(fifty_noted, compared):
    connection = sqlite3.connect(fifty_noted / "keeper.db")
    span = lambda n: (date(2024, n % 12 + 1, 1), date(2024, n % 12 + 1, 28))  # noqa: E731
    with open_kept(fifty_noted) as store:
        compared("the sheet of a month after fifty years",
                 lambda n: sheet_of(store, *span(n)),
                 lambda n: connection.execute(ONE_MONTH, [one.isoformat() for one in span(n)]).fetchall(), rounds=24)  # fmt: skip


def test_every_cell(fifty_noted, capsys):
    with open_kept(fifty_noted) as store:
        readings = [one.key for one in columns.every(store) if one.tracker and one.tracker.form in ("scale", "count", "amount")][:3]
    frame = opened(fifty_noted)
    # As a person has it: garbage taken up as they have it, and all that is brought in while nobody types is there.
    opening.at_ease(frame)
    _until(lambda: frame.rest_is_loaded() and not _warming(frame))
    frame.desk.change_setting(columns.SETTING, columns.as_setting(["line:memory", "place", *readings]))
    # A month that is full already: what is typed takes the place of what is there.
    frame.go("sheet", date(2024, 3, 1))
    page = frame.pages["sheet"]
    _until(lambda: page.model.sheet is not None and page.model.rowCount() == NIGHTS)
    page.grid.setFocus()
    page.grid.setCurrentIndex(page.model.index(0, 0))
    QApplication.processEvents()
    told: dict[str, list[float]] = {}
    for day in range(1, NIGHTS + 1):
        for text in (f"Night {day}, and the harbour was still.", "Stralsund" if day % 5 == 1 else "", str(day % 9 + 1), str(day % 7), str(day % 5)):
            sort = page.model.column(page.grid.currentIndex()).sort
            for letter in text:
                where = page.grid.editing.edit if page.grid.editing.under_way else page.grid
                told.setdefault(f"{sort}, a letter", []).append(_timed(where, letter))
            where = page.grid.editing.edit if page.grid.editing.under_way else page.grid
            told.setdefault(f"{sort}, on", []).append(_timed(where, Qt.Key.Key_Tab))
        # What was kept is heard of, and asked for again.
        told.setdefault("the sheet comes again", []).append(_timed_turn(frame))
    frame.leave()
    with capsys.disabled():
        for what, times in told.items():
            print(f"\n{what}: median {statistics.median(times):.1f} ms, longest {max(times):.1f} ms of {len(times)} (target: {TARGET} ms)")


def _warming(frame) -> bool:
    coming = frame.findChild(Warming)
    return coming is None or coming.findChild(QTimer).isActive()


def _timed(where, key) -> float:
    begun = time.thread_time()
    QTest.keyClick(where, key)
    QApplication.processEvents()
    return (time.thread_time() - begun) * 1000


def _timed_turn(frame) -> float:
    frame.desk.writer.finish()
    begun = time.thread_time()
    QApplication.processEvents()
    frame.desk.reader.finish()
    QApplication.processEvents()
    return (time.thread_time() - begun) * 1000


def _until(true) -> None:
    while not true():
        QApplication.processEvents()
