"""On small screens and with large text nothing is taller than the screen, cut short, or left wide afterwards."""

from datetime import date
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QComboBox, QLineEdit, QPlainTextEdit, QWidget
from waiting.at_rest import at_rest

from keeper.settings import INKS, PAPERS
from keeper.window.desk.on_screen import TITLE, drawn_in, fitting
from keeper.window.desk.palette import TEXT_CONTRAST, contrast, mixed
from keeper.window.paper.book import BookDialog
from keeper.window.parts.choice import Choice

SIDES = st.integers(300, 5000)


@given(SIDES, SIDES, SIDES, SIDES)
def test_a_window_is_no_larger_than_its_screen(wide, high, screen_wide, screen_high):
    size = fitting(QSize(wide, high), QSize(screen_wide, screen_high))
    assert size.width() == min(wide, screen_wide) and size.height() == min(high, screen_high - TITLE)


@given(st.integers(-3000, 3000), st.integers(-3000, 3000), SIDES, SIDES, st.integers(-2000, 2000), SIDES, SIDES)
def test_a_window_of_a_larger_screen_is_drawn_in(x, y, wide, high, left, screen_wide, screen_high):
    room = QRect(left, 0, screen_wide, screen_high)
    found = drawn_in(QRect(x, y, wide, high), room)
    assert room.contains(found) and found.top() >= TITLE
    inside = QRect(left, TITLE, screen_wide, screen_high - TITLE)
    if inside.contains(QRect(x, y, wide, high)):
        assert found == QRect(x, y, wide, high)


def enlarge(frame, to):
    frame.go("settings")
    control = frame.pages["settings"].controls["text_size"]
    control.setCurrentIndex(control.findText(f"{to} %"))
    control.activated.emit(control.currentIndex())


def test_the_first_window_is_no_taller_than_the_screen_whatever_the_size_of_the_text(opened):
    frame = opened()
    room = frame.screen().availableGeometry()
    assert frame.desk.look.px(76) > room.width(), "this screen is too large to tell"
    assert frame.width() <= room.width() and frame.height() <= room.height() - TITLE
    frame.desk.change_setting("text_size", "200")
    assert frame.close()
    again = opened()
    assert again.width() <= room.width() and again.height() <= room.height() - TITLE


def test_a_size_kept_on_a_larger_screen_is_drawn_in(opened):
    frame = opened()
    room = frame.screen().availableGeometry()
    frame.resize(room.width() + 900, room.height() + 600)
    assert frame.close()
    again = opened()
    assert again.width() <= room.width() and again.height() <= room.height() - TITLE


def filled(write):
    for month in (1, 9, 12):
        for year in (2024, 2025):
            write(date(year, month, 3), "gratitude", "The quay.")


@pytest.mark.parametrize("size", [100, 200])
def test_no_choice_is_cut_short_shut_or_open(qtbot, frame, write, size):
    filled(write)
    enlarge(frame, size)
    frame.resize(1024, 700)
    seen = set()
    for page in frame.buttons:
        frame.go(page)
        at_rest(qtbot, frame.desk)
        qtbot.wait(50)
        for choice in frame.stack.currentWidget().findChildren(Choice):
            if choice.isVisible():
                assert choice.words() == choice.currentText(), (page, choice.accessibleName())
                choice.showPopup()
                assert choice.view().sizeHintForColumn(0) <= choice.view().viewport().width(), (page, choice.accessibleName())
                choice.hidePopup()
                seen.add(choice.accessibleName())
    assert len(seen) >= 8


def test_months_of_a_choice_are_read_whole_where_it_is_narrow(qtbot, frame):
    choice = Choice(frame.desk.look, "Month")
    qtbot.addWidget(choice)
    choice.addItem("May")
    for text in ("December 2025", "September of every year", "Gratitude"):
        choice.addItem(text)
    choice.resize(60, 26)
    choice.show()
    choice.showPopup()
    assert choice.view().sizeHintForColumn(0) <= choice.view().viewport().width()
    choice.hidePopup()


def lengths(qtbot, frame, page):
    frame.go(page)
    at_rest(qtbot, frame.desk)
    within = frame.stack.currentWidget()
    parts = [part for part in within.findChildren(QWidget) if part.isVisible() and isinstance(part, QComboBox | QLineEdit)]
    return {part.accessibleName(): (part.mapTo(within, part.rect().topLeft()).x(), part.width()) for part in parts}


def test_after_large_text_all_is_as_it_is_with_small(qtbot, opened, write):
    filled(write)
    first = opened()
    first.resize(1024, 700)
    pages = ("settings", "find", "places", "year", "night")
    wanted = {page: lengths(qtbot, first, page) for page in pages}
    qtbot.waitUntil(lambda: first.pages["settings"].is_shown())
    wanted["settings"] = lengths(qtbot, first, "settings")
    first.desk.change_setting("text_size", "200")
    assert first.close()
    large = opened()
    large.resize(1024, 700)
    for page in pages:
        lengths(qtbot, large, page)
    qtbot.waitUntil(lambda: large.pages["settings"].is_shown())
    enlarge(large, 100)
    for page in pages:
        lengths(qtbot, large, page)
        found = lengths(qtbot, large, page)
        for name, (x, width) in wanted[page].items():
            assert abs(found[name][0] - x) <= 4 and abs(found[name][1] - width) <= 4, (page, name, found[name], (x, width))


def test_what_stands_in_an_empty_field_can_be_read(frame):
    for ink, light in product(INKS, PAPERS):
        frame.desk.kept |= {"ink": ink, "palette": light}
        frame.dress_anew()
        assert fields_that_can_be_read(frame) >= 6


def fields_that_can_be_read(frame) -> int:
    """How many fields say something while they are empty, each of which can be read."""
    paper, seen = frame.desk.look.palette.paper, 0
    for page in ("night", "find", "settings"):
        frame.go(page)
        for field in frame.stack.currentWidget().findChildren(QWidget):
            if isinstance(field, QLineEdit | QPlainTextEdit) and field.placeholderText():
                field.ensurePolished()
                colour: QColor = field.palette().color(QPalette.ColorRole.PlaceholderText)
                assert contrast(mixed(paper, colour.name(), colour.alphaF()), paper) >= TEXT_CONTRAST, field.accessibleName()
                seen += 1
    return seen


def test_the_buttons_that_make_a_book_are_on_the_screen_with_the_largest_text(qtbot, frame):
    enlarge(frame, 200)
    dialog = BookDialog(frame.desk, 2026, frame)
    qtbot.addWidget(dialog)
    dialog.show()
    room = dialog.screen().availableGeometry().size()
    assert dialog.width() <= room.width() and dialog.height() <= room.height() - TITLE
    assert dialog.rect().contains(dialog.make.geometry())
    *_, before, last = dialog.parts.boxes.values()
    qtbot.waitUntil(dialog.isActiveWindow)
    before.setFocus()
    assert last.visibleRegion().isEmpty()
    qtbot.keyClick(before, Qt.Key.Key_Tab)
    assert dialog.focusWidget() is last and not last.visibleRegion().isEmpty(), "what has the focus is scrolled to"
