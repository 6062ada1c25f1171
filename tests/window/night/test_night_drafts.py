"""A draft left behind on the page of a night, also beside a kept line; and others who write the same night."""

from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from keeper.actions import reading, writing
from keeper.store import lines

BOTH = "alpha beta gamma"


def everything(store, night, kind="gratitude"):
    """All words on disk of a night's line: kept, waiting, and earlier."""
    line = lines.one(store, night, kind)
    texts = [line.text] if line else []
    texts += [draft.text for draft in lines.drafts(store, night) if draft.kind == kind]
    texts += [wording.text for wording in lines.wordings(store, night, kind)]
    return {word for text in texts for word in text.split()}


@pytest.fixture
def left_behind(store, clock, tonight):
    """A kept line, and what was typed on after it when the power went."""
    writing.write_line(store, tonight, "gratitude", "alpha", clock)
    writing.keep_draft(store, tonight, "gratitude", BOTH, clock)


@pytest.mark.usefixtures("left_behind")
def test_a_draft_beside_a_kept_line_is_shown_and_said_to_be_not_kept(qtbot, opened, store, tonight):
    page = opened().pages["night"]
    field = page.fields["gratitude"]
    assert field.toPlainText() == BOTH
    assert page.blocks["gratitude"].state.text() == "not kept yet"
    qtbot.keyClicks(field, " delta")
    qtbot.waitUntil(lambda: everything(store, tonight) == {"alpha", "beta", "gamma", "delta"})
    qtbot.keyClick(field, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: lines.one(store, tonight, "gratitude").text == BOTH + " delta")
    assert [wording.text for wording in lines.wordings(store, tonight, "gratitude")] == ["alpha"]
    qtbot.waitUntil(lambda: page.blocks["gratitude"].state.text() == "kept")
    assert page.blocks["gratitude"].buttons.button("kept").isHidden()


@pytest.mark.usefixtures("left_behind")
def test_a_draft_on_a_night_seen_later_is_shown_too(opened, tonight):
    frame = opened(night=date(2026, 11, 2))
    frame.go("night", tonight)
    assert frame.pages["night"].fields["gratitude"].toPlainText() == BOTH


@pytest.mark.usefixtures("left_behind")
def test_the_kept_wording_can_be_had_back_by_keyboard_and_the_draft_is_not_lost(qtbot, opened, store, tonight):
    page = opened().pages["night"]
    button = page.blocks["gratitude"].buttons.button("kept")
    assert button.isVisible() and button.accessibleName() == "Show the kept wording of the gratitude"
    page.place.setFocus()
    for _ in range(20):
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
        if QApplication.focusWidget() is button:
            break
    qtbot.keyClick(button, Qt.Key.Key_Space)
    assert page.fields["gratitude"].toPlainText() == "alpha"
    qtbot.waitUntil(lambda: lines.drafts(store, tonight) == ())
    qtbot.waitUntil(lambda: not button.isVisible())
    assert page.blocks["gratitude"].state.text() == "kept"
    assert lines.one(store, tonight, "gratitude").text == "alpha"
    assert BOTH in [wording.text for wording in lines.wordings(store, tonight, "gratitude")]


@pytest.mark.usefixtures("left_behind")
def test_a_draft_that_nobody_touched_waits_beside_the_kept_line_and_enter_keeps_it(qtbot, opened, store, tonight):
    frame = opened()
    assert frame.close()
    assert lines.one(store, tonight, "gratitude").text == "alpha"
    assert [draft.text for draft in lines.drafts(store, tonight)] == [BOTH]
    page = opened().pages["night"]
    qtbot.keyClick(page.fields["gratitude"], Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: lines.one(store, tonight, "gratitude").text == BOTH)


def test_a_draft_too_long_to_keep_stays_where_the_kept_wording_is_asked_for(qtbot, opened, store, clock, tonight):
    draft = "word " * 5_000
    writing.write_line(store, tonight, "gratitude", "alpha", clock)
    writing.keep_draft(store, tonight, "gratitude", draft, clock)
    frame = opened()
    page = frame.pages["night"]
    page.blocks["gratitude"].buttons.button("kept").click()
    qtbot.waitUntil(lambda: "characters long" in frame.said.text())
    assert page.fields["gratitude"].toPlainText() == draft
    page.keep()
    frame.desk.writer.finish()
    assert lines.drafts(store, tonight)[0].text.strip() == draft.strip()


def test_another_line_does_not_take_what_is_being_typed_off_the_disk(qtbot, frame, page, store, write, tonight):
    qtbot.keyClicks(page.fields["gratitude"], "mine alone")
    qtbot.waitUntil(lambda: everything(store, tonight) == {"mine", "alone"})
    write(tonight, "gratitude", "theirs")
    assert everything(store, tonight) == {"mine", "alone", "theirs"}
    frame._look_round()
    qtbot.waitUntil(lambda: bool(lines.drafts(store, tonight)))
    assert page.fields["gratitude"].toPlainText() == "mine alone"
    page.commit("gratitude")
    qtbot.waitUntil(lambda: lines.one(store, tonight, "gratitude").text == "mine alone")
    assert everything(store, tonight) == {"mine", "alone", "theirs"}


def test_another_windows_draft_is_not_overwritten(qtbot, page, store, clock, tonight):
    qtbot.keyClicks(page.fields["gratitude"], "mine")
    qtbot.waitUntil(lambda: everything(store, tonight) == {"mine"})
    writing.keep_draft(store, tonight, "gratitude", "theirs", clock)
    qtbot.keyClicks(page.fields["gratitude"], " on")
    qtbot.waitUntil(lambda: "on" in everything(store, tonight))
    assert everything(store, tonight) == {"mine", "theirs", "on"}


def test_words_typed_on_from_a_draft_make_no_earlier_wordings(qtbot, page, store, tonight):
    for words in ("one", " two", " three"):
        qtbot.keyClicks(page.fields["gratitude"], words)
        qtbot.waitUntil(lambda words=words: words.strip() in everything(store, tonight))
    qtbot.keyClick(page.fields["gratitude"], Qt.Key.Key_Backspace)
    qtbot.keyClicks(page.fields["gratitude"], "E end")
    qtbot.waitUntil(lambda: "end" in everything(store, tonight))
    page.commit("gratitude")
    qtbot.waitUntil(lambda: lines.one(store, tonight, "gratitude") is not None)
    assert lines.wordings(store, tonight, "gratitude") == () and lines.drafts(store, tonight) == ()


def test_words_typed_while_the_line_before_them_is_written_stay_unkept(qtbot, frame, page, store, tonight):
    field = page.fields["gratitude"]
    qtbot.keyClicks(field, "first")
    page.commit("gratitude")
    qtbot.keyClicks(field, " then more")
    frame.desk.writer.finish()
    assert page.unkept() == {(tonight, "gratitude"): "first then more"}
    QApplication.processEvents()
    assert page.unkept() == {(tonight, "gratitude"): "first then more"}
    qtbot.waitUntil(lambda: "more" in everything(store, tonight))


def test_a_disk_that_fails_for_a_while_loses_nothing(qtbot, frame, page, store, tonight):
    pages = store.row("PRAGMA page_count")[0]
    frame.desk.write(lambda writer: writer.row(f"PRAGMA max_page_count = {pages}"))
    text = "x" * 19_000
    page.fields["memory"].put(text)
    page.commit("memory")
    qtbot.waitUntil(lambda: page.blocks["memory"].state.text() == "not kept yet")
    frame.desk.write(lambda writer: writer.row("PRAGMA max_page_count = 1000000"))
    qtbot.keyClicks(page.fields["memory"], "y")
    qtbot.waitUntil(lambda: [draft.text for draft in lines.drafts(store, tonight)] == [text + "y"])
    page.commit("memory")
    qtbot.waitUntil(lambda: page.blocks["memory"].state.text() == "kept")


def test_a_night_that_cannot_be_read_leaves_the_words_on_theirs(qtbot, frame, page, store, tonight, monkeypatch):
    from keeper.errors import NotAKeeper

    def damaged(*_):
        raise NotAKeeper("That night cannot be read.")

    monkeypatch.setattr(reading, "night_page", damaged)
    frame.go("night", date(2026, 11, 2))
    qtbot.keyClicks(page.fields["gratitude"], "of tonight")
    page.commit("gratitude")
    qtbot.waitUntil(lambda: lines.one(store, tonight, "gratitude") is not None)
    assert lines.one(store, date(2026, 11, 2), "gratitude") is None


def test_blanks_that_do_not_break_are_no_other_wording(qtbot, frame, page, store, write, tonight):
    write(tonight, "gratitude", "Quelle soir\u00e9e\u00a0!")
    frame.desk.changed.emit()
    assert page.blocks["gratitude"].state.text() == "kept"
    page.keep()
    frame.desk.writer.finish()
    assert lines.one(store, tonight, "gratitude").text == "Quelle soir\u00e9e\u00a0!"
    assert lines.wordings(store, tonight, "gratitude") == ()


@pytest.mark.usefixtures("left_behind")
def test_a_draft_that_waits_is_not_lost_to_an_earlier_wording_brought_back(qtbot, opened, store, clock, tonight, monkeypatch):
    from keeper.window.night import earlier_wordings as wordings

    writing.write_line(store, tonight, "gratitude", "once", clock, known=BOTH)
    writing.keep_draft(store, tonight, "gratitude", "once and more", clock)
    page = opened().pages["night"]

    def bring_back(dialog):
        dialog._bring_back()
        return True

    monkeypatch.setattr(wordings.WordingsDialog, "exec", bring_back)
    page.blocks["gratitude"].buttons.button("earlier").click()
    page.desk.writer.finish()
    assert page.fields["gratitude"].toPlainText() == "alpha"
    assert {"once", "and", "more", "alpha"} <= everything(store, tonight)
