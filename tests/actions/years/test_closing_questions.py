"""The closing questions of a year can be the person's own; page and book follow."""

from datetime import date

import pytest

from keeper.actions import writing
from keeper.actions.paper import contents as book_contents
from keeper.actions.years import shown as years
from keeper.actions.years import sitting as year_sitting
from keeper.errors import UnknownThing, UnreadableText
from keeper.review.book import BookParts

OURS = year_sitting.closing_questions()


@pytest.fixture
def year(store, clock):
    writing.write_line(store, date(2026, 5, 1), "memory", "The tide was out.", clock)
    year_sitting.answer(store, 2026, OURS[0], "The bridge.")
    year_sitting.answer(store, 2026, OURS[1], "The ferry.")
    return store


def asked(store, year: int = 2026) -> list[str]:
    return [one.question for one in year_sitting.closing(store, year).answers]


def told(store) -> list[tuple[str, str]]:
    """What page and book tell, which must be the same."""
    page = [(one.question, one.answer) for one in years.year_page(store, 2026).answers]
    book = [(one.question, one.answer) for one in book_contents.book_of(store, 2026, BookParts()).closing]
    assert page == book
    return page


def test_unless_changed_they_are_the_program_s(year):
    assert asked(year) == list(OURS) and not year_sitting.closing(year, 2026).own
    assert told(year) == [(OURS[0], "The bridge."), (OURS[1], "The ferry.")]


def test_one_more_is_asked_in_that_year_alone(year):
    year_sitting.ask_more(year, 2026, "  What did\nthe sea say? ")
    assert asked(year) == [*OURS, "What did the sea say?"] and asked(year, 2025) == list(OURS)
    year_sitting.answer(year, 2026, "What did the sea say?", "Nothing.")
    assert told(year)[-1] == ("What did the sea say?", "Nothing.") and year_sitting.closing(year, 2026).own


def test_in_other_words_a_question_keeps_its_place_and_its_answer(year):
    year_sitting.reword_question(year, 2026, OURS[0], "What held?")
    assert asked(year) == ["What held?", *OURS[1:]]
    assert told(year) == [("What held?", "The bridge."), (OURS[1], "The ferry.")]


def test_left_out_it_is_not_told_but_its_answer_is_kept(year):
    year_sitting.leave_question_out(year, 2026, OURS[0])
    assert asked(year) == list(OURS[1:]) and told(year) == [(OURS[1], "The ferry.")]
    year_sitting.ask_more(year, 2026, OURS[0])
    assert asked(year) == [*OURS[1:], OURS[0]] and told(year) == [(OURS[1], "The ferry."), (OURS[0], "The bridge.")]


def test_all_may_be_left_out_and_the_usual_ones_come_back(year):
    for question in OURS:
        year_sitting.leave_question_out(year, 2026, question)
    assert asked(year) == [] and told(year) == []
    year_sitting.ask_as_before(year, 2026)
    assert asked(year) == list(OURS) and len(told(year)) == 2


def test_questions_that_cannot_be_are_told_and_change_nothing(year):
    year_sitting.leave_question_out(year, 2026, OURS[0])
    before = asked(year), told(year)
    for act, error in (
        (lambda: year_sitting.ask_more(year, 2026, " "), UnreadableText),
        (lambda: year_sitting.ask_more(year, 2026, "a\x00b"), UnreadableText),
        (lambda: year_sitting.ask_more(year, 2026, OURS[2]), UnreadableText),
        (lambda: year_sitting.reword_question(year, 2026, OURS[1], OURS[2]), UnreadableText),
        # It has an answer of its own from before, which must not give way.
        (lambda: year_sitting.reword_question(year, 2026, OURS[1], OURS[0]), UnreadableText),
        (lambda: year_sitting.reword_question(year, 2026, "What?", "Why?"), UnknownThing),
        (lambda: year_sitting.leave_question_out(year, 2026, OURS[0]), UnknownThing),
    ):
        with pytest.raises(error):
            act()
    assert (asked(year), told(year)) == before
