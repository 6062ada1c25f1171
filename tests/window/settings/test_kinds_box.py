"""Kinds of lines, in the settings: everything by the keyboard alone."""

from datetime import timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel, QLineEdit

from keeper.actions import kinds, reading

TAB, ENTER, SPACE = Qt.Key.Key_Tab, Qt.Key.Key_Return, Qt.Key.Key_Space
ALT, CONTROL = Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def box(qtbot, opened):
    frame = opened()
    frame.go("settings")
    page = frame.pages["settings"]
    qtbot.waitUntil(lambda: page.kinds is not None and len(page.kinds.rows) == 3)
    return page.kinds


def titles(store) -> list[str]:
    return [kind.title for kind in kinds.every(store)]


def press(qtbot, key, held=Qt.KeyboardModifier.NoModifier):
    qtbot.keyClick(QApplication.focusWidget(), key, held)


def retype(qtbot, words):
    press(qtbot, Qt.Key.Key_A, CONTROL)
    qtbot.keyClicks(QApplication.focusWidget(), words) if words else press(qtbot, Qt.Key.Key_Delete)


def test_one_is_added_with_enter_and_the_field_is_ready_for_another(qtbot, box, store, tonight):
    box.more.setFocus()
    qtbot.keyClicks(box.more, "A dream")
    press(qtbot, ENTER)
    qtbot.waitUntil(lambda: len(box.rows) == 4)
    assert titles(store)[-1] == "A dream" and box.more.hasFocus() and box.more.text() == ""
    assert kinds.every(store)[-1].began == tonight


def test_a_name_and_a_prompt_are_typed_over(qtbot, box, store):
    box.rows[1].name.setFocus()
    retype(qtbot, "Seen")
    press(qtbot, TAB)
    qtbot.waitUntil(lambda: titles(store) == ["Gratitude", "Seen", "Reflection"])
    assert box.rows[1].prompt.hasFocus()
    qtbot.keyClicks(QApplication.focusWidget(), "What did you see?")
    press(qtbot, ENTER)
    qtbot.waitUntil(lambda: kinds.every(store)[1].prompt == "What did you see?")
    qtbot.waitUntil(lambda: box.rows[1].up.accessibleName() == "Seen earlier")


@pytest.mark.parametrize(("typed", "says"), [("", "needs a name"), ("gratitude", "already"), ("x" * 61, "60 characters")])
def test_a_name_that_cannot_be_is_told_of_and_put_back(qtbot, box, store, typed, says):
    box.rows[1].name.setFocus()
    retype(qtbot, typed)
    press(qtbot, ENTER)
    qtbot.waitUntil(box.told.isVisible)
    assert says in box.told.text() and titles(store) == ["Gratitude", "Memory", "Reflection"]
    qtbot.waitUntil(lambda: box.rows[1].name.text() == "Memory")


def test_a_ninth_is_told_of_and_what_was_typed_stays(qtbot, box, store, tonight):
    for number in range(5):
        kinds.add(store, f"Kind {number}", tonight)
    box.more.setFocus()
    qtbot.keyClicks(box.more, "A ninth")
    press(qtbot, ENTER)
    qtbot.waitUntil(box.told.isVisible)
    assert "at most eight" in box.told.text() and box.more.text() == "A ninth"


def test_alt_with_an_arrow_moves_a_kind_and_the_keyboard_with_it(qtbot, box, store):
    first = box.rows[0]
    first.name.setFocus()
    press(qtbot, Qt.Key.Key_Down, ALT)
    qtbot.waitUntil(lambda: titles(store) == ["Memory", "Gratitude", "Reflection"])
    qtbot.waitUntil(lambda: box.rows[1] is first)
    assert first.name.hasFocus()
    press(qtbot, Qt.Key.Key_Up, ALT)
    qtbot.waitUntil(lambda: titles(store)[0] == "Gratitude")
    qtbot.waitUntil(lambda: box.rows[0] is first)
    assert not first.up.isEnabled() and box.rows[1].up.isEnabled() and not box.rows[2].down.isEnabled()


def test_by_tab_alone_one_is_left_out_put_out_of_themes_and_given_an_end(qtbot, box, store, tonight):
    one = box.rows[1]
    one.name.setFocus()
    while not one.more.hasFocus():
        press(qtbot, TAB)
    press(qtbot, SPACE)
    assert one.folded.isVisible()
    press(qtbot, TAB)
    press(qtbot, TAB)
    qtbot.keyClicks(QApplication.focusWidget(), (tonight + timedelta(days=9)).isoformat())
    press(qtbot, ENTER)
    qtbot.waitUntil(lambda: kinds.every(store)[1].ended == tonight + timedelta(days=9))
    press(qtbot, TAB)
    press(qtbot, SPACE)
    qtbot.waitUntil(lambda: not kinds.every(store)[1].in_themes)
    press(qtbot, TAB)
    press(qtbot, SPACE)
    qtbot.waitUntil(lambda: not kinds.every(store)[1].asked_on(tonight))
    qtbot.waitUntil(lambda: one.state.text() == "not asked for" and one.out.text() == "Ask again")
    press(qtbot, SPACE)
    qtbot.waitUntil(lambda: kinds.every(store)[1].asked_on(tonight))


def test_a_date_that_is_none_is_told_of(qtbot, box, store):
    box.rows[0].unfold(True)
    box.rows[0].last.setFocus()
    qtbot.keyClicks(box.rows[0].last, "someday soon")
    press(qtbot, ENTER)
    qtbot.waitUntil(box.told.isVisible)
    assert kinds.every(store)[0].ended is None and box.rows[0].last.text() == "someday soon"


def test_the_last_one_cannot_be_left_out(qtbot, box, store, tonight):
    for key in ("memory", "reflection"):
        kinds.leave_out(store, key, tonight)
    box.rows[0].unfold(True)
    box.rows[0].out.setFocus()
    press(qtbot, SPACE)
    qtbot.waitUntil(box.told.isVisible)
    assert "at least one kind stays" in box.told.text() and kinds.asked_on(store, tonight)[0].key == "gratitude"


def test_every_part_has_a_name_of_its_own_and_words_are_plain(qtbot, box, store, tonight):
    kinds.add(store, "<b>A & B</b>", tonight)
    box._desk.changed.emit()
    qtbot.waitUntil(lambda: len(box.rows) == 4)
    for one in box.rows:
        one.unfold(True)
    parts = [*box.findChildren(QLineEdit), *box.findChildren(QAbstractButton)]
    named = [part.accessibleName() for part in parts]
    assert all(named) and len(set(named)) == len(named)
    assert all(one.textFormat() == Qt.TextFormat.PlainText for one in box.findChildren(QLabel))
    assert box.rows[3].name.text() == "<b>A & B</b>"


def test_the_night_takes_it_up_and_lines_stay(qtbot, box, store, write, tonight):
    write(tonight, "memory", "The crane.")
    frame = box.window()
    box.rows[1].name.setFocus()
    retype(qtbot, "Seen")
    press(qtbot, TAB)
    qtbot.waitUntil(lambda: titles(store)[1] == "Seen")
    frame.go("night", tonight)
    qtbot.waitUntil(lambda: frame.pages["night"].blocks["memory"].title.text() == "Seen")
    assert reading.one_night(store, tonight).line("memory").text == "The crane."
    assert frame.pages["night"].fields["memory"].toPlainText() == "The crane."
