"""What is typed anywhere is on disk within a second, offered again after the window was killed, and gone once kept."""

from datetime import date

import pytest
from photographs import taken
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from keeper.actions import drafts, people, writing
from keeper.actions.months import shown as months
from keeper.actions.photos import kept as photos
from keeper.actions.years import sitting
from keeper.store import month_pages, nights
from keeper.store.photos import known as stored_photos
from keeper.window.parts.typing.field import DRAFT_AFTER
from keeper.window.places.mending import RenameDialog
from keeper.window.themes.dialogs import NameDialog
from keeper.window.year.sitting.offer import SIT

MONTH = date(2026, 11, 1)
RETURN, ESCAPE = Qt.Key.Key_Return, Qt.Key.Key_Escape


@pytest.fixture
def waits(qtbot, store):
    """Waits until what is typed is on disk as a draft."""
    # Well within a second; a busy machine may take longer to come round to it.
    assert DRAFT_AFTER < 800
    return lambda what, ref, text: qtbot.waitUntil(lambda: drafts.waiting(store, what, ref) == text)


@pytest.fixture
def left(store, clock):
    """Leaves a draft behind, as a window that was killed does."""
    return lambda what, ref, text: drafts.put_by(store, what, ref, text, clock)


# the month's question


def test_a_question_being_typed_waits_and_goes_when_it_is_kept(qtbot, page, store, waits):
    page.question.begin()
    qtbot.keyClicks(page.question.edit, "What did I he")
    waits("question", "2026-11", "What did I he")
    assert month_pages.one(store, MONTH).question == ""
    qtbot.keyClicks(page.question.edit, "ar?")
    qtbot.keyClick(page.question.edit, RETURN)
    qtbot.waitUntil(lambda: month_pages.one(store, MONTH).question == "What did I hear?")
    assert drafts.waiting(store, "question", "2026-11") is None


def test_a_question_left_behind_is_offered_again_and_only_enter_asks_it(qtbot, opened, store, left, tonight):
    left("question", "2026-11", "What did I he")
    frame = opened()
    question = frame.pages["night"].question
    assert question.edit.isVisible() and question.edit.text() == "What did I he"
    assert question.state.isVisible() and question.state.text() == "not kept yet"
    frame.go("looking back")
    frame.go("night")
    frame.desk.writer.finish()
    assert month_pages.one(store, MONTH).question == "" and question.edit.text() == "What did I he"
    question.edit.setFocus()
    qtbot.keyClick(question.edit, RETURN)
    qtbot.waitUntil(lambda: month_pages.one(store, MONTH).question == "What did I he")
    assert drafts.waiting(store, "question", "2026-11") is None


def test_a_question_given_up_is_offered_no_more(qtbot, opened, store, clock, left, tonight):
    writing.ask_question(store, tonight, "The one asked?")
    left("question", "2026-11", "Another")
    question = opened().pages["night"].question
    question.edit.setFocus()
    qtbot.keyClick(question.edit, ESCAPE)
    assert question.shown.isVisible() and question.shown.text() == "The one asked?"
    qtbot.waitUntil(lambda: drafts.waiting(store, "question", "2026-11") is None)
    assert month_pages.one(store, MONTH).question == "The one asked?"


def test_a_question_of_one_month_does_not_show_in_another(qtbot, frame, page, store, waits):
    page.question.begin()
    qtbot.keyClicks(page.question.edit, "November's")
    frame.go("night", date(2026, 10, 20))
    assert page.question.edit.isHidden()
    qtbot.waitUntil(lambda: month_pages.one(store, MONTH).question == "November's")
    assert month_pages.one(store, date(2026, 10, 1)).question == ""


def test_a_question_typed_in_the_turn_of_a_month_waits(qtbot, frame, store, waits):
    frame.go("month", MONTH)
    frame.pages["month"].turn(date(2026, 10, 1))
    turn = frame.pages["month"].others["turn"]
    turn.show_step("question")
    qtbot.waitUntil(lambda: turn.shelf.own.isVisible() and turn.shelf.list.count() > 0)
    qtbot.keyClicks(turn.shelf.own, "What now")
    waits("question", "2026-11", "What now")


# the place


def test_a_place_being_typed_waits_and_goes_when_it_is_taken(qtbot, page, store, waits, tonight):
    page.place.setFocus()
    qtbot.keyClicks(page.place, "The night fer")
    waits("place", str(tonight), "The night fer")
    assert nights.one(store, tonight).place is None
    qtbot.keyClick(page.place, RETURN)
    qtbot.waitUntil(lambda: nights.one(store, tonight).place is not None)
    assert drafts.waiting(store, "place", str(tonight)) is None
    qtbot.waitUntil(lambda: page.place_said.text() == "")


def test_a_place_left_behind_is_offered_again_and_only_enter_takes_it(qtbot, opened, store, clock, left, tonight):
    writing.set_place(store, tonight, "Riga", clock)
    left("place", str(tonight), "Sabile")
    frame = opened()
    page = frame.pages["night"]
    assert (page.place.text(), page.place_said.text()) == ("Sabile", "not kept yet")
    page.place.setFocus()
    page.fields["gratitude"].setFocus()
    page.keep()
    frame.desk.writer.finish()
    assert nights.one(store, tonight).place.name == "Riga" and page.place.text() == "Sabile"
    page.place.setFocus()
    qtbot.keyClick(page.place, RETURN)
    qtbot.waitUntil(lambda: nights.one(store, tonight).place.name == "Sabile")
    qtbot.waitUntil(lambda: page.place_said.text() == "")
    assert drafts.waiting(store, "place", str(tonight)) is None


def test_a_place_given_up_is_offered_no_more(qtbot, opened, store, clock, left, tonight):
    writing.set_place(store, tonight, "Riga", clock)
    left("place", str(tonight), "Sabile")
    page = opened().pages["night"]
    page.place.setFocus()
    qtbot.keyClick(page.place, ESCAPE)
    assert page.place.text() == "Riga"
    qtbot.waitUntil(lambda: drafts.waiting(store, "place", str(tonight)) is None)


# goals


def test_a_new_goal_waits_and_goes_when_it_is_added(qtbot, frame, store, waits):
    frame.go("month", MONTH)
    more = frame.pages["month"].sheet.goals.more
    qtbot.waitUntil(more.isVisible)
    more.setFocus()
    qtbot.keyClicks(more, "Swim on")
    waits("new goal", "2026-11", "Swim on")
    qtbot.keyClicks(more, "ce")
    qtbot.keyClick(more, RETURN)
    qtbot.waitUntil(lambda: [goal.text for goal in month_pages.one(store, MONTH).goals] == ["Swim once"])
    assert more.text() == ""
    qtbot.waitUntil(lambda: drafts.waiting(store, "new goal", "2026-11") is None)


def test_a_goal_left_behind_is_offered_again_in_its_month(qtbot, frame, store, left):
    left("new goal", "2026-11", "Swim on")
    frame.go("month", MONTH)
    sheet = frame.pages["month"].sheet
    qtbot.waitUntil(lambda: sheet.goals.more.text() == "Swim on")
    frame.go("month", date(2026, 10, 3))
    qtbot.waitUntil(lambda: sheet.goals.month == date(2026, 10, 1))
    assert sheet.goals.more.text() == ""
    frame.go("month", MONTH)
    qtbot.waitUntil(lambda: sheet.goals.more.text() == "Swim on")


def test_a_goals_words_and_the_word_about_it_wait(qtbot, frame, store, waits):
    months.add_goal(store, MONTH, "Swim")
    goal = month_pages.one(store, MONTH).goals[0]
    months.close_goal(store, MONTH, goal.id, "done", "")
    frame.go("month", MONTH)
    box = frame.pages["month"].sheet.goals
    qtbot.waitUntil(lambda: len(box.rows) == 1 and box.isVisible())
    box.rows[0].text.setFocus()
    qtbot.keyClick(box.rows[0].text, Qt.Key.Key_End)
    qtbot.keyClicks(box.rows[0].text, " in the sea")
    waits("goal", goal.id, "Swim in the sea")
    box.rows[0].word.setFocus()
    qtbot.keyClicks(box.rows[0].word, "cold")
    waits("goal's word", goal.id, "cold")
    qtbot.waitUntil(lambda: month_pages.one(store, MONTH).goals[0].text == "Swim in the sea")
    assert drafts.waiting(store, "goal", goal.id) is None
    box.rows[0].word.clearFocus()
    qtbot.waitUntil(lambda: month_pages.one(store, MONTH).goals[0].word == "cold")


def test_a_goal_being_reworded_goes_on_where_it_was_when_the_list_is_made_anew(qtbot, frame, store):
    months.add_goal(store, MONTH, "Swim")
    frame.go("month", MONTH)
    box = frame.pages["month"].sheet.goals
    qtbot.waitUntil(lambda: len(box.rows) == 1 and box.isVisible())
    box.rows[0].text.setFocus()
    qtbot.keyClick(box.rows[0].text, Qt.Key.Key_End)
    qtbot.keyClicks(box.rows[0].text, " in")
    months.add_goal(store, MONTH, "Another")
    frame.desk.changed.emit()
    qtbot.waitUntil(lambda: len(box.rows) == 2 and box.rows[0].text.hasFocus())
    qtbot.keyClicks(box.rows[0].text, " the sea")
    assert box.rows[0].text.text() == "Swim in the sea"


# what is kept in each pause, and a draft only where that fails


def test_a_caption_is_on_disk_within_a_second(qtbot, frame, page, store, clock, tonight, tmp_path):
    photo = photos.take_in(store, taken(tmp_path / "a.jpg"), clock, tonight).photo
    frame.desk.changed.emit()
    qtbot.waitUntil(lambda: len(page.photos.row.cells) == 1)
    caption = page.photos.row.cells[0].caption
    caption.setFocus()
    qtbot.keyClicks(caption, "The qu")
    qtbot.waitUntil(lambda: stored_photos.by_id(store, photo.id).caption == "The qu")


def test_words_of_a_month_too_long_to_keep_wait_as_a_draft(qtbot, frame, store, waits):
    frame.go("month", MONTH)
    box = frame.pages["month"].sheet.words
    qtbot.waitUntil(box.field.isVisible)
    box.field.put("word " * 5_000)
    box.field.setFocus()
    qtbot.keyClicks(box.field, "end")
    waits("month's words", "2026-11", "word " * 5_000 + "end")
    assert "characters long" in frame.said.text()
    box.field.put("short")
    box.keep()
    qtbot.waitUntil(lambda: month_pages.one(store, MONTH).words == "short")
    assert drafts.waiting(store, "month's words", "2026-11") is None


def test_an_answer_to_a_year_too_long_to_keep_waits_as_a_draft(qtbot, frame, store, clock, waits):
    writing.write_line(store, date(2026, 3, 1), "memory", "A line.", clock)
    sitting.begin(store, 2026)
    sitting.go_to(store, 2026, sitting.CLOSING)
    frame.desk.go("year", frame.desk.tonight(), SIT)
    closing = frame.pages["year"].sitting.closing
    qtbot.waitUntil(closing.isVisible)
    question, field = next(iter(closing.fields.items()))
    field.setFocus()
    field.put("word " * 5_000)
    qtbot.keyClicks(field, "end")
    waits("answer", f"2026 {question}", "word " * 5_000 + "end")


# names, and closing


def test_a_name_being_added_waits(qtbot, frame, store, waits):
    frame.go("people")
    box = frame.pages["people"].overview
    box.more.setFocus()
    qtbot.keyClicks(box.more, "Ilz")
    waits("new name", "", "Ilz")
    qtbot.keyClick(box.more, RETURN)
    qtbot.waitUntil(lambda: len(people.every(store)) == 1)
    assert drafts.waiting(store, "new name", "") is None


def test_a_places_new_name_waits_in_its_dialog(qtbot, frame, page, store, clock, tonight, waits):
    place = writing.set_place(store, tonight, "Riga", clock)
    dialog = RenameDialog(frame.desk, place, page)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.keyClicks(dialog.typed, "Ri")
    waits("place's name", place.id, "Ri")
    again = RenameDialog(frame.desk, place, page)
    qtbot.addWidget(again)
    again.show()
    assert again.typed.text() == "Ri"
    qtbot.keyClicks(again.typed, "Old town")
    qtbot.keyClick(again.typed, RETURN)
    qtbot.waitUntil(lambda: nights.one(store, tonight).place.name == "Old town")
    qtbot.waitUntil(lambda: drafts.waiting(store, "place's name", place.id) is None)
    assert frame.desk.words.at_risk() == {}


def test_a_themes_name_given_up_is_forgotten(qtbot, frame, page, store, waits):
    dialog = NameDialog(frame.desk, "Ferries", page)
    qtbot.addWidget(dialog)
    dialog.show()
    assert dialog.typed.text() == "Ferries" and dialog.typed.hasSelectedText()
    qtbot.keyClicks(dialog.typed, "Boats")
    waits("theme's name", "Ferries", "Boats")
    dialog.reject()
    qtbot.waitUntil(lambda: drafts.waiting(store, "theme's name", "Ferries") is None)
    assert frame.desk.words.at_risk() == {}


def test_closing_at_once_puts_by_what_is_half_typed(qtbot, frame, store):
    frame.go("month", MONTH)
    more = frame.pages["month"].sheet.goals.more
    qtbot.waitUntil(more.isVisible)
    frame.go("people")
    name = frame.pages["people"].overview.more
    name.setFocus()
    qtbot.keyClicks(name, "Ilz")
    assert frame.close()
    assert drafts.waiting(store, "new name", "") == "Ilz"


def test_on_a_full_disk_half_typed_words_are_rescued(qtbot, frame, page, store, tonight):
    page.question.begin()
    frame.desk.write(lambda writer: writer.row("PRAGMA query_only = ON"))
    qtbot.keyClicks(page.question.edit, "What did I hear")
    frame.close()
    assert frame.isVisible() and "A copy of the words is in" in frame.said.text()
    rescued = frame.desk.folder.parent / f"keeper-unkept-{tonight}.txt"
    assert "question 2026-11: What did I hear" in rescued.read_text(encoding="utf-8")
    frame.desk.write(lambda writer: writer.row("PRAGMA query_only = OFF"))
    qtbot.waitUntil(frame.close)


def test_a_focus_that_comes_and_goes_writes_nothing(qtbot, frame, page, store):
    assert month_pages.questions(store) == ()
    page.question.begin()
    page.place.setFocus()
    QApplication.processEvents()
    frame.desk.writer.finish()
    assert month_pages.questions(store) == () and page.question.edit.isHidden()
