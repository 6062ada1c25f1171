"""The month's page and months side by side, when somebody rests whom the person's words about it name."""

from datetime import date

import pytest
from PySide6.QtWidgets import QLabel, QLineEdit, QPlainTextEdit
from waiting.at_rest import at_rest

from keeper.actions import people
from keeper.actions.months import shown as months
from keeper.store import month_pages

OCTOBER, NOVEMBER = date(2026, 10, 1), date(2026, 11, 1)


@pytest.fixture
def about_her(store, write):
    for month in (10, 11):
        write(date(2026, month, 3), "memory", "The organ was out of tune.")
    months.ask_question(store, NOVEMBER, "What would Oddny say?")
    months.write_words(store, NOVEMBER, "Oddny came by.")
    months.add_goal(store, NOVEMBER, "Write to Oddny")
    months.add_goal(store, NOVEMBER, "Swim")
    people.rest(store, people.add(store, "Oddny").id)


def seen(page) -> str:
    parts = [part.text() for kind in (QLabel, QLineEdit) for part in page.findChildren(kind) if part.isVisible()]
    return " | ".join(parts + [one.toPlainText() for one in page.findChildren(QPlainTextEdit) if one.isVisible()])


def test_the_page_shows_it_only_when_asked_and_lets_nothing_be_typed_over(qtbot, frame, about_her, store):
    frame.go("month", NOVEMBER)
    sheet = frame.pages["month"].sheet
    qtbot.waitUntil(sheet.is_shown)
    assert "Oddny" not in seen(sheet) and "Swim" in seen(sheet)
    assert not sheet.words.isVisible() and not sheet.question.isVisible()
    assert sheet.resting.isVisible() and sheet.resting.accessibleName() == "Show what rests"
    qtbot.keyClicks(sheet.goals.more, "Sing")
    sheet.keep()
    assert frame.desk.writer.finish()
    qtbot.waitUntil(lambda: len(sheet.goals.rows) == 2)
    sheet.resting.click()
    qtbot.waitUntil(lambda: all(text in seen(sheet) for text in ("Write to Oddny", "Oddny came by.", "What would Oddny say?")))
    assert sheet.resting.accessibleName() == "Hide what rests"
    sheet.resting.click()
    qtbot.waitUntil(lambda: "Oddny" not in seen(sheet))
    sheet.keep()
    assert frame.desk.writer.finish()
    page = month_pages.one(store, NOVEMBER)
    assert (page.question, page.words) == ("What would Oddny say?", "Oddny came by.")
    assert [goal.text for goal in page.goals] == ["Write to Oddny", "Swim", "Sing"]


def test_side_by_side_does_not_show_it(qtbot, frame, about_her):
    frame.go("month", NOVEMBER)
    page = frame.pages["month"]
    qtbot.waitUntil(page.sheet.is_shown)
    page._open("beside")
    beside = page.others["beside"]
    beside.show_months([OCTOBER, NOVEMBER])
    qtbot.waitUntil(beside.is_shown)
    assert len(beside.views) == 2 and "Oddny" not in seen(beside)


def test_the_night_does_not_ask_it(qtbot, frame, about_her):
    frame.desk.changed.emit()
    frame.go("night")
    at_rest(qtbot, frame.desk)
    assert "Oddny" not in seen(frame.pages["night"])
