"""Plain text and Markdown with dates among the lines: each date, and the words beneath or behind it."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date

from keeper.dates.in_files import DatesInFile
from keeper.exchange.tables.shape import LONGEST_CELL, Row, as_row

COLUMNS = ("Date", "Words")

_SIGNS = r"[-/.\u2010-\u2015]"
_FIGURES = rf"\d{{4}}{_SIGNS}\d{{1,2}}{_SIGNS}\d{{1,2}}|\d{{1,2}}{_SIGNS}\s?\d{{1,2}}{_SIGNS}\s?(?:\d{{4}}|\d\d)"
_HOUR = r"(?:[T ,]{1,2}\d{1,2}:\d\d(?::\d\d)?(?:\s?[ap]m)?Z?)?"
IN_FIGURES = re.compile(rf"({_FIGURES}){_HOUR}(?=[\s:,|;)\]\u2013\u2014]|$)", re.IGNORECASE)
"""A date in figures at the beginning of what it is matched with, perhaps with an hour."""

_WITHIN = re.compile(rf"(?<![\d.,-]){IN_FIGURES.pattern}", re.IGNORECASE)
_BEFORE = re.compile(r"^(#{1,6}\s+|[-*+\u2022]\s+|>\s+)?[*_\[(]{0,3}")
_BEHIND = re.compile(r"\s*(?::\s|:$|\t|\s[-\u2013\u2014|]\s|\u2014)\s*")
_AROUND = " \t:.,;|*_[]()-\u2013\u2014"
_RULE = re.compile(r"\s*([-=*_]\s?){3,}\s*")
_FULL_YEAR = re.compile(r"\d{4}")
_LATE = re.compile(r"(?<!\d)(?:29|[3-9]\d)(?!\d)")
_LONGEST_MARK = 60


@dataclass
class DatedText:
    """Reads one text. ``first`` is the night of what stands before any date, as its name tells; ``year`` and ``month`` likewise."""

    dates: DatesInFile
    first: date | None = None
    year: int | None = None
    month: int | None = None
    file: str = ""
    _words: list[str] = field(default_factory=list)
    _long: int = 0

    def rows(self, lines: Iterable[str]) -> Iterator[Row]:
        """A row of night (ISO 8601) and words for each date that has words; one with its trouble for words without a date."""
        night, began, matter = self.first, 1, False
        for number, line in enumerate(lines, 1):
            line = line.rstrip("\r\n")
            if line.strip() == "---" and (number == 1 or matter):
                matter = number == 1
                continue
            if matter:
                night = self._in_matter(line) or night
                continue
            mark = self.mark(line)
            if mark is None:
                began = began if self._words else number
                self._take(line)
                continue
            yield from self._ended(night, began)
            (night, rest), began = mark, number
            self._take(rest)
        yield from self._ended(night, began)

    def mark(self, line: str) -> tuple[date | None, str] | None:
        """The night that a line begins, and the words behind it; None for a line that begins none.

        A heading with a year or a month alone holds for what stands under it.
        """
        heading = line.startswith("#")
        if not (heading or any(letter.isdigit() for letter in line[:_LONGEST_MARK])):
            return None
        text = line.lstrip()
        text = text[_BEFORE.match(text).end() :]
        if heading and self._holds(text.strip(_AROUND)):
            return None, ""
        return self._behind_figures(text) or self._alone_or_parted(text, heading) or (self._within(text) if heading else None) or self._no_day(text)

    def _no_day(self, text: str) -> tuple[None, str] | None:
        """A line that begins with a day that there is not: its words belong to no night, least of all to the one before.

        In a text that is of one night as a whole they are words of that night.
        """
        return (None, text) if self.first is None and self._such_a_day(text) else None

    def _such_a_day(self, text: str) -> str:
        """The day with which a text begins, its year in full; or one too late for its month; "" for none."""
        if (found := IN_FIGURES.match(text)) and _FULL_YEAR.search(found[1]):
            return found[1]
        days = (spelt for spelt, _ in _spelt(text) if _LATE.search(spelt) and self._night(_LATE.sub("1", spelt), False))
        return next(days, "")

    def _within(self, text: str) -> tuple[date, str] | None:
        """A date in figures within a heading; its other words are words."""
        found = _WITHIN.search(text[:_LONGEST_MARK * 2])
        night = self.dates.night(found[0]) if found else None
        rest = f"{text[: found.start()].strip(_AROUND)} {text[found.end() :].strip(_AROUND)}" if night else ""
        return (night, rest.strip()) if night else None

    def _behind_figures(self, text: str) -> tuple[date, str] | None:
        found = IN_FIGURES.match(text)
        night = self.dates.night(found[0]) if found else None
        return (night, text[found.end() :].lstrip(_AROUND)) if night else None

    def _alone_or_parted(self, text: str, heading: bool) -> tuple[date, str] | None:
        nights = ((self._night(spelt, heading), rest) for spelt, rest in _spelt(text))
        return next((found for found in nights if found[0]), None)

    def _night(self, spelt: str, heading: bool) -> date | None:
        if night := self.dates.night(spelt):
            return night
        if not self.year or not spelt or spelt[0] in "+-":
            return None
        if spelt.isdecimal():
            # A number alone is a day where a month stands above, and only as a heading.
            return self.dates.night(f"{self.year}-{self.month:02d}-{int(spelt):02d}") if self.month and heading and len(spelt) < 3 else None
        return self.dates.night(f"{spelt} {self.year}") if any(letter.isalpha() for letter in spelt) else None

    def _holds(self, heading: str) -> bool:
        span = self.dates.span(heading)
        if span is None and self.year and heading.isalpha():
            span = self.dates.span(f"{heading} {self.year}")
        if span is None or span[0] == span[1]:
            return False
        self.year, self.month = span[0].year, span[0].month if span[0].month == span[1].month else None
        return True

    def _in_matter(self, line: str) -> date | None:
        name, _, value = line.partition(":")
        return self.dates.night(value.strip().strip("\"'")) if name.strip().casefold() in ("date", "datum", "fecha", "data", "day") else None

    def _take(self, line: str) -> None:
        if (line.strip() or self._words) and self._long < LONGEST_CELL:
            self._words.append(line.rstrip())
            self._long += len(line)

    def _ended(self, night: date | None, began: int) -> Iterator[Row]:
        words = [line for line in self._words if not _RULE.fullmatch(line)]
        text = "\n".join(words).strip()
        self._words, self._long = [], 0
        if text and night:
            yield as_row(began, [night.isoformat(), text], self.file)
        elif text:
            day = self._such_a_day(text.partition("\n")[0])
            why = f"\u201c{day}\u201d is not a date" if day else "no date stands before it"
            yield Row(began, (), f"{why}: \u201c{' '.join(text.split())[:60]}\u201d", self.file)


def _spelt(text: str) -> Iterator[tuple[str, str]]:
    """What may be a date at the beginning of a line, and what is behind it: all of the line, or up to a sign that parts."""
    if len(whole := text.strip(_AROUND)) <= _LONGEST_MARK:
        yield whole, ""
    if parted := _BEHIND.search(text, 0, _LONGEST_MARK):
        yield text[: parted.start()].strip(_AROUND), text[parted.end() :]
