"""The sitting with a year: twelve months and a few questions, each step kept at once."""

import tomllib
from collections.abc import Collection
from datetime import date
from functools import cache

from keeper.actions import told_as
from keeper.actions.writing import check_text
from keeper.actions.years.material import YearMaterial
from keeper.days import last_of_month
from keeper.errors import UnknownThing, UnreadableText
from keeper.model import YearAnswer, YearChoice, YearPage
from keeper.review import year_choices
from keeper.review.month import page_awake
from keeper.review.year import Closing, MonthStep
from keeper.shipped import resource
from keeper.store import Store, lines, month_pages, nights, year_pages
from keeper.store.year_pages import CLOSING

__all__ = ["CLOSING"]

OFFERED_FROM, OFFERED_UNTIL = (12, 15), (1, 31)
"""The days of the year, as (month, day), between which the sitting is offered of itself."""


def offered_year(tonight: date) -> int | None:
    """The year that may be sat down with, from mid December to the end of January."""
    day = (tonight.month, tonight.day)
    if day >= OFFERED_FROM:
        return tonight.year
    return tonight.year - 1 if day <= OFFERED_UNTIL else None


def year_to_offer(store: Store, tonight: date) -> tuple[int, str] | None:
    """The year to be offered tonight and the state of its sitting; None when there is none, or it is closed."""
    year = offered_year(tonight)
    ends = lines.span(store)
    if year is None or ends is None or not nights.with_lines(store, date(year, 1, 1), date(year, 12, 31)):
        return None
    state = year_pages.one(store, year).state
    return None if state == "closed" else (year, state)


def begin(store: Store, year: int) -> int:
    """Sit down with a year, or go on; returns the step to be shown, CLOSING for the questions.

    Months that hold nothing are passed over.
    """
    with store.writing(told_as.of_year("A sitting begun", year)):
        year_pages.begin(store, year)
        at = year_pages.one(store, year).at
    return next((step for step in YearMaterial(store, year).steps() if step >= at), CLOSING)


def month_step(store: Store, year: int, month: int) -> MonthStep:
    """A month as the sitting shows it."""
    of = YearMaterial(store, year)
    first = date(year, month, 1)
    made = year_choices.choices(of.decided, month, "photo")
    others = of.of_month(month)
    page, rests = page_awake(month_pages.one(store, first), of.rule)
    where = nights.ticks(store, first, last_of_month(first))
    return MonthStep(
        shown=of.month(month),
        photos=of.photos_of(month),
        others=others,
        place_names={
            tick.night: tick.place_name for tick in where if of.rule.night(tick.night) and of.rule.text(tick.place_name)
        },
        steps=of.steps(),
        photo_dropped=any(one.decision == "dropped" for one in made),
        question=page.question,
        words_rest="words" in rests,
    )


def keep_photo(store: Store, year: int, month: int, photo_id: str | None) -> None:
    """Let a photo stand for a month; None lets none. Raises UnknownThing."""
    with store.writing(told_as.of_year_month("The photo" if photo_id else "No photo", year, month)):
        if photo_id is not None and year_pages.photo_awake(store, photo_id) is None:
            raise UnknownThing("That photo is no longer in the keeper, or it rests.")
        of = YearMaterial(store, year)
        shown = of.month(month).photo
        if photo_id is None:
            made = [YearChoice(month, "photo", shown.id if shown else "", "dropped")]
        else:
            decision = "kept" if shown and shown.id == photo_id else "changed"
            made = [YearChoice(month, "photo", photo_id, decision)]
        year_pages.choose(store, year, month, "photo", made)


def settle_month(store: Store, year: int, month: int, onward: int) -> None:
    """Keep what a month shows, as it shows it, and go on to another step."""
    with store.writing(told_as.of_year_month("What is shown", year, month)):
        of = YearMaterial(store, year)
        shown = of.month(month)
        if shown.photo and not year_choices.choices(of.decided, month, "photo"):
            year_pages.choose(store, year, month, "photo", [YearChoice(month, "photo", shown.photo.id)])
        if shown.lines and not year_choices.choices(of.decided, month, "line"):
            kept = [YearChoice(month, "line", line.id) for line in shown.lines]
            year_pages.choose(store, year, month, "line", kept)
        year_pages.settle(store, year, month)
        year_pages.reach(store, year, onward)


def go_to(store: Store, year: int, step: int) -> None:
    """Turn to another step without deciding on the one shown."""
    with store.writing(told_as.of_year("A sitting begun", year)):
        year_pages.reach(store, year, step)


# the closing questions


@cache
def closing_questions() -> tuple[str, ...]:
    """Our own questions at a year's end."""
    return tuple(tomllib.loads(resource("questions/closing.toml").read_text("utf-8"))["questions"])


def closing(store: Store, year: int) -> Closing:
    """The closing questions of a year, each with its answer; the person's own where there are any.

    Of the program's, those answered before and no longer asked come last. What
    names who rests is told by number.
    """
    of = YearMaterial(store, year)
    told = {one.question: one.answer for one in of.decided.answers}
    every = [YearAnswer(question, told.get(question, "")) for question in _asked(of.decided)]
    shown = tuple(one for one in every if of.rule.text(one.question, one.answer))
    return Closing(
        year, shown, of.steps(), of.decided.state, len(every) - len(shown), of.decided.questions is not None
    )


def _asked(decided: YearPage) -> tuple[str, ...]:
    if decided.questions is not None:
        return decided.questions
    return tuple(dict.fromkeys([*closing_questions(), *(one.question for one in decided.answers)]))


def ask_more(store: Store, year: int, question: str) -> None:
    """Ask one closing question more. Raises UnreadableText for none, or one that is asked already."""
    with store.writing(told_as.of_year("One more closing question", year)):
        asked = _asked(year_pages.one(store, year))
        year_pages.ask(store, year, (*asked, _new_question(question, asked)))


def reword_question(store: Store, year: int, old: str, new: str) -> None:
    """Put a closing question in other words; its answer goes along. Raises UnknownThing; else as ``ask_more``."""
    with store.writing(told_as.of_year("Other words of a closing question", year)):
        asked = _known(store, year, old)
        others = [one for one in asked if one != old]
        told = {one.question for one in year_pages.one(store, year).answers}
        worded = _new_question(new, (*others, *(told - {old})))
        year_pages.reword(store, year, old, worded)
        year_pages.ask(store, year, [worded if one == old else one for one in asked])


def leave_question_out(store: Store, year: int, question: str) -> None:
    """Ask a closing question no more; an answer to it is kept, and is there when it is asked again.

    Raises UnknownThing.
    """
    with store.writing(told_as.of_year("A closing question left out", year)):
        year_pages.ask(store, year, [one for one in _known(store, year, question) if one != question])


def ask_as_before(store: Store, year: int) -> None:
    """Ask the program's closing questions again, and all that were answered."""
    with store.writing(told_as.of_year("The closing questions as before", year)):
        year_pages.ask(store, year, None)


def _known(store: Store, year: int, question: str) -> tuple[str, ...]:
    asked = _asked(year_pages.one(store, year))
    if question not in asked:
        raise UnknownThing("That question is no longer asked.")
    return asked


def _new_question(typed: str, others: Collection[str]) -> str:
    check_text(typed)
    question = " ".join(typed.split())
    if not question:
        raise UnreadableText("A question needs a few words.")
    if question in others:
        raise UnreadableText("That question is asked already, or has an answer from before.")
    return question


def answer(store: Store, year: int, question: str, words: str) -> None:
    """Keep the answer to a closing question; "" takes it out. Raises UnreadableText."""
    check_text(words)
    if not question.strip():
        raise UnknownThing("There is no such question.")
    what = "An answer" if words.strip() else "An answer taken out"
    with store.writing(told_as.of_year(what, year)):
        year_pages.answer(store, year, question, words.strip())


def close_year(store: Store, year: int) -> None:
    """Say that the sitting is done; it can be taken up again."""
    with store.writing(told_as.of_year("The sitting closed", year)):
        year_pages.close(store, year)
