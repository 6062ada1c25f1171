"""The night's page draws its fields from the kinds in force, and shows words of those that are not."""

from datetime import timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QPlainTextEdit
from waiting.at_rest import at_rest

from keeper.actions import kinds, reading, writing
from keeper.errors import CannotWrite

NAMES = ("A dream", "Read", "A kindness", "Überraschung des Tages", "W" * 60)
CONTROL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def own(store, tonight) -> list[str]:
    """The keys of five kinds of one's own, asked for from tonight on."""
    return [kinds.add(store, name, tonight, prompt=f"What of {name[:9]}?").key for name in NAMES]


def visible(page) -> list[str]:
    """What stands over the fields seen, from above."""
    blocks = sorted((block for block in page.kinds.every.values() if block.isVisible()), key=lambda block: block.y())
    return [block.title.text().replace("\u200b", "") for block in blocks]


def test_eight_fields_in_order_each_with_its_name_prompt_and_line(qtbot, own, opened, store, tonight):
    page = opened().pages["night"]
    assert visible(page) == ["Gratitude", "Memory", "Reflection", *NAMES] and list(page.fields)[3:] == own
    assert page.fields[own[0]].placeholderText() == "What of A dream?" and page.fields[own[0]].accessibleName() == "A dream"
    assert page.blocks[own[0]].buttons.button("rest").accessibleName() == "Let “A dream” rest"
    assert page.blocks["memory"].buttons.button("rest").accessibleName() == "Let the memory rest"
    for key, field in page.fields.items():
        field.setFocus()
        qtbot.keyClicks(field, f"words of {key}")
    page.keep()
    qtbot.waitUntil(lambda: len(reading.one_night(store, tonight).lines) == 8)
    assert all(line.text == f"words of {line.kind}" for line in reading.one_night(store, tonight).lines)
    qtbot.waitUntil(lambda: {block.state.text() for block in page.blocks.values()} == {"kept"})


def test_enter_and_tab_go_through_all_of_them(qtbot, own, opened):
    page = opened().pages["night"]
    page.setFocus()
    for field in list(page.fields.values())[1:]:
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)
        assert QApplication.focusWidget() is field
    page.place.setFocus()
    seen = []
    while not seen or isinstance(seen[-1], QLineEdit | QPlainTextEdit):
        seen.append(QApplication.focusWidget())
        qtbot.keyClick(seen[-1], Qt.Key.Key_Tab)
    assert seen[:-1] == [page.place, *page.fields.values()]


def test_nights_before_they_began_do_not_ask_for_them(own, opened, tonight):
    frame = opened()
    page = frame.pages["night"]
    frame.go("night", tonight - timedelta(days=1))
    assert visible(page) == ["Gratitude", "Memory", "Reflection"]
    frame.go("night", tonight)
    assert visible(page)[3:] == list(NAMES)


def test_one_left_out_goes_and_is_shown_where_it_has_words(frame, page, store, write, tonight):
    write(tonight - timedelta(days=2), "memory", "The crane.")
    kinds.leave_out(store, "memory", tonight)
    kinds.leave_out(store, "gratitude", tonight)
    frame.go("looking back")
    frame.go("night", tonight)
    assert visible(page) == ["Reflection"] and QApplication.focusWidget() is page.fields["reflection"]
    frame.go("night", tonight - timedelta(days=2))
    assert visible(page) == ["Gratitude", "Memory", "Reflection"] and page.fields["memory"].toPlainText() == "The crane."


def test_what_is_being_typed_stays_and_is_kept_when_its_kind_is_left_out_elsewhere(qtbot, frame, page, store, tonight):
    page.fields["memory"].setFocus()
    qtbot.keyClicks(page.fields["memory"], "half a th")
    kinds.leave_out(store, "memory", tonight)
    frame.desk.changed.emit()
    assert visible(page) == ["Gratitude", "Memory", "Reflection"]
    qtbot.keyClicks(page.fields["memory"], "ought")
    page.keep()
    qtbot.waitUntil(lambda: page.blocks["memory"].state.text() == "kept")
    assert reading.one_night(store, tonight).line("memory").text == "half a thought"


def test_words_taken_out_of_one_left_out_come_back_with_undo(qtbot, frame, page, store, write, tonight):
    write(tonight, "memory", "The crane.")
    kinds.leave_out(store, "memory", tonight)
    frame.desk.changed.emit()
    field = page.fields["memory"]
    field.setFocus()
    qtbot.keyClick(field, Qt.Key.Key_A, CONTROL)
    qtbot.keyClick(field, Qt.Key.Key_Delete)
    page.keep()
    qtbot.waitUntil(lambda: page.page.night.line("memory") is None)
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Z, CONTROL)
    qtbot.waitUntil(lambda: field.toPlainText() == "The crane." and field.isVisible())
    qtbot.keyClick(field, Qt.Key.Key_A, CONTROL)
    qtbot.keyClick(field, Qt.Key.Key_Delete)
    page.keep()
    qtbot.waitUntil(lambda: page.page.night.line("memory") is None)
    frame.go("find")
    frame.go("night", tonight)
    assert visible(page) == ["Gratitude", "Reflection"]
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Z, CONTROL)
    assert visible(page) == ["Gratitude", "Reflection"]


def test_words_that_cannot_be_kept_are_shown_whatever_their_kind_came_to(qtbot, frame, page, store, tonight, monkeypatch):
    def refuse(*_):
        raise CannotWrite("The disk is full.")

    with monkeypatch.context() as full:
        full.setattr(writing, "write_line", refuse)
        full.setattr(writing, "keep_draft", refuse)
        page.fields["memory"].setFocus()
        qtbot.keyClicks(page.fields["memory"], "half a th")
        kinds.leave_out(store, "memory", tonight)
        frame.go("find")
        qtbot.waitUntil(lambda: page.words.state((tonight, "memory")) == "failing")
        frame.go("night", tonight)
    assert visible(page) == ["Gratitude", "Memory", "Reflection"] and page.fields["memory"].toPlainText() == "half a th"
    # One that is still under way may be refused yet.
    qtbot.waitUntil(lambda: page.keep() or page.blocks["memory"].state.text() == "kept")


def test_one_that_is_added_meanwhile_can_be_typed_in_and_that_undone(qtbot, frame, page, store, tonight):
    key = kinds.add(store, "A dream", tonight).key
    frame.desk.changed.emit()
    field = page.fields[key]
    field.setFocus()
    qtbot.keyClicks(field, "of ferries")
    qtbot.keyClick(field, Qt.Key.Key_Z, CONTROL)
    assert field.toPlainText() == "" and visible(page)[3:] == ["A dream"]


def test_another_name_and_order_are_taken_up_at_once(frame, page, store, write, tonight):
    write(tonight, "memory", "The crane.")
    kinds.rename(store, "memory", "Seen & heard")
    kinds.prompt(store, "gratitude", "For what?")
    kinds.order(store, ["reflection", "memory"])
    frame.desk.changed.emit()
    assert visible(page) == ["Reflection", "Seen & heard", "Gratitude"]
    assert page.fields["memory"].toPlainText() == "The crane." and page.fields["gratitude"].placeholderText() == "For what?"
    assert page.last_text is page.fields["gratitude"]
    frame.go("find")
    frame.go("night", tonight)
    assert QApplication.focusWidget() is page.fields["reflection"]


def test_the_question_stands_over_its_answer_whatever_that_is_called(frame, page, store, tonight):
    writing.ask_question(store, tonight, "What did I hear?")
    kinds.rename(store, "reflection", "Overheard")
    frame.desk.changed.emit()
    block = page.blocks["reflection"]
    assert page.question.shown.isVisible() and block.isAncestorOf(page.question)
    assert block.field.accessibleName() == "Overheard. What did I hear?"
    kinds.leave_out(store, "reflection", tonight)
    frame.desk.changed.emit()
    assert not page.question.isVisible()


def test_what_could_not_be_kept_is_told_by_the_persons_name(qtbot, own, opened, tonight):
    page = opened().pages["night"]
    page.fields[own[0]].setFocus()
    qtbot.keyClicks(page.fields[own[0]], "of ferries")
    assert page.unkept() == {(tonight, "A dream"): "of ferries"}
    page.keep()


def test_every_page_opens_with_eight_kinds(qtbot, own, opened, store, write, tonight):
    for years in range(3):
        for key in ("gratitude", "memory", "reflection", *own):
            write(tonight.replace(year=tonight.year - years), key, f"The harbour, words of {key[:9]}.")
    frame = opened()
    for name in ("month", "year", "themes", "places", "settings", "looking back", "find"):
        frame.go(name, tonight)
        for _ in range(3):
            at_rest(qtbot, frame.desk)
        page = frame.pages[name]
        assert page.isVisible() and page.sizeHint().isValid(), name
    told = {one.text().replace("\u200b", "") for one in frame.pages["looking back"].findChildren(QLabel)}
    assert told >= set(NAMES)
    only = page.sentence.only
    qtbot.waitUntil(lambda: only.known is not None)
    assert [kind.title for kind in only.known.kinds] == ["Gratitude", "Memory", "Reflection", *NAMES]
    only.setText(NAMES[0])
    qtbot.keyClick(only, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: page.model.rowCount() == 3)


def test_no_row_is_wider_than_a_small_window_with_large_text(own, opened):
    frame = opened()
    frame.desk.kept["text_size"] = "200"
    frame.dress_anew()
    frame.resize(1024, 700)
    page = frame.pages["night"]
    assert page.sheet.minimumSizeHint().width() <= page.viewport().width()
