"""A year's nights as plain text: Markdown (CommonMark) in UTF-8, with front matter in plain words.

Every row of the person's words begins with "> ", no other row does, so that
whatever they wrote can be told from what stands round it.
"""

from collections.abc import Iterable, Iterator
from datetime import date

from keeper.dates.written import MONTHS, WEEKDAYS
from keeper.exchange.out.cells import Out
from keeper.exchange.out.given import GivenNight, in_a_row, value_text, where
from keeper.model.later import LaterWord
from keeper.model.months import MonthPage
from keeper.model.years import YearAnswer


class YearText:
    """A year under way: its answers, then month by month and night by night."""

    def __init__(self, out: Out, year: int, told: Iterable[tuple[str, str]]) -> None:
        """``told`` is the front matter: names and values in plain words, of one row each."""
        self._out = out
        self._rows(["---", f"year: {year:04d}", *(f"{name}: {value}" for name, value in told), "---", "", f"# {year}"])

    def _rows(self, rows: Iterable[str]) -> None:
        self._out.write("".join(f"{row}\n" for row in rows))

    def answer(self, one: YearAnswer) -> None:
        """A closing question and what was answered."""
        self._rows(["", "Asked at the year\u2019s end:", "", *_said(one.question), "", "Answered:", "", *_said(one.answer)])

    def month(self, page: MonthPage) -> None:
        """A month's heading, its question, words and goals."""
        self._rows(["", f"## {MONTHS[page.month.month - 1]} {page.month.year}", *_of_the_month(page)])

    def night(self, night: GivenNight) -> None:
        """A night: lines, readings, photos with their captions."""
        place = where(night.place)
        self._rows(["", f"### {spelt(night.date)}{f', {place}' if place else ''}", *_of_the_night(night)])


def _of_the_month(page: MonthPage) -> Iterator[str]:
    if page.question:
        yield from ("", "The question of the month:", "", *_said(page.question))
    if page.words:
        yield from ("", "Words of the month:", "", *_said(page.words))
    for goal in page.goals:
        word = ("", "Of it was said:", "", *_said(goal.word)) if goal.word else ()
        yield from ("", f"A goal of the month ({goal.outcome}):", "", *_said(goal.text), *word)


def _of_the_night(night: GivenNight) -> Iterator[str]:
    for line in night.lines:
        yield from ("", f"{in_a_row(line.kind_title)}:", "", *_said(line.text))
        for word in line.later:
            yield from ("", f"Of it was said later, on {spelt(word.said_on)}:", "", *_of_later(word))
    if night.readings:
        noted = "; ".join(f"{in_a_row(one.tracker.name)} {value_text(one)}" for one in night.readings)
        yield from ("", f"Noted: {noted}.")
    for given in night.photos:
        caption = ("", *_said(given.photo.caption)) if given.photo.caption else ()
        yield from ("", f"Photo: {given.file}", *caption)


def _of_later(word: LaterWord) -> Iterator[str]:
    if word.text:
        yield from _said(word.text)
    if word.looks is not None and word.of:
        yield from (*([""] if word.text else []), f"{in_a_row(word.of)}, as it looked then: {word.looks:g}.")


def _said(words: str) -> Iterator[str]:
    return (f"> {row}" for row in words.split("\n"))


def spelt(night: date) -> str:
    """Such as Saturday 14 November 2026: a stranger is to read it, so it follows nobody's system."""
    return f"{WEEKDAYS[night.weekday()]} {night.day} {MONTHS[night.month - 1]} {night.year}"
