"""In the two sittings typing is never lost, and never presses a button."""

from dataclasses import replace
from datetime import date, datetime
from zoneinfo import ZoneInfo

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QPushButton

from keeper.actions import people
from keeper.actions.months import shown as months
from keeper.actions.years import sitting as year_sitting
from keeper.actions.years.sitting import CLOSING
from keeper.clock import StoppedClock
from keeper.store import month_pages, year_pages
from keeper.window.month.turning.sitting import STEPS
from keeper.window.year.sitting.offer import SIT

OCTOBER, NOVEMBER = date(2026, 10, 1), date(2026, 11, 1)
WORDS = "a rope  of words"


@pytest.fixture
def october(write):
    for day in (3, 9, 20):
        write(date(2026, 10, day), "memory", f"October {day}")
    for day in (4, 5):
        write(date(2026, 9, day), "memory", f"September {day}")


@pytest.fixture
def frame(opened):
    return opened(StoppedClock(datetime(2026, 11, 2, 22, 30, tzinfo=ZoneInfo("Europe/Riga")), "Europe/Riga"))


def focus():
    return QApplication.focusWidget()


def kept(frame, year: int = 2026) -> str:
    """All that the two sittings can keep."""
    assert frame.desk.writer.finish()
    store = frame.desk.store
    pages = [month_pages.one(store, date(year, month, 1)) for month in range(1, 13)]
    goals = [f"{goal.text}|{goal.word}" for page in pages for goal in page.goals]
    answers = [one.answer for one in year_pages.one(store, year).answers]
    return "|".join([*(page.words for page in pages), *(page.question for page in pages), *goals, *answers])


def press_by_tab(qtbot, button):
    """Reach a button by Tab alone, and press it by Enter."""
    for _ in range(400):
        if button.hasFocus():
            break
        qtbot.keyClick(focus(), Qt.Key.Key_Tab, Qt.KeyboardModifier.NoModifier)
    assert button.hasFocus()
    qtbot.keyClick(button, Qt.Key.Key_Return)


def settled(qtbot, sitting):
    qtbot.waitUntil(lambda: sitting._waiting is None and sitting.isVisible())


@pytest.mark.parametrize("goals", [0, 2], ids=["no goals", "goals"])
def test_words_typed_at_each_step_of_the_month_are_kept(qtbot, frame, october, store, goals):
    for n in range(goals):
        months.add_goal(store, OCTOBER, f"Goal {n}")
    frame.go("month", OCTOBER)
    frame.pages["month"].turn(OCTOBER)
    sitting = frame.pages["month"].others["turn"]
    for step in STEPS:
        settled(qtbot, sitting)
        assert sitting.step == step and not isinstance(focus(), QPushButton)
        qtbot.keyClicks(focus(), f"{step} {WORDS} end")
        assert sitting.step == step
        press_by_tab(qtbot, sitting.onward)
        told = kept(frame)
        assert f"{step} {WORDS} end" in told or f"{step} {' '.join(WORDS.split())} end" in told


def test_words_typed_at_each_step_of_the_year_are_kept(qtbot, frame, october, store):
    frame.desk.go("year", frame.desk.tonight(), SIT)
    sitting = frame.pages["year"].sitting
    for step in (9, 10, CLOSING):
        settled(qtbot, sitting)
        assert sitting.step == step and not isinstance(focus(), QPushButton)
        qtbot.keyClicks(focus(), f"{step} {WORDS} end")
        assert sitting.step == step and year_pages.one(store, 2026).state == "begun"
        press_by_tab(qtbot, sitting.onward)
        assert f"{step} {WORDS} end" in kept(frame)
    assert year_pages.one(store, 2026).state == "closed"


def test_what_is_typed_before_a_step_is_there_is_typed_into_it(qtbot, frame, october):
    frame.desk.go("year", frame.desk.tonight(), SIT)
    sitting = frame.pages["year"].sitting
    assert sitting._waiting == "" and not sitting.onward.isEnabled()
    qtbot.keyClicks(focus(), "early and ")
    settled(qtbot, sitting)
    qtbot.keyClicks(focus(), "late")
    sitting.go_back()
    assert "early and late" in kept(frame)


def test_a_month_can_be_passed_only_when_its_lines_are_shown(qtbot, frame, october):
    frame.desk.go("year", frame.desk.tonight(), SIT)
    sitting = frame.pages["year"].sitting
    settled(qtbot, sitting)
    shown = sitting.month.rows.lines
    qtbot.mouseClick(sitting.onward, Qt.MouseButton.LeftButton)
    assert sitting.step == 10 and not sitting.onward.isEnabled()
    # Pressed again before October is there: nothing of it is decided unseen.
    qtbot.mouseClick(sitting.onward, Qt.MouseButton.LeftButton)
    assert sitting.step == 10
    settled(qtbot, sitting)
    assert sitting.onward.isEnabled() and sitting.month.rows.lines != shown
    assert kept(frame) is not None and year_pages.one(frame.desk.store, 2026).settled == {9}


def test_one_reads_first_and_sees_what_one_types(qtbot, frame, october):
    frame.resize(900, 600)
    frame.go("month", OCTOBER)
    frame.pages["month"].turn(OCTOBER)
    sitting = frame.pages["month"].others["turn"]
    settled(qtbot, sitting)
    qtbot.waitUntil(lambda: sitting.verticalScrollBar().maximum() > 0)
    field = sitting.words.field
    assert field.hasFocus() and sitting.verticalScrollBar().value() == 0
    qtbot.keyClicks(field, "w")
    assert not field.visibleRegion().isEmpty()


def test_letters_typed_at_anything_else_go_to_the_field(qtbot, frame, october, store):
    months.add_goal(store, OCTOBER, "Swim")
    frame.go("month", OCTOBER)
    frame.pages["month"].turn(OCTOBER)
    sitting = frame.pages["month"].others["turn"]
    settled(qtbot, sitting)
    for part, step in ((lambda: sitting.nights, "look back"), (lambda: sitting.onward, "look back"),
                       (lambda: sitting.chooser.other, "photo"), (lambda: sitting.goals.rows[0].outcome, "goals"),
                       (lambda: sitting.shelf.list, "question"), (lambda: sitting.away, "next goals")):  # fmt: skip
        sitting.show_step(step)
        settled(qtbot, sitting)
        qtbot.waitUntil(lambda part=part: part() is not None)
        part().setFocus()
        for letter in "done words":
            qtbot.keyClick(focus(), letter)
        field = sitting.field_of_step()
        assert field.hasFocus() and (field.text() if hasattr(field, "text") else field.toPlainText()).endswith("done words")
        sitting.keep()
    assert month_pages.one(store, OCTOBER).goals[0].outcome == "set"


def test_words_held_back_are_not_typed_over(qtbot, frame, october, store):
    months.write_words(store, OCTOBER, "With Oddny by the sea.")
    people.rest_by_name(store, "Oddny") if people.named(store, "Oddny") else people.rest(store, people.add(store, "Oddny").id)
    frame.desk.go("year", frame.desk.tonight(), SIT)
    sitting = frame.pages["year"].sitting
    settled(qtbot, sitting)
    sitting.turn_to(10)
    settled(qtbot, sitting)
    qtbot.keyClicks(focus(), "typed over")
    sitting.go_back()
    assert frame.desk.writer.finish()
    assert month_pages.one(store, OCTOBER).words == "With Oddny by the sea."


def test_a_goal_that_is_there_can_be_reached_at_once(qtbot, frame, october, store):
    goal = months.add_goal(store, OCTOBER, "Swim")
    frame.go("month", OCTOBER)
    sheet = frame.pages["month"].sheet
    qtbot.waitUntil(sheet.is_shown)
    sheet.goals.show_goals(OCTOBER, (goal, replace(goal, id="another", text="Sing")))
    sheet.goals.rows[1].text.setFocus()
    qtbot.keyClick(sheet.goals.rows[1].text, Qt.Key.Key_Tab)
    assert sheet.goals.rows[1].outcome.hasFocus()


# the closing questions


def closing(qtbot, frame):
    frame.desk.go("year", frame.desk.tonight(), SIT)
    sitting = frame.pages["year"].sitting
    settled(qtbot, sitting)
    sitting.turn_to(CLOSING)
    qtbot.waitUntil(sitting.closing.isVisible)
    settled(qtbot, sitting)
    return sitting


def test_a_question_is_reworded_with_its_answer_and_left_out_and_another_asked(qtbot, frame, october, store):
    sitting = closing(qtbot, frame)
    ours = year_sitting.closing_questions()
    step = sitting.closing
    qtbot.keyClicks(focus(), "The bridge.")
    head = step.heads[ours[0]]
    head.change.setFocus()
    qtbot.keyClick(head.change, Qt.Key.Key_Return)
    head.edit.selectAll()
    qtbot.keyClicks(focus(), "What held, all year?")
    qtbot.keyClick(head.edit, Qt.Key.Key_Return)
    # Typed on at once, in the answer's own field.
    qtbot.keyClicks(focus(), " And the ferry.")
    qtbot.waitUntil(lambda: "What held, all year?" in step.fields)
    qtbot.keyClick(step.heads[ours[1]].away, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: ours[1] not in step.fields)
    step.more.more.setFocus()
    qtbot.keyClicks(focus(), "What did the sea say?")
    qtbot.keyClick(step.more.more, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: list(step.fields)[-1] == "What did the sea say?")
    assert list(step.fields) == ["What held, all year?", *ours[2:], "What did the sea say?"]
    sitting.go_back()
    assert frame.desk.writer.finish()
    page = year_pages.one(store, 2026)
    assert [(one.question, one.answer) for one in page.answers] == [("What held, all year?", "The bridge. And the ferry.")]
    assert page.questions == ("What held, all year?", *ours[2:], "What did the sea say?")


def test_the_usual_questions_come_back_with_all_that_was_answered(qtbot, frame, october, store):
    ours = year_sitting.closing_questions()
    year_sitting.answer(store, 2026, ours[0], "The bridge.")
    year_sitting.leave_question_out(store, 2026, ours[0])
    sitting = closing(qtbot, frame)
    step = sitting.closing
    assert ours[0] not in step.fields and step.more.again.isVisible()
    step.more.again.click()
    qtbot.waitUntil(lambda: ours[0] in step.fields)
    assert step.fields[ours[0]].toPlainText() == "The bridge." and not step.more.again.isVisible()
