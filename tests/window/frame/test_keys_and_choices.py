"""Keys are told of where they are declared; no key and no wheel changes a choice in passing."""

from datetime import date

import pytest
from PySide6.QtCore import QPoint, QPointF, QSignalBlocker, Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QDialog, QLabel
from waiting.at_rest import at_rest

from keeper import settings
from keeper.actions import opening
from keeper.window.desk.keys import EVERYWHERE, KEYS, ON_A_MONTH
from keeper.window.frame.keys_sheet import KeysSheet


def wheel(widget):
    """Turn the wheel over it, as the system tells the window of it."""
    window = widget.window()
    spot = widget.mapTo(window, QPoint(widget.width() // 2, widget.height() // 2))
    QTest.wheelEvent(window.windowHandle(), QPointF(spot), QPoint(0, -120))


@pytest.fixture
def page(qtbot, frame):
    frame.resize(700, 480)
    frame.go("settings")
    page = frame.pages["settings"]
    qtbot.waitUntil(lambda: page.is_shown())
    qtbot.waitUntil(lambda: page.verticalScrollBar().maximum() > 200)
    return page


def test_keys_pressed_on_arriving_at_the_settings_change_none(qtbot, frame, page, store):
    before = {name: control.currentText() for name, control in page.controls.items()}
    assert not isinstance(QApplication.focusWidget(), QComboBox)
    for key in (Qt.Key.Key_Down, Qt.Key.Key_N, Qt.Key.Key_PageDown, Qt.Key.Key_Space, Qt.Key.Key_Up):
        qtbot.keyClick(QApplication.focusWidget(), key)
    assert {name: control.currentText() for name, control in page.controls.items()} == before
    assert page.verticalScrollBar().value() > 0
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is page.controls["palette"]


def test_page_keys_over_a_choice_scroll_the_page(qtbot, frame, page, store):
    choice = page.controls["palette"]
    choice.setFocus()
    qtbot.keyClick(choice, Qt.Key.Key_PageDown)
    below = page.verticalScrollBar().value()
    assert below > 0
    qtbot.keyClick(choice, Qt.Key.Key_PageUp)
    assert page.verticalScrollBar().value() < below
    assert choice.currentText() == settings.BY_NAME["palette"].default
    assert frame.desk.writer.finish()
    assert "palette" not in opening.read_settings(store)


def test_the_wheel_over_a_choice_scrolls_the_page(frame, page):
    choice = page.controls["text_size"]
    for focused in (False, True):
        if focused:
            choice.setFocus()
        else:
            page.setFocus()
        page.verticalScrollBar().setValue(0)
        wheel(choice)
        assert (choice.currentText(), page.verticalScrollBar().value() > 0) == ("100 %", True)


def test_nowhere_does_the_wheel_change_a_choice(qtbot, frame, write):
    for month in (3, 11):
        write(date(2026, month, 1), "memory", "The quay.")
    tried = 0
    for name in frame.buttons:
        frame.go(name)
        at_rest(qtbot, frame.desk)
        for choice in frame.stack.currentWidget().findChildren(QComboBox):
            # Another choice may show another thing: only what the wheel does is looked at.
            with QSignalBlocker(choice):
                choice.insertItems(0, ["one", "two", "three"])
                choice.setCurrentIndex(1)
            wheel(choice)
            qtbot.keyClick(choice, Qt.Key.Key_PageDown)
            assert choice.currentIndex() == 1, (name, choice.accessibleName())
            tried += 1
    assert tried >= 8


def test_f1_shows_all_keys_and_closes_them_again(qtbot, frame, monkeypatch):
    seen = []

    def show(sheet):
        sheet.show()
        qtbot.waitUntil(sheet.isActiveWindow)
        seen.extend(label.text() for label in sheet.findChildren(QLabel))
        assert sheet.height() <= sheet.screen().availableGeometry().height()
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_F1)
        assert not sheet.isVisible()

    monkeypatch.setattr(KeysSheet, "exec", show)
    qtbot.keyClick(frame, Qt.Key.Key_F1)
    for key in KEYS:
        assert key.told in seen and key.does in seen
    assert frame.page_shown() == "night"


def test_every_shortcut_of_the_window_is_declared_once(qtbot, frame):
    frame.go("month")
    declared = [pressed for key in (*EVERYWHERE, *ON_A_MONTH) for pressed, _ in key.shortcuts]
    assert len(set(declared)) == len(declared)
    made = [one.key().toString() for one in frame.findChildren(QShortcut) if not isinstance(one.parent(), QDialog)]
    assert sorted(made) == sorted(QKeySequence(pressed).toString() for pressed in declared)
