"""Going to a date, typed or picked."""

from datetime import date

import pytest
from PySide6.QtCore import Qt

from keeper.window.desk import wording
from keeper.window.frame.go_to import GoToDialog


@pytest.fixture
def dialog(qtbot, frame):
    made = GoToDialog(frame.desk, frame.night, frame)
    qtbot.addWidget(made)
    return made


def test_a_typed_date_is_taken(qtbot, dialog):
    dialog.typed.setText("1999-05-17")
    qtbot.keyClick(dialog.typed, Qt.Key.Key_Return)
    assert dialog.result() == 1
    assert dialog.night == date(1999, 5, 17)


@pytest.mark.parametrize(
    ("typed", "said"),
    [("2026-02-31", "28 days"), ("soon", "not a date"), ("2027-01-01", "still to come"), ("1066-10-14", "too early")],
)
def test_what_cannot_be_gone_to_is_said(qtbot, dialog, typed, said):
    dialog.typed.setText(typed)
    qtbot.keyClick(dialog.typed, Qt.Key.Key_Return)
    assert dialog.result() == 0
    assert said in dialog.told.text()


def test_the_calendar_and_the_words_follow_each_other(qtbot, dialog):
    dialog.typed.clear()
    qtbot.keyClicks(dialog.typed, "2026-03-05")
    assert dialog.calendar.selectedDate() == wording.qdate(date(2026, 3, 5))
    dialog.calendar.clicked.emit(wording.qdate(date(2026, 4, 6)))
    assert dialog.typed.text() == "6 April 2026"


@pytest.mark.parametrize(
    ("typed", "told"),
    [("3 june 2019", "Monday 3 June 2019"), ("jun 2024", "Saturday 1 June 2024"), ("yesterday", "Friday 13 November 2026"),
     ("last sunday", "Sunday 8 November 2026"), ("last sund", "Sunday 8 November 2026"),
     ("3 ju", "A date, such as 3 June 2019, June 2019 or yesterday; or pick it below.")],
)  # fmt: skip
def test_what_is_typed_is_told_in_words_before_going(qtbot, dialog, typed, told):
    assert dialog.told.text() == wording.long_date(dialog.night)
    dialog.typed.clear()
    qtbot.keyClicks(dialog.typed, typed)
    assert dialog.told.text() == told
