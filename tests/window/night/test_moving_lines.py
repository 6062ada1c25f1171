"""A line moved to another night or kind: by button and by key, with words in the way, and taken back."""

from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from keeper.actions import writing
from keeper.store import lines
from keeper.window.night.move_line import MoveLineDialog

TONIGHT, BEFORE = date(2026, 11, 14), date(2026, 11, 13)


@pytest.fixture
def opened_dialog(monkeypatch):
    """The dialog, when it is opened; it is answered without a loop of its own."""
    came = []
    monkeypatch.setattr(MoveLineDialog, "exec", lambda self: (came.append(self), self.show()))
    return came


@pytest.fixture
def dialog(qtbot, page, opened_dialog, store, clock, frame):
    writing.write_line(store, TONIGHT, "memory", "Fog over the harbour.", clock)
    frame.desk.changed.emit()
    page.fields["memory"].setFocus()
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_M, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: bool(opened_dialog))
    return opened_dialog[0]


def test_by_key_to_another_night_and_taken_back_by_key(qtbot, frame, page, dialog, store):
    assert dialog.to_kind.currentData() == "memory"
    dialog.to_night.setText("2026-11-13")
    qtbot.keyClick(dialog.to_night, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: page.night == BEFORE)
    assert page.fields["memory"].toPlainText() == "Fog over the harbour."
    assert frame.said.text() == "Moved: Memory, Friday 13 November 2026."
    assert lines.one(store, TONIGHT, "memory") is None
    assert [one.text for one in lines.wordings(store, TONIGHT, "memory")] == ["Fog over the harbour."]
    # Without a window manager the dialog stays the active window.
    frame.activateWindow()
    qtbot.waitUntil(lambda: QApplication.focusWidget() is not None)
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: lines.one(store, TONIGHT, "memory") is not None)
    assert lines.one(store, BEFORE, "memory") is None and lines.wordings(store, TONIGHT, "memory") == ()


def test_words_in_the_way_are_told_and_nothing_is_moved(qtbot, page, dialog, store, clock):
    writing.write_line(store, TONIGHT, "reflection", "There.", clock)
    dialog.to_kind.setCurrentIndex(2)
    dialog.take()
    qtbot.waitUntil(lambda: "already: \u201cThere.\u201d. Nothing was moved." in dialog.told.text())
    dialog.to_night.setText("2026-12-24")
    dialog.take()
    assert "none that is still to come" in dialog.told.text()
    assert lines.one(store, TONIGHT, "memory").text == "Fog over the harbour."


def test_what_is_typed_is_kept_before_it_is_moved(qtbot, page, opened_dialog, store):
    field = page.fields["gratitude"]
    field.setFocus()
    qtbot.keyClicks(field, "Just typed.")
    qtbot.keyClick(field, Qt.Key.Key_M, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: bool(opened_dialog))
    opened_dialog[0].to_kind.setCurrentIndex(1)
    opened_dialog[0].take()
    qtbot.waitUntil(lambda: page.fields["memory"].toPlainText() == "Just typed.")
    assert field.toPlainText() == "" and page.blocks["memory"].buttons.button("move").isVisible() and not page.blocks["gratitude"].buttons.button("move").isVisible()


def test_without_a_line_there_is_nothing_to_move(qtbot, page, opened_dialog):
    page.fields["gratitude"].setFocus()
    qtbot.keyClick(page.fields["gratitude"], Qt.Key.Key_M, Qt.KeyboardModifier.ControlModifier)
    page.desk.writer.finish()
    QApplication.processEvents()
    assert not opened_dialog


def test_a_line_written_where_one_was_moved_away_is_another(store, clock):
    from keeper.actions.history.moving import move_line

    first = writing.write_line(store, TONIGHT, "memory", "Fog.", clock)
    moved = move_line(store, TONIGHT, "memory", BEFORE, "memory", clock)
    second = writing.write_line(store, TONIGHT, "memory", "Rain.", clock)
    assert moved.id == first.id != second.id and moved.written == first.written
