"""The sitting with a year: twelve months and a few questions, each step kept at once."""

import tomllib
from datetime import date
from functools import cache

from keeper.actions.writing import check_text
from keeper.actions.year_material import YearMaterial
from keeper.days import last_of_month
from keeper.errors import UnknownThing
from keeper.model import YearAnswer, YearChoice
from keeper.review import year_choices as choosing
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
    with store.writing():
        year_pages.begin(store, year)
        at = year_pages.one(store, year).at
    return next((step for step in YearMaterial(store, year).steps() if step >= at), CLOSING)


def month_step(store: Store, year: int, month: int) -> MonthStep:
    """A month as the sitting shows it."""
    of = YearMaterial(store, year)
    first = date(year, month, 1)
    made = choosing.choices(of.decided, month, "photo")
    others = of.of_month(month)
    where = nights.ticks(store, first, last_of_month(first))
    return MonthStep(
        shown=of.month(month),
        photos=of.photos_of(month),
        others=others,
        place_names={tick.night: tick.place_name for tick in where},
        steps=of.steps(),
        photo_dropped=any(one.decision == "dropped" for one in made),
        question=month_pages.one(store, first).question,
    )


def keep_photo(store: Store, year: int, month: int, photo_id: str | None) -> None:
    """Let a photo stand for a month; None lets none. Raises UnknownThing."""
    with store.writing():
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
    with store.writing():
        of = YearMaterial(store, year)
        shown = of.month(month)
        if shown.photo and not choosing.choices(of.decided, month, "photo"):
            year_pages.choose(store, year, month, "photo", [YearChoice(month, "photo", shown.photo.id)])
        if shown.lines and not choosing.choices(of.decided, month, "line"):
            kept = [YearChoice(month, "line", line.id) for line in shown.lines]
            year_pages.choose(store, year, month, "line", kept)
        year_pages.settle(store, year, month)
        year_pages.reach(store, year, onward)


def go_to(store: Store, year: int, step: int) -> None:
    """Turn to another step without deciding on the one shown."""
    year_pages.reach(store, year, step)


# the closing questions


@cache
def closing_questions() -> tuple[str, ...]:
    """Our own questions at a year's end."""
    return tuple(tomllib.loads(resource("questions/closing.toml").read_text("utf-8"))["questions"])


def closing(store: Store, year: int) -> Closing:
    """The closing questions, each with its answer; those answered before and no longer asked come last."""
    of = YearMaterial(store, year)
    told = {one.question: one.answer for one in of.decided.answers}
    asked = dict.fromkeys([*closing_questions(), *told])
    answers = tuple(YearAnswer(question, told.get(question, "")) for question in asked)
    return Closing(year, answers, of.steps(), of.decided.state)


def answer(store: Store, year: int, question: str, words: str) -> None:
    """Keep the answer to a closing question; "" takes it out. Raises UnreadableText."""
    check_text(words)
    if not question.strip():
        raise UnknownThing("There is no such question.")
    year_pages.answer(store, year, question, words.strip())


def close_year(store: Store, year: int) -> None:
    """Say that the sitting is done; it can be taken up again."""
    year_pages.close(store, year)
