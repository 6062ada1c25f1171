"""Earlier wordings of a line: each with when it was written, by the clock of the place where that was."""

from datetime import datetime
from zoneinfo import ZoneInfo

import pytest
from PySide6.QtCore import Qt

from keeper.actions import writing
from keeper.clock import StoppedClock
from keeper.model import LineKind
from keeper.window.night.earlier_wordings import WordingsDialog

# When it is evening in Honolulu, in Riga it is the next morning.
HONOLULU = StoppedClock(datetime(2026, 11, 14, 22, 30, tzinfo=ZoneInfo("Pacific/Honolulu")), "Pacific/Honolulu")
TOLD = "Written Sat 14 Nov 2026, 22:30"


@pytest.fixture
def dialog(qtbot, frame, page, store, tonight, clock):
    writing.write_line(store, tonight, "memory", "first wording", HONOLULU)
    writing.write_line(store, tonight, "memory", "second wording", clock)
    writing.write_line(store, tonight, "memory", "third wording", clock)
    made = WordingsDialog(frame.desk, tonight, LineKind("memory", 1), page)
    qtbot.addWidget(made)
    made.show()
    return made


def test_each_has_its_time_by_the_clock_of_the_place_where_it_was_written(dialog):
    rows = dialog.list.model()
    told = [rows.index(row).data(Qt.ItemDataRole.AccessibleTextRole) for row in range(rows.rowCount())]
    assert told == [f"{TOLD}. second wording", f"{TOLD}. first wording"]
    assert dialog.list.itemDelegate().head(rows.at(1)) == TOLD


def test_the_time_is_drawn_above_the_words(dialog, monkeypatch):
    drawn = []
    delegate = dialog.list.itemDelegate()
    monkeypatch.setattr(type(delegate), "head", lambda self, found: drawn.append(found.line.text) or TOLD)
    dialog.grab()
    assert {"first wording", "second wording"} <= set(drawn)


def test_one_is_brought_back_by_keyboard(qtbot, dialog):
    dialog.list.setFocus()
    qtbot.keyClick(dialog.list, Qt.Key.Key_Down)
    qtbot.keyClick(dialog.list, Qt.Key.Key_Return)
    assert dialog.chosen == "first wording" and not dialog.isVisible()
