"""Later words in a real window: typed under an old line wherever it is met, and shown with it."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QLabel, QPushButton

from keeper.actions.readings import changing, noting
from keeper.actions.remembering import later
from keeper.store import lines
from keeper.store.history.acts import latest
from keeper.window.month.nights import NightColumn
from keeper.window.parts.later.dialog import LaterDialog
from keeper.window.parts.later.shown import LaterWords

THEN = date(2023, 11, 14)


@pytest.fixture
def line(write):
    return write(THEN, "memory", "The piano in Turku had lost its voice.")


def looking_back(qtbot, frame, night):
    frame.go("looking back", night)
    page = frame.pages["looking back"]
    qtbot.waitUntil(lambda: page.found is not None and page.found.night == night and page._coming.over())
    return page


def kept(store, line):
    return [(word.said_on, word.text, word.looks) for word in lines.by_id(store, line.id).later]


def days_before(clock, days):
    return replace(clock, at=clock.at - timedelta(days))


def told(part):
    return [one.text() for one in part.findChildren(QLabel) if not one.isHidden()]


def test_whatever_is_typed_on_looking_back_is_a_later_word_and_is_kept(qtbot, frame, store, line, tonight):
    page = looking_back(qtbot, frame, tonight)
    assert "14 November 2023" in page.later.under.text() and not page.later.field.hasFocus()
    page.setFocus()
    qtbot.keyClick(frame.focusWidget(), "I")
    assert page.later.field.hasFocus()
    qtbot.keyClicks(page.later.field, "t has it again.")
    assert page.later.field.words() == "It has it again."
    qtbot.waitUntil(lambda: kept(store, line) == [(tonight, "It has it again.", None)])
    qtbot.waitUntil(lambda: page.later.state.text() == "kept")
    assert lines.by_id(store, line.id).text == line.text


def test_it_is_taken_back_and_done_again_as_one_act(qtbot, frame, store, line, tonight):
    page = looking_back(qtbot, frame, tonight)
    page.later.field.setFocus()
    qtbot.keyClicks(page.later.field, "It has")
    # What is typed on belongs to the act that the window has heard of.
    qtbot.waitUntil(lambda: kept(store, line) != [] and page.later.state.text() == "kept")
    qtbot.keyClicks(page.later.field, " it again.")
    page.setFocus()
    qtbot.waitUntil(lambda: kept(store, line) == [(tonight, "It has it again.", None)])
    qtbot.waitUntil(lambda: page.later.state.text() == "kept")
    qtbot.keyClick(frame, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: kept(store, line) == [] and page.later.field.words() == "")
    qtbot.keyClick(frame, Qt.Key.Key_Y, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: kept(store, line) != [] and page.later.field.words() == "It has it again.")


def test_it_is_one_act_though_the_field_is_left_before_the_last_pause_is_answered(qtbot, frame, store, line, tonight):
    page = looking_back(qtbot, frame, tonight)
    page.later.field.setFocus()
    for words in ("It has", " it", " again."):
        # Nothing is heard of in between.
        page.later.field.insertPlainText(words)
        page.later.keep()
    qtbot.waitUntil(lambda: kept(store, line) == [(tonight, "It has it again.", None)])
    told = [one.act.told.split(" for ")[0] for one in latest(store, 9)]
    assert told == ["A later word under the memory", "Memory"]


def test_those_of_earlier_nights_stand_under_the_line_with_how_long_after(qtbot, frame, store, clock, line, tonight):
    later.write(store, line.id, date(2024, 11, 14), "Sold, I hear.", clock)
    later.write(store, line.id, tonight, "It has it again.", clock)
    page = looking_back(qtbot, frame, tonight)
    shown = page.nights.itemAt(0).widget().later[line.id]
    assert told(shown) == ["A year on, 14 November 2024", "Sold, I hear."]
    assert page.later.field.words() == "It has it again."


def test_another_line_is_chosen_by_its_button(qtbot, frame, write, store, line, tonight):
    other = write(date(2022, 11, 14), "memory", "Rain in Riga.")
    page = looking_back(qtbot, frame, tonight)
    night = page.nights.itemAt(1).widget()
    button = next(one for one in night.findChildren(type(night.heading)) if one.text() == "Later word")
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert page.later.field.hasFocus() and "14 November 2022" in page.later.under.text()
    qtbot.keyClicks(page.later.field, "Long dry.")
    frame.go("night", tonight)
    qtbot.waitUntil(lambda: kept(store, other) == [(tonight, "Long dry.", None)])
    assert kept(store, line) == []


def test_how_the_mood_looks_from_here_is_one_digit(qtbot, frame, store, clock, line, tonight):
    mood = changing.begin(store, changing.offered(THEN)[0])
    noting.note(store, THEN, mood.id, "3", clock)
    page = looking_back(qtbot, frame, tonight)
    assert page.later.noted.text() == "mood 3 that night; from here"
    page.later.looks.setFocus()
    qtbot.keyClicks(page.later.looks, "6")
    qtbot.waitUntil(lambda: kept(store, line) == [(tonight, "", 6.0)])
    assert noting.noted(store, THEN, mood.id).value == 3.0


def button(part, text):
    return next(one for one in part.findChildren(QPushButton) if one.text() == text)


def test_what_was_said_on_another_night_is_changed_removed_and_brought_back_where_it_is_met(qtbot, frame, monkeypatch, store, clock, line, tonight):
    said_on = date(2024, 11, 14)
    later.write(store, line.id, said_on, "Sold, I hear.", days_before(clock, 731))
    dialogs = []
    monkeypatch.setattr(QDialog, "exec", lambda dialog: dialogs.append(dialog))
    page = looking_back(qtbot, frame, tonight)
    qtbot.mouseClick(button(page.nights.itemAt(0).widget().later[line.id], "Change"), Qt.MouseButton.LeftButton)
    (dialog,) = dialogs
    field = dialog.later.field
    assert (field.words(), field.accessibleName()) == ("Sold, I hear.", "What was said on 14 November 2024 under the memory of 14 November 2023")
    field.setFocus()
    qtbot.keyClicks(field, " Not so.")
    dialog.later.keep()
    qtbot.waitUntil(lambda: kept(store, line) == [(said_on, "Sold, I hear. Not so.", None)])
    back = lambda: [one for one in dialog.later.findChildren(QPushButton) if one.text() == "Bring back"]  # noqa: E731
    qtbot.waitUntil(lambda: len(back()) == 1)
    dialog.later.remove.click()
    qtbot.waitUntil(lambda: kept(store, line) == [] and not dialog.later.remove.isVisibleTo(dialog))
    back()[0].click()
    qtbot.waitUntil(lambda: kept(store, line) == [(said_on, "Sold, I hear.", None)])
    dialog.reject()
    qtbot.waitUntil(lambda: "Sold, I hear." in told(page.nights.itemAt(0).widget().later[line.id]))
    dialog.deleteLater()


def test_in_its_dialog_the_word_in_the_field_stands_there_alone_and_those_of_other_nights_above(qtbot, frame, store, clock, line, tonight):
    later.write(store, line.id, date(2024, 11, 14), "Sold, I hear.", clock)
    later.write(store, line.id, tonight, "It has it again.", clock)
    dialog = LaterDialog(frame.desk, [lines.by_id(store, line.id)])
    qtbot.addWidget(dialog)
    shown = dialog.findChild(LaterWords)
    assert (dialog.later.field.words(), told(shown)) == ("It has it again.", ["A year on, 14 November 2024", "Sold, I hear."])
    button(shown, "Change").click()
    assert (dialog.later.field.words(), told(shown)[1]) == ("Sold, I hear.", "It has it again.")
    # Tonight's is still being written: it has no earlier wording to be told of.
    assert not dialog.later.remove.isHidden()


def test_half_a_word_is_kept_when_the_window_closes(qtbot, frame, store, line, tonight):
    page = looking_back(qtbot, frame, tonight)
    page.later.field.setFocus()
    qtbot.keyClicks(page.later.field, "It ha")
    assert kept(store, line) == []
    frame.leave()
    assert kept(store, line) == [(tonight, "It ha", None)]


@pytest.mark.parametrize("page_name", ["night", "month"])
def test_a_key_opens_it_on_other_pages(qtbot, frame, monkeypatch, store, line, page_name):
    seen = []
    monkeypatch.setattr(QDialog, "exec", lambda dialog: seen.append(dialog))
    frame.go(page_name, THEN)
    page = frame.pages[page_name]
    if page_name == "night":
        assert page.blocks["memory"].buttons.button("later").isVisible()
        page.fields["memory"].setFocus()
        qtbot.keyClick(page.fields["memory"], Qt.Key.Key_J, Qt.KeyboardModifier.ControlModifier)
    else:
        column = frame.pages["month"].findChild(NightColumn)
        qtbot.waitUntil(lambda: column._model.rowCount() == 30)
        column.setCurrentIndex(column._model.index(13, 0))
        qtbot.keyClick(column, Qt.Key.Key_J, Qt.KeyboardModifier.ControlModifier)
    (dialog,) = seen
    assert isinstance(dialog, LaterDialog)
    dialog.later.field.insertPlainText("It has it again.")
    dialog.reject()
    qtbot.waitUntil(lambda: [word.text for word in lines.by_id(store, line.id).later] == ["It has it again."])
    dialog.deleteLater()
    if page_name == "night":
        qtbot.waitUntil(lambda: page.blocks["memory"].words is not None)
        assert "It has it again." in told(page.blocks["memory"].words)


def test_tonights_own_line_is_offered_none(frame, write, page, tonight):
    write(tonight, "memory", "Just now.")
    frame.desk.changed.emit()
    assert page.blocks["memory"].buttons.button("later").isHidden() and page.blocks["memory"].words is None


def test_a_later_word_is_never_taken_for_markup(qtbot, frame, store, clock, line, tonight):
    later.write(store, line.id, date(2024, 11, 14), "<b>bold</b>", clock)
    shown = LaterWords(frame.desk, lines.by_id(store, line.id))
    qtbot.addWidget(shown)
    assert all(one.textFormat() == Qt.TextFormat.PlainText for one in shown.findChildren(QLabel))
