"""Dates and numbers on the pages, as the system in force writes them; the words stay English, and the digits those of English."""

from datetime import date

import pytest
from PySide6.QtCore import QLocale, Qt
from PySide6.QtWidgets import QLabel

from keeper.dates import written
from keeper.window.desk import wording
from keeper.window.frame.go_to import GoToDialog
from keeper.window.parts.places import wording as place_wording

NIGHT = date(2026, 11, 14)


@pytest.fixture
def system():
    """Sets the system's locale."""
    before, habits = QLocale(), written.habits
    yield lambda name: QLocale.setDefault(QLocale(name))
    QLocale.setDefault(before)
    assert habits is written.habits


@pytest.mark.parametrize(
    ("name", "long", "short", "number", "far", "first"),
    [
        ("de_DE", "Saturday 14 November 2026", "Sat 14 Nov 2026", "1.234", "8,4 km", Qt.DayOfWeek.Monday),
        ("en_GB", "Saturday 14 November 2026", "Sat 14 Nov 2026", "1,234", "8.4 km", Qt.DayOfWeek.Monday),
        ("en_US", "Saturday, November 14, 2026", "Sat, Nov 14, 2026", "1,234", "8.4 km", Qt.DayOfWeek.Sunday),
        ("tr_TR", "Saturday 14 November 2026", "Sat 14 Nov 2026", "1.234", "8,4 km", Qt.DayOfWeek.Monday),
        ("ar_EG", "Saturday 14 November 2026", "Sat 14 Nov 2026", "1,234", "8.4 km", Qt.DayOfWeek.Saturday),
        ("C", "Saturday 14 November 2026", "Sat 14 Nov 2026", "1,234", "8.4 km", Qt.DayOfWeek.Monday),
        ("es_ES", "Saturday 14 November 2026", "Sat 14 Nov 2026", "1234", "8,4 km", Qt.DayOfWeek.Monday),
        ("sv_SE", "Saturday 14 November 2026", "Sat 14 Nov 2026", "1\u00a0234", "8,4 km", Qt.DayOfWeek.Monday),
        ("ja_JP", "Saturday, November 14, 2026", "Sat, Nov 14, 2026", "1,234", "8.4 km", Qt.DayOfWeek.Sunday),
    ],
)
def test_what_is_told_follows_the_system(system, name, long, short, number, far, first):
    system(name)
    written.follow(wording.habits)
    assert (wording.long_date(NIGHT), wording.short_date(NIGHT)) == (long, short)
    assert (wording.number(1234), place_wording.kilometres(8400)) == (number, far)
    assert wording.counted(1234, "line") == f"{number} lines"
    assert QLocale().firstDayOfWeek() == first


def test_a_window_writes_as_its_system_does(system, opened):
    system("en_US")
    written.follow(written.Habits)
    frame = opened(rest=False)
    shown = [label.text() for label in frame.findChildren(QLabel)]
    assert any("November 14" in words for words in shown)
    assert not any("14 November" in words for words in shown)


def test_the_week_begins_where_the_system_s_does(system, frame):
    system("en_US")
    assert GoToDialog(frame.desk, NIGHT, frame).calendar.firstDayOfWeek() == Qt.DayOfWeek.Sunday
