"""Printing a month on one page, as a person does it."""

from datetime import date

import pytest
import sample_pictures
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog

from keeper.actions.months import shown as months
from keeper.actions.paper import making as book
from keeper.errors import Stopped
from keeper.window.paper.month_sheet import STOPPED, MonthPrintDialog

NOVEMBER = date(2026, 11, 1)


@pytest.fixture
def filled(store, write, clock, tmp_path):
    for day in range(1, 6):
        write(date(2026, 11, day), "memory", f"The kettle sang on evening {day}.")
    months.bring_photo(store, NOVEMBER, sample_pictures.save(tmp_path / "a.jpg"), clock)


@pytest.fixture
def dialog(qtbot, frame, filled):
    made = MonthPrintDialog(frame.desk, NOVEMBER, frame)
    made.open()
    qtbot.waitExposed(made)
    yield made
    made.close()
    frame.desk.worker.finish()


def answer(monkeypatch, path):
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path) if path else "", ""))


def test_the_month_offers_to_print_itself(qtbot, frame, filled, monkeypatch):
    frame.go("month", NOVEMBER)
    page = frame.pages["month"]
    qtbot.waitUntil(page.sheet.is_shown)
    opened = []
    monkeypatch.setattr(MonthPrintDialog, "exec", lambda self: opened.append(self.month))
    way = next(button for button in page.sheet.ways if button.text().startswith("Print"))
    qtbot.mouseClick(way, Qt.MouseButton.LeftButton)
    assert opened == [NOVEMBER] and page.currentWidget() is page.sheet


def test_the_page_lies_where_the_person_says(qtbot, dialog, tmp_path, monkeypatch):
    answer(monkeypatch, tmp_path / "a month")
    qtbot.mouseClick(dialog.save, Qt.MouseButton.LeftButton)
    assert dialog.stop.isVisible() and dialog.bar.isVisible() and not dialog.form.isVisible()
    qtbot.waitUntil(lambda: dialog.saved is not None)
    made = tmp_path / "a month.pdf"
    assert dialog.saved == made and made.read_bytes().startswith(b"%PDF")
    assert dialog.told.text().startswith("Saved as \u201ca month.pdf\u201d. Themes can be found from 30 lines on")
    assert dialog.open_folder.isVisible() and not dialog.bar.isVisible()


def test_what_is_chosen_is_what_is_made(qtbot, dialog, tmp_path, monkeypatch):
    asked = []

    def make(store, month, target, clock, parts, small_photo, progress, stopped):
        asked.append((month, parts.size, parts.lines, parts.themes, parts.readings, small_photo))
        progress(0.5, "Setting the pages")
        return book.BookMade(target, 1, ("Two lines found no room.",))

    monkeypatch.setattr(book, "make_month_sheet", make)
    answer(monkeypatch, tmp_path / "m.pdf")
    dialog.size_of_page.setCurrentIndex(1)
    dialog.small.setChecked(True)
    dialog.boxes["readings"].setChecked(False)
    qtbot.keyClick(dialog.save, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: dialog.saved is not None)
    assert asked == [(NOVEMBER, "a4", "chosen", True, False, True)]
    assert dialog.told.text() == "Saved as \u201cm.pdf\u201d. Two lines found no room."


def test_without_a_file_nothing_is_made(qtbot, dialog, monkeypatch):
    answer(monkeypatch, None)
    qtbot.mouseClick(dialog.save, Qt.MouseButton.LeftButton)
    assert dialog.saved is None and dialog.save.isVisible()


@pytest.mark.parametrize("by_key", [True, False])
def test_the_making_can_be_stopped(qtbot, dialog, tmp_path, monkeypatch, by_key):
    def make(store, month, target, clock, parts, small_photo, progress, stopped):
        while not stopped():
            progress(0.2, "Making the photos ready")
        raise Stopped("Stopped.")

    monkeypatch.setattr(book, "make_month_sheet", make)
    dialog.make(tmp_path / "m.pdf")
    qtbot.waitUntil(lambda: dialog.told.text() == "Making the photos ready")
    qtbot.keyClick(dialog, Qt.Key.Key_Escape) if by_key else qtbot.mouseClick(dialog.stop, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: dialog.told.text() == STOPPED)
    assert dialog.isVisible() and dialog.save.isVisible() and dialog.saved is None


def test_a_page_made_before_the_stop_was_heard_is_told_as_it_is(qtbot, dialog, tmp_path, monkeypatch):
    def make(store, month, target, clock, parts, small_photo, progress, stopped):
        while not stopped():
            pass
        return book.BookMade(target, 1)

    monkeypatch.setattr(book, "make_month_sheet", make)
    dialog.make(tmp_path / "m.pdf")
    dialog.stop_making()
    qtbot.waitUntil(lambda: dialog.told.text() == "Saved as \u201cm.pdf\u201d.")


def test_a_folder_that_is_not_there_is_a_sentence(qtbot, dialog, tmp_path):
    dialog.make(tmp_path / "nowhere" / "m.pdf")
    qtbot.waitUntil(lambda: "cannot be put into" in dialog.told.text())
    assert dialog.saved is None and not dialog.open_folder.isVisible()


def test_an_empty_month_is_a_sentence(qtbot, frame, tmp_path):
    dialog = MonthPrintDialog(frame.desk, date(2020, 1, 1), frame)
    dialog.open()
    dialog.make(tmp_path / "m.pdf")
    qtbot.waitUntil(lambda: "no page to make" in dialog.told.text())
    dialog.close()
    assert not (tmp_path / "m.pdf").exists()
