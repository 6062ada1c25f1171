"""A row of a file, understood: its night, and what it brings for it; or why not."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from keeper.actions.places.known import NoPlaceName, place_name
from keeper.actions.taking_in.looking import FileLooked
from keeper.actions.taking_in.meant import DATE, PLACE
from keeper.actions.writing import check_text
from keeper.dates.written import full_date
from keeper.errors import UnreadableReading, UnreadableText
from keeper.exchange.tables.shape import Row
from keeper.model import Reading, Tracker
from keeper.store import Store, kinds, trackers
from keeper.store.taking_in.many import ComingLine
from keeper.study.readings.hours import Whence, two_times
from keeper.study.readings.typed import understood

_PARTED_BY = {",": re.compile(r"(?<=\d)\.(?=\d{3}(?!\d))"), ".": re.compile(r"(?<=\d),(?=\d{3}(?!\d))")}
_BEFORE_DECIMALS = re.compile(r"(?<=\d),(?=\d)|^,(?=\d)")
_THREE_BEHIND = re.compile(r"(?<![\d.])\d+\.\d{3}(?!\d)")
_YES = {"\u2714": "yes", "\u2611": "yes", "\u2713": "yes", "ja": "yes", "oui": "yes", "si": "yes", "s\u00ed": "yes", "tak": "yes",
        "nein": "no", "nee": "no", "non": "no", "nie": "no", "\u2717": "no", "\u2718": "no", "\u2610": "no"}  # fmt: skip
_SHOWN = 60


class NotUnderstood(NamedTuple):
    """What was not understood: where, the words, and why, as a sentence."""

    number: int
    file: str
    words: str
    why: str


@dataclass(frozen=True, slots=True)
class Item:
    """What a row brings for a night."""

    number: int
    file: str
    night: date
    lines: tuple[ComingLine, ...] = ()
    place: str = ""
    readings: tuple[Reading, ...] = ()


class Understanding:
    """Understands the rows of one file. ``new`` are the readings that its columns begin, by what the column is."""

    def __init__(self, store: Store, looked: FileLooked, here: Callable[[date], Whence], new: Mapping[int, Tracker] | None = None) -> None:
        self._looked, self._here = looked, here
        self._tonight = looked.dates.tonight
        columns = looked.meant.columns
        numbers = {f"kind:{kind.key}": (kind.key, kind.number) for kind in kinds.every(store)}
        its = {f"reading:{one.id}": one for one in trackers.every(store)}
        self._date = looked.meant.at(DATE)
        self._places = [at for at, what in enumerate(columns) if what == PLACE]
        self._kinds = [(at, *numbers[what]) for at, what in enumerate(columns) if what in numbers]
        self._readings = [(at, its[what]) for at, what in enumerate(columns) if what in its]
        begun = new if new is not None else begun_by(looked)
        self._readings += [(at, tracker) for at, tracker in begun.items()]

    def item(self, row: Row) -> tuple[Item | None, list[NotUnderstood]]:
        """What a row brings, None for nothing; and what of it was not understood."""
        if row.trouble:
            return None, [NotUnderstood(row.number, row.file, "", row.trouble)]
        spelt = row.cells[self._date] if self._date is not None and self._date < len(row.cells) else ""
        night = self._looked.dates.night(spelt)
        if night is None:
            why = f"\u201c{_short(spelt)}\u201d is not a date" if spelt else "there is no date in it"
            return None, [NotUnderstood(row.number, row.file, _short(" ".join(filter(None, row.cells))), why)]
        if night > self._tonight:
            return None, [NotUnderstood(row.number, row.file, _short(spelt), f"{full_date(night)} is still to come")]
        troubles: list[NotUnderstood] = []
        lines = self._lines(row, night, troubles)
        readings = self._noted(row, night, troubles) if self._readings else ()
        place = self._place(row, troubles) if self._places else ""
        return (Item(row.number, row.file, night, lines, place, readings) if lines or readings or place else None), troubles

    def _lines(self, row: Row, night: date, troubles: list[NotUnderstood]) -> tuple[ComingLine, ...]:
        words: dict[tuple[str, int], str] = {}
        for at, key, number in self._kinds:
            if at < len(row.cells) and (text := row.cells[at].strip()):
                before = words.get((key, number))
                words[key, number] = f"{before}\n{text}" if before else text
        found = []
        for (key, number), text in words.items():
            try:
                check_text(text)
                found.append(ComingLine(night, key, number, text))
            except UnreadableText as error:
                troubles.append(NotUnderstood(row.number, row.file, _short(text), str(error)))
        return tuple(found)

    def _place(self, row: Row, troubles: list[NotUnderstood]) -> str:
        named = next((row.cells[at] for at in self._places if at < len(row.cells) and row.cells[at].strip()), "")
        try:
            return place_name(named) if named else ""
        except (NoPlaceName, UnreadableText) as error:
            troubles.append(NotUnderstood(row.number, row.file, _short(named), str(error)))
            return ""

    def _noted(self, row: Row, night: date, troubles: list[NotUnderstood]) -> tuple[Reading, ...]:
        found = []
        for at, tracker in self._readings:
            text = row.cells[at] if at < len(row.cells) else ""
            if text in ("", "-", "\u2013"):
                continue
            try:
                found.append(self._reading(tracker, text, night))
            except UnreadableReading as error:
                troubles.append(NotUnderstood(row.number, row.file, _short(text), str(error)))
        return tuple(found)

    def _reading(self, tracker: Tracker, text: str, night: date) -> Reading:
        if tracker.ended and night > tracker.ended:
            raise UnreadableReading(f"{tracker.name} ended on {full_date(tracker.ended)}; it cannot be noted after that.")
        if tracker.form == "mark":
            return understood(tracker, _YES.get(text.casefold(), text), night, _NOWHERE)
        if tracker.form == "hours" and two_times(text):
            return understood(tracker, text, night, self._here(night))
        return understood(tracker, with_point(text, self._looked.how.decimal), night, _NOWHERE)


_NOWHERE: Whence = None  # type: ignore[assignment]
"""Where a night was spent says nothing of a number."""


def with_point(text: str, decimal: str) -> str:
    """A number as it is read everywhere: no sign parts its thousands, and a point stands before its decimals."""
    text = _PARTED_BY[decimal].sub("", text)
    text = _BEFORE_DECIMALS.sub(".", text) if decimal == "," else text
    # Three digits behind a point are thousands where the person lives, perhaps; four are not.
    return _THREE_BEHIND.sub(r"\g<0>0", text)


def begun_by(looked: FileLooked) -> dict[int, Tracker]:
    """The readings that the columns of a file begin, by column; each has no id of the keeper's yet."""
    begun = {}
    for at, what in enumerate(looked.meant.columns):
        if what.startswith("new:"):
            name, form = looked.names[at], what.removeprefix("new:")
            unit = "h" if form == "hours" else ""
            begun[at] = Tracker(f"new {at}", name, form, None, None, unit, "neither", looked.dates.tonight)
    return begun


def _short(words: str) -> str:
    words = " ".join(words.split())
    return words if len(words) <= _SHOWN else words[: _SHOWN - 1] + "\u2026"
