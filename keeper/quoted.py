"""The person's words among other rows of plain text: every row of theirs begins with "> ", and no other row does.

Dates are spelt as nobody's system has them: a stranger is to read them.
"""

from collections.abc import Iterable, Iterator
from datetime import date

from keeper.dates.written import MONTHS, WEEKDAYS
from keeper.model import MonthPage
from keeper.model.later import LaterWord
from keeper.model.years import YearAnswer


def quoted(words: str) -> Iterable[str]:
    """Words of the person, row by row."""
    return (f"> {words}",) if "\n" not in words else (f"> {row}" for row in words.split("\n"))


def of_a_month(page: MonthPage) -> Iterator[str]:
    """A month's question, words and goals."""
    if page.question:
        yield from ("", "The question of the month:", "", *quoted(page.question))
    if page.words:
        yield from ("", "Words of the month:", "", *quoted(page.words))
    for goal in page.goals:
        word = ("", "Of it was said:", "", *quoted(goal.word)) if goal.word else ()
        yield from ("", f"A goal of the month ({goal.outcome}):", "", *quoted(goal.text), *word)


def of_a_later_word(word: LaterWord) -> Iterator[str]:
    """What was said of a line on a later night, and how a reading of its night looked by then."""
    looked = f"{' '.join(word.of.split())}, as it looked then: {word.looks:g}." if word.looks is not None and word.of else ""
    said = list(quoted(word.text)) if word.text else []
    between = [""] if said and looked else []
    yield from ("", f"Of it was said later, on {spelt(word.said_on)}:", "", *said, *between, *([looked] if looked else []))


def of_an_answer(one: YearAnswer) -> Iterator[str]:
    """A closing question of a year, and what was answered."""
    yield from ("", "Asked at the year\u2019s end:", "", *quoted(one.question), "", "Answered:", "", *quoted(one.answer))


def spelt(night: date) -> str:
    """Such as Saturday 14 November 2026."""
    return f"{WEEKDAYS[night.weekday()]} {night.day} {MONTHS[night.month - 1]} {night.year}"
