"""The night's page, typed into as a person would."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

import pytest
from PySide6.QtCore import QMimeData, Qt
from PySide6.QtGui import QInputMethodEvent
from PySide6.QtWidgets import QApplication

from keeper.actions import writing
from keeper.clock import StoppedClock
from keeper.store import lines, nights
from keeper.window.frame import window
from keeper.window.parts.typing.field import DRAFT_AFTER

LINE = "The school upright held its pitch."


def kept(store, night, kind):
    return next((line.text for line in lines.of_night(store, night) if line.kind == kind), None)


def test_it_opens_ready_to_type_in_the_gratitude_line(qtbot, frame, page):
    qtbot.waitUntil(lambda: QApplication.focusWidget() is page.fields["gratitude"])
    assert page.night == frame.desk.tonight()


def test_a_line_costs_one_key_beyond_its_words(qtbot, page, store, tonight):
    # Keystroke-level model (Card, Moran & Newell, 1980): at most two keys, no
    # pointing. Here: the words, then Enter.
    qtbot.keyClicks(page.fields["gratitude"], LINE)
    qtbot.keyClick(page.fields["gratitude"], Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: kept(store, tonight, "gratitude") == LINE)


def test_closing_the_window_keeps_the_line_without_any_key(qtbot, frame, page, store, tonight):
    qtbot.keyClicks(page.fields["gratitude"], LINE)
    frame.close()
    assert kept(store, tonight, "gratitude") == LINE
    assert lines.drafts(store) == ()


def test_enter_goes_through_the_kinds(qtbot, page, store, tonight):
    qtbot.waitUntil(lambda: QApplication.focusWidget() is page.fields["gratitude"])
    for text in ("one", "two", "three"):
        qtbot.keyClicks(QApplication.focusWidget(), text)
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: len(lines.of_night(store, tonight)) == 3)
    assert [line.text for line in lines.of_night(store, tonight)] == ["one", "two", "three"]


def test_arrows_leave_a_field_only_at_its_edge(qtbot, page):
    page.fields["memory"].setFocus()
    qtbot.keyClick(page.fields["memory"], Qt.Key.Key_Down)
    assert QApplication.focusWidget() is page.fields["reflection"]
    qtbot.keyClick(page.fields["reflection"], Qt.Key.Key_Up)
    qtbot.keyClick(page.fields["memory"], Qt.Key.Key_Up)
    assert QApplication.focusWidget() is page.fields["gratitude"]


def test_shift_enter_begins_a_new_row_in_the_same_line(qtbot, page, store, tonight):
    field = page.fields["memory"]
    field.setFocus()
    qtbot.keyClicks(field, "first")
    qtbot.keyClick(field, Qt.Key.Key_Return, Qt.KeyboardModifier.ShiftModifier)
    qtbot.keyClicks(field, "second")
    page.commit("memory")
    qtbot.waitUntil(lambda: kept(store, tonight, "memory") == "first\nsecond")


def test_words_being_typed_are_a_draft_within_a_second(qtbot, page, store, tonight):
    assert DRAFT_AFTER < 1000
    qtbot.keyClicks(page.fields["memory"], "half a sent")
    qtbot.waitUntil(lambda: bool(lines.drafts(store, tonight)))
    draft = lines.drafts(store, tonight)[0]
    assert (draft.kind, draft.text) == ("memory", "half a sent")
    assert kept(store, tonight, "memory") is None


def test_a_draft_left_behind_is_there_again(store, opened, clock, tonight):
    writing.keep_draft(store, tonight, "reflection", "what the power cut left", clock)
    page = opened().pages["night"]
    assert page.fields["reflection"].toPlainText() == "what the power cut left"


def test_going_to_another_night_keeps_what_was_typed_on_the_right_one(qtbot, frame, page, store, tonight):
    qtbot.keyClicks(page.fields["memory"], "of tonight")
    frame.go("night", date(2026, 11, 13))
    qtbot.keyClicks(page.fields["memory"], "of the night before")
    frame.go("night", tonight)
    qtbot.waitUntil(lambda: kept(store, date(2026, 11, 13), "memory") == "of the night before")
    assert kept(store, tonight, "memory") == "of tonight"


def test_emptying_a_field_takes_the_line_out_and_keeps_its_wording(qtbot, page, store, write, tonight):
    write(tonight, "memory", "to go")
    page.refresh()
    field = page.fields["memory"]
    assert field.toPlainText() == "to go"
    field.selectAll()
    qtbot.keyClick(field, Qt.Key.Key_Delete)
    page.commit("memory")
    qtbot.waitUntil(lambda: kept(store, tonight, "memory") is None)
    assert lines.wordings(store, tonight, "memory")[0].text == "to go"


def test_earlier_wordings_are_offered_only_when_there_are_any(qtbot, page, store, write, tonight):
    assert not page.blocks["memory"].buttons.button("earlier").isVisible()
    write(tonight, "memory", "first wording")
    write(tonight, "memory", "second wording")
    page.refresh()
    assert page.blocks["memory"].buttons.button("earlier").isVisible()


def test_past_midnight_the_page_says_whose_night_it_is(opened):
    late = datetime(2026, 11, 15, 0, 30, tzinfo=ZoneInfo("Europe/Riga"))
    page = opened(StoppedClock(late, "Europe/Riga")).pages["night"]
    assert page.night == date(2026, 11, 14)
    assert page.heading.text() == "Saturday 14 November 2026"
    assert "still tonight" in page.when.text() and "4:00" in page.when.text()


def test_a_place_is_carried_on_and_said_so(qtbot, opened, store, clock, tonight):
    writing.set_place(store, date(2026, 11, 13), "Liepāja", clock)
    page = opened().pages["night"]
    assert page.place.text() == "Liepāja"
    assert page.place_said.text() == "carried on"
    qtbot.keyClicks(page.fields["gratitude"], LINE)
    page.keep()
    qtbot.waitUntil(lambda: nights.one(store, tonight).place is not None)
    assert nights.one(store, tonight).place_source == "carried"


def test_a_known_place_comes_by_a_few_letters(qtbot, opened, store, clock, tonight):
    for name in ("Gdańsk", "Rønne"):
        writing.set_place(store, date(2026, 10, 1), name, clock)
    page = opened().pages["night"]
    page.place.setFocus()
    page.place.selectAll()
    qtbot.keyClicks(page.place, "gda")
    qtbot.keyClick(page.place, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: nights.one(store, tonight).place is not None)
    assert nights.one(store, tonight).place.name == "Gdańsk"
    assert QApplication.focusWidget() is page.fields["gratitude"]


def test_a_new_place_gets_its_name_as_typed(qtbot, page, store, tonight):
    page.place.setFocus()
    qtbot.keyClicks(page.place, "The night ferry")
    # The list of offers is open and has the keyboard; it hands Tab on.
    qtbot.keyClick(QApplication.activePopupWidget() or page.place, Qt.Key.Key_Tab)
    qtbot.waitUntil(lambda: nights.one(store, tonight).place is not None)
    assert nights.one(store, tonight).place.name == "The night ferry"


def test_open_nights_are_offered_newest_first(qtbot, opened, write):
    write(date(2026, 11, 9), "memory", "the beginning")
    write(date(2026, 11, 12), "memory", "in between")
    page = opened().pages["night"]
    assert page.page.still_open == (date(2026, 11, 13), date(2026, 11, 11), date(2026, 11, 10))
    offered = [page.open_nights.itemAt(i).widget() for i in range(page.open_nights.count())]
    texts = [widget.text() for widget in offered if widget]
    assert texts == ["Without a line:", "Fri 13 Nov", "Wed 11 Nov", "Tue 10 Nov"]
    qtbot.mouseClick(offered[1], Qt.MouseButton.LeftButton)
    assert page.night == date(2026, 11, 13)


def test_the_question_stands_over_the_reflection(qtbot, page, store, tonight):
    assert page.question.shown.isHidden()
    page.question.begin()
    qtbot.keyClicks(page.question.edit, "What did I hear today?")
    qtbot.keyClick(page.question.edit, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: page.page.question == "What did I hear today?")
    assert page.question.shown.text() == "What did I hear today?"
    assert not page.question.shown.isHidden()


def test_a_line_can_rest_and_wake(qtbot, page, store, write, tonight):
    write(tonight, "memory", "a hard day")
    page.refresh()
    button = page.blocks["memory"].buttons.button("rest")
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: lines.of_night(store, tonight)[0].resting)
    qtbot.waitUntil(lambda: button.text() == "Wake")
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: not lines.of_night(store, tonight)[0].resting)


@pytest.mark.parametrize("text", ["שלום עולם", "مساء الخير"])
def test_right_to_left_words_set_themselves_from_the_right(page, text):
    field = page.fields["gratitude"]
    field.put(text)
    assert field.document().firstBlock().textDirection() == Qt.LayoutDirection.RightToLeft
    assert field.cursorRect().left() > field.viewport().width() / 4
    field.put("and back")
    assert field.cursorRect().left() < field.viewport().width() / 2


def test_an_input_method_may_compose_with_enter(qtbot, page, store, tonight):
    field = page.fields["gratitude"]
    field.setFocus()
    composing = QInputMethodEvent("とうきょう", [])
    QApplication.sendEvent(field, composing)
    assert field.toPlainText() == ""
    done = QInputMethodEvent()
    done.setCommitString("東京")
    QApplication.sendEvent(field, done)
    page.commit("gratitude")
    qtbot.waitUntil(lambda: kept(store, tonight, "gratitude") == "東京")


def test_what_is_no_text_is_left_out_of_a_paste_and_said(page, frame):
    data = QMimeData()
    data.setText("a bell\x07 and\x00 an end")
    page.fields["memory"].insertFromMimeData(data)
    assert page.fields["memory"].toPlainText() == "a bell and an end"
    assert "left out" in frame.said.text()


def test_a_line_too_long_stays_as_a_draft_and_is_said(qtbot, frame, page, store, tonight):
    text = "word " * 20_000
    page.fields["memory"].put(text)
    page.commit("memory")
    qtbot.waitUntil(lambda: bool(lines.drafts(store, tonight)))
    assert "characters long" in frame.said.text()
    assert lines.drafts(store, tonight)[0].text.strip() == text.strip()
    assert page.fields["memory"].toPlainText() == text
    page.fields["memory"].put("short")
    page.commit("memory")
    qtbot.waitUntil(lambda: kept(store, tonight, "memory") == "short")
    assert frame.keep_all()


def test_a_full_disk_is_said_and_loses_nothing(qtbot, frame, page, tonight, monkeypatch):
    def fill(store):
        pages = store.row("PRAGMA page_count")[0]
        store.row(f"PRAGMA max_page_count = {pages}")

    frame.desk.write(fill)
    text = "x" * 19_000
    page.fields["memory"].put(text)
    page.commit("memory")
    qtbot.waitUntil(lambda: "disk is full" in frame.said.text())
    assert page.fields["memory"].toPlainText() == text
    assert page.blocks["memory"].state.text() == "not kept yet"
    frame.close()
    assert frame.isVisible()
    assert "A copy of the words is in" in frame.said.text()
    rescued = frame.desk.folder.parent / f"keeper-unkept-{tonight}.txt"
    assert text in rescued.read_text(encoding="utf-8")
    frame.desk.write(lambda store: store.row("PRAGMA max_page_count = 1000000"))
    assert frame.close()


def test_what_another_program_writes_is_shown_within_two_seconds(qtbot, page, write, tonight):
    assert window.LOOK_FOR_CHANGES <= 2000
    write(tonight, "memory", "from the terminal")
    qtbot.waitUntil(lambda: page.fields["memory"].toPlainText() == "from the terminal")


def test_what_another_program_writes_never_overwrites_what_is_being_typed(qtbot, page, write, tonight, frame):
    qtbot.keyClicks(page.fields["memory"], "mine, not yet kept")
    write(tonight, "memory", "from the terminal")
    frame.desk.changed.emit()
    assert page.fields["memory"].toPlainText() == "mine, not yet kept"


def test_a_key_asks_nothing_of_the_keeper(qtbot, page, frame, monkeypatch):
    field, asked = page.fields["memory"], []
    field.put("word " * 3000)
    for way in ("rows", "row"):
        monkeypatch.setattr(type(frame.desk.store), way, lambda *given: asked.append(given))
    qtbot.keyClicks(field, "a few more words at the end")
    monkeypatch.undo()
    assert field.toPlainText().startswith("word ") and "at the end" in field.toPlainText()
    assert asked == []
