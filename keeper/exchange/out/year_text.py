"""A year's nights as plain text: Markdown (CommonMark) in UTF-8, with front matter in plain words.

Every row of the person's words begins with "> ", no other row does, so that
whatever they wrote can be told from what stands round it.
"""

from collections.abc import Iterable, Iterator

from keeper.dates.written import MONTHS
from keeper.exchange.out.cells import Out
from keeper.exchange.out.given import GivenNight, GivenReading, in_a_row, spelt_once, value_text, where
from keeper.model.months import MonthPage
from keeper.model.years import YearAnswer
from keeper.quoted import of_a_later_word, of_a_month, of_an_answer, quoted, spelt


class YearText:
    """A year under way: its answers, then month by month and night by night."""

    def __init__(self, out: Out, year: int, told: Iterable[tuple[str, str]]) -> None:
        """``told`` is the front matter: names and values in plain words, of one row each."""
        self._out, self._noted = out, spelt_once(_noted)
        self._rows(["---", f"year: {year:04d}", *(f"{name}: {value}" for name, value in told), "---", "", f"# {year}"])

    def _rows(self, rows: Iterable[str]) -> None:
        self._out.write("\n".join((*rows, "")))

    def answer(self, one: YearAnswer) -> None:
        """A closing question and what was answered."""
        self._rows(of_an_answer(one))

    def month(self, page: MonthPage) -> None:
        """A month's heading, its question, words and goals."""
        self._rows(["", f"## {MONTHS[page.month.month - 1]} {page.month.year}", *of_a_month(page)])

    def night(self, night: GivenNight) -> None:
        """A night: lines, readings, photos with their captions."""
        place = where(night.place)
        self._rows(["", f"### {spelt(night.date)}{f', {place}' if place else ''}", *self._of_the_night(night)])

    def _of_the_night(self, night: GivenNight) -> Iterator[str]:
        for line in night.lines:
            yield from ("", f"{in_a_row(line.kind_title)}:", "", *quoted(line.text))
            for word in line.later:
                yield from of_a_later_word(word)
        if night.readings:
            noted = self._noted
            yield from ("", f"Noted: {'; '.join([noted(one) for one in night.readings])}.")
        for given in night.photos:
            caption = ("", *quoted(given.photo.caption)) if given.photo.caption else ()
            yield from ("", f"Photo: {given.file}", *caption)


def _noted(one: GivenReading) -> str:
    return f"{in_a_row(one.tracker.name)} {value_text(one)}"
