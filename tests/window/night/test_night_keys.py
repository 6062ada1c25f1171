"""Tab, letters at a button, undo and redo on the page of a night."""

from datetime import date

import pytest
from PySide6.QtCore import QMimeData, Qt, QUrl
from PySide6.QtWidgets import QAbstractButton, QApplication, QLineEdit, QPlainTextEdit
from waiting.at_rest import at_rest

from keeper.actions import writing
from keeper.store import lines, month_pages, nights

TAB = Qt.Key.Key_Tab
CONTROL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier


def focused():
    return QApplication.focusWidget()


def type_at_focus(qtbot, text):
    for letter in text:
        qtbot.keyClicks(focused(), letter)


def undo(qtbot):
    qtbot.keyClick(focused(), Qt.Key.Key_Z, CONTROL)


REDO = [(Qt.Key.Key_Y, CONTROL), (Qt.Key.Key_Z, CONTROL | SHIFT)]


@pytest.fixture
def kept_night(frame, page, write, tonight):
    for kind in ("gratitude", "memory", "reflection"):
        write(tonight, kind, f"A {kind} kept before.")
    frame.desk.changed.emit()
    return page


def test_tab_goes_from_text_to_text_and_to_the_buttons_last(qtbot, kept_night):
    page = kept_night
    page.place.setFocus()
    seen = []
    while not seen or isinstance(seen[-1], QLineEdit | QPlainTextEdit):
        seen.append(focused())
        qtbot.keyClick(focused(), TAB)
    assert seen[:-1] == [page.place, *page.fields.values()]
    rest = set()
    while focused() not in rest:
        assert not isinstance(focused(), QPlainTextEdit) or rest
        rest.add(focused())
        qtbot.keyClick(focused(), TAB)
    buttons = [one for one in page.findChildren(QAbstractButton) if one.isVisible() and one.isEnabled()]
    assert set(buttons) <= rest


def test_tab_goes_through_the_question_being_typed_before_its_answer(qtbot, page):
    for key, kind in ((TAB, "reflection"), (Qt.Key.Key_Backtab, "memory")):
        page.question.begin()
        assert focused() is page.question.edit
        qtbot.keyClick(focused(), key)
        assert focused() is page.fields[kind]


@pytest.mark.parametrize("kind", ["gratitude", "memory", "reflection"])
def test_words_typed_at_a_button_reach_the_field_beside_it_and_nothing_rests(qtbot, kept_night, store, tonight, kind):
    page = kept_night
    page.blocks[kind].buttons.button("rest").setFocus()
    type_at_focus(qtbot, "and more, of rest")
    assert page.fields[kind].toPlainText() == f"A {kind} kept before.and more, of rest"
    page.keep()
    page.desk.writer.finish()
    assert not any(line.resting for line in lines.of_night(store, tonight))


def test_words_typed_at_a_button_of_the_page_go_on_where_one_was(qtbot, page, write, tonight):
    write(date(2026, 11, 9), "memory", "Begun.")
    page.refresh()
    page.fields["memory"].setFocus()
    page.open_nights.itemAt(1).widget().setFocus()
    type_at_focus(qtbot, "two words")
    assert page.night == tonight and page.fields["memory"].toPlainText() == "two words"


def test_a_space_alone_still_presses_a_button(qtbot, kept_night, store, tonight):
    kept_night.blocks["memory"].buttons.button("rest").setFocus()
    qtbot.keyClick(focused(), Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: lines.one(store, tonight, "memory").resting)


# taking back


def texts(page):
    return [field.toPlainText() for field in page.fields.values()]


def test_typing_comes_first_and_then_what_was_done(qtbot, frame, kept_night):
    page = kept_night
    page.fields["gratitude"].setFocus()
    type_at_focus(qtbot, " New.")
    qtbot.keyClick(focused(), Qt.Key.Key_Return)
    assert focused() is page.fields["memory"]
    type_at_focus(qtbot, " More.")
    undo(qtbot)
    assert texts(page)[:2] == ["A gratitude kept before. New.", "A memory kept before."]
    assert focused() is page.fields["memory"]
    undo(qtbot)
    qtbot.waitUntil(lambda: texts(page)[0] == "A gratitude kept before.")
    qtbot.waitUntil(lambda: frame.said.text() == "Took back: Gratitude for the night of 14 November 2026.")
    qtbot.waitUntil(lambda: focused() is page.fields["gratitude"])
    undo(qtbot)
    qtbot.waitUntil(lambda: texts(page)[2] == "")
    qtbot.waitUntil(lambda: focused() is page.fields["reflection"])


@pytest.mark.parametrize(("key", "held"), REDO)
def test_redo_does_again_what_was_taken_back(qtbot, frame, page, store, tonight, key, held):
    page.fields["gratitude"].setFocus()
    type_at_focus(qtbot, "one")
    qtbot.keyClick(focused(), Qt.Key.Key_Return)
    type_at_focus(qtbot, "two")
    page.fields["reflection"].setFocus()
    undo(qtbot)
    qtbot.waitUntil(lambda: texts(page) == ["one", "", ""])
    undo(qtbot)
    qtbot.waitUntil(lambda: texts(page) == ["", "", ""])
    qtbot.keyClick(focused(), key, held)
    qtbot.waitUntil(lambda: texts(page) == ["one", "", ""])
    qtbot.keyClick(focused(), key, held)
    qtbot.waitUntil(lambda: texts(page) == ["one", "two", ""])
    assert focused() is page.fields["memory"]
    assert frame.said.text() == "Done again: Memory for the night of 14 November 2026."
    qtbot.keyClick(focused(), key, held)
    qtbot.waitUntil(lambda: frame.said.text() == "There is nothing to do again.")
    assert len(lines.of_night(store, tonight)) == 2


def test_undo_reaches_the_night_where_it_was(qtbot, frame, page, tonight, store):
    type_at_focus(qtbot, "of tonight")
    frame.go("night", date(2026, 11, 10))
    assert page.fields["gratitude"].toPlainText() == ""
    undo(qtbot)
    qtbot.waitUntil(lambda: (frame.night, page.night) == (tonight, tonight))
    assert page.fields["gratitude"].toPlainText() == ""
    assert lines.one(store, tonight, "gratitude") is None
    frame.go("themes")
    qtbot.keyClick(focused(), Qt.Key.Key_Y, CONTROL)
    qtbot.waitUntil(lambda: frame.page_shown() == "night")
    assert page.fields["gratitude"].toPlainText() == "of tonight"


def test_what_is_typed_in_a_row_of_pauses_is_one_act(qtbot, frame, page, store, tonight):
    frame.go("month", tonight)
    words = frame.pages["month"].sheet.words.field
    words.setFocus()
    for letters, so_far in (("Fog", "Fog"), (" and", "Fog and"), (" fire.", "Fog and fire.")):
        type_at_focus(qtbot, letters)
        qtbot.waitUntil(lambda so_far=so_far: month_pages.one(store, tonight).words == so_far)
    frame.go("night", tonight)
    undo(qtbot)
    qtbot.waitUntil(lambda: month_pages.one(store, tonight).words == "")
    qtbot.waitUntil(lambda: frame.page_shown() == "month")
    qtbot.waitUntil(lambda: words.toPlainText() == "")
    assert frame.said.text() == "Took back: A few words for November 2026."
    undo(qtbot)
    qtbot.waitUntil(lambda: frame.said.text() == "There is nothing to take back.")


def test_undo_and_redo_of_a_place(qtbot, opened, store, clock, tonight):
    writing.set_place(store, tonight, "Riga", clock)
    page = opened().pages["night"]
    page.place.setFocus()
    page.place.selectAll()
    qtbot.keyClicks(page.place, "Sabile")
    qtbot.keyClick(page.place, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: nights.one(store, tonight).place.name == "Sabile")
    assert focused() is page.fields["gratitude"]
    undo(qtbot)
    qtbot.waitUntil(lambda: page.place.text() == "Riga")
    assert nights.one(store, tonight).place.name == "Riga"
    qtbot.keyClick(focused(), Qt.Key.Key_Y, CONTROL)
    qtbot.waitUntil(lambda: page.place.text() == "Sabile")


def test_undo_wakes_what_was_let_rest_last(qtbot, kept_night, store, tonight):
    page = kept_night
    page.blocks["memory"].buttons.button("rest").setFocus()
    qtbot.keyClick(focused(), Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: lines.one(store, tonight, "memory").resting)
    undo(qtbot)
    qtbot.waitUntil(lambda: not lines.one(store, tonight, "memory").resting)
    qtbot.waitUntil(lambda: focused() is page.fields["memory"])


def test_what_the_command_line_did_is_undone_by_the_same_key(qtbot, frame, page, write, tonight):
    page.fields["memory"].setFocus()
    type_at_focus(qtbot, "mine")
    page.commit("memory")
    qtbot.waitUntil(lambda: page.blocks["memory"].state.text() == "kept")
    write(tonight, "memory", "theirs")
    frame.desk.changed.emit()
    assert page.fields["memory"].toPlainText() == "theirs"
    undo(qtbot)
    qtbot.waitUntil(lambda: page.fields["memory"].toPlainText() == "mine")


def test_a_setting_taken_back_is_in_force_at_once(qtbot, frame, store):
    frame.go("settings")
    frame.pages["settings"]._put_in_force("ink", "plum")
    at_rest(qtbot, frame.desk)
    frame.go("night")
    undo(qtbot)
    qtbot.waitUntil(lambda: frame.page_shown() == "settings")
    assert frame.desk.kept.get("ink", "blue-black") == "blue-black"
    assert frame.said.text() == "Took back: Ink plum."
    assert frame.pages["settings"].controls["ink"].currentText() == "blue-black"


def test_what_leans_on_it_is_said_and_nothing_is_changed(qtbot, frame, store, clock, tonight):
    from keeper.actions.history import undoing

    writing.write_line(store, tonight, "memory", "Fog.", clock)
    writing.set_place(store, tonight, "Riga", clock)
    number = undoing.last_noted(store)
    writing.set_place(store, tonight, "Visby", clock)
    frame.desk.turn_wanted.emit(number)
    qtbot.waitUntil(lambda: frame.said.text().startswith("Something done since leans on it: Visby for the night"))
    assert nights.one(store, tonight).place.name == "Visby"


# pasting


def paste(qtbot, field, text=None, html=None, urls=()):
    data = QMimeData()
    if text is not None:
        data.setText(text)
    if html is not None:
        data.setHtml(html)
    if urls:
        data.setUrls([QUrl(url) for url in urls])
    QApplication.clipboard().setMimeData(data)
    field.setFocus()
    qtbot.keyClick(field, Qt.Key.Key_V, CONTROL)
    return field.toPlainText()


def test_rows_that_are_pasted_are_seen_from_the_first(qtbot, page):
    field = page.fields["memory"]
    paste(qtbot, field, "\n".join(f"row {number}" for number in range(10)))
    qtbot.wait(50)
    assert field.firstVisibleBlock().blockNumber() == 0
    assert field.verticalScrollBar().maximum() == 0
    last = field.document().lastBlock()
    assert field.blockBoundingGeometry(last).bottom() <= field.viewport().height() + 1


TIMETABLE = "https://example.org/timetable"


@pytest.mark.parametrize(
    "copied",
    [
        {"text": TIMETABLE, "urls": [TIMETABLE]},
        {"urls": [TIMETABLE]},
        {"html": f'<a href="{TIMETABLE}">{TIMETABLE}</a>'},
        {"text": "", "html": "<a href='x'></a>", "urls": [TIMETABLE]},
    ],
    ids=["text and link", "link alone", "page alone", "nothing but the address"],
)
def test_links_are_pasted_as_words(qtbot, page, copied):
    assert paste(qtbot, page.fields["memory"], **copied) == TIMETABLE


def test_a_link_can_be_dropped_among_the_words_and_a_file_cannot(page):
    field, link, file = page.fields["memory"], QMimeData(), QMimeData()
    link.setText(TIMETABLE)
    link.setUrls([QUrl(TIMETABLE)])
    file.setUrls([QUrl.fromLocalFile("/somewhere/notes.odt")])
    assert field.canInsertFromMimeData(link) and not field.canInsertFromMimeData(file)


def test_a_paste_without_words_is_said(qtbot, frame, page):
    assert paste(qtbot, page.fields["memory"], html="<hr>") == ""
    assert "left out" in frame.said.text()


# the question and its answer


def test_the_question_is_what_the_answers_field_asks(qtbot, frame, page, store, tonight):
    block, field = page.blocks["reflection"], page.fields["reflection"]
    assert field.placeholderText() == "A thought about the day"
    writing.ask_question(store, tonight, "What did I hear today?")
    frame.desk.changed.emit()
    assert block.isAncestorOf(page.question.shown) and block.isAncestorOf(page.question.change)
    assert page.question.shown.text() == "What did I hear today?" and page.question.shown.isVisible()
    assert field.accessibleName() == "Reflection. What did I hear today?"
    assert field.placeholderText() == ""
    above = page.question.shown.mapTo(page, page.question.shown.rect().bottomLeft()).y()
    title = block.title.mapTo(page, block.title.rect().bottomLeft()).y()
    assert title < above <= field.mapTo(page, field.rect().topLeft()).y()
