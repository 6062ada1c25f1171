"""The demo's text files, read strictly: ``lines/YYYY-MM.txt``, one a month.

A file that departs from the form is refused with its name and line number, so
that a slip of the pen never becomes a wrong night.
"""

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date
from itertools import pairwise
from pathlib import Path

KIND_OF = {"g": "gratitude", "m": "memory", "r": "reflection"}
OUTCOMES = ("set", "done", "carried on", "let go")
MOTIFS = (
    "harbour", "keys", "sky", "boat", "lighthouse", "hall", "window", "bread",
    "bridge", "snow", "garden", "forks", "jetty", "street", "cabin",
)  # fmt: skip
FIRST_SWIM = date(2024, 6, 10)

_HEAD = re.compile(r"(\d{1,2})(?: (\S.*))?")
_SAID = re.compile(r"([a-z]+): (\S.*)")


class ProseError(Exception):
    """A file that is not in the form; ``str(error)`` says where and why."""


@dataclass
class ToldNight:
    """One night of a file. ``place`` is filled in when it is carried on."""

    date: date
    place: str
    lines: dict[str, str] = field(default_factory=dict)
    motif: str = ""
    caption: str = ""
    swam: bool = False


@dataclass
class ToldMonth:
    """One file. ``goals`` are (text, outcome, word)."""

    month: date
    question: str = ""
    words: str = ""
    goals: list[tuple[str, str, str]] = field(default_factory=list)
    chosen: int = 0
    nights: list[ToldNight] = field(default_factory=list)


def read_all(folder: Path, places: frozenset[str]) -> list[ToldMonth]:
    """All months, oldest first, with no month missing between. Raises ProseError."""
    files = sorted(folder.glob("*.txt"))
    months: list[ToldMonth] = []
    for file in files:
        carried = months[-1].nights[-1].place if months else ""
        months.append(_File(file, places, carried).read())
    for before, after in pairwise(months):
        if (after.month.year * 12 + after.month.month) - (before.month.year * 12 + before.month.month) != 1:
            raise ProseError(f"{folder}: no file between {before.month:%Y-%m} and {after.month:%Y-%m}")
    return months


class _File:
    """One file as it is being read; knows where it is, to say so."""

    def __init__(self, path: Path, places: frozenset[str], carried: str) -> None:
        self.path, self.places, self.place, self.number = path, places, carried, 0
        if not re.fullmatch(r"\d{4}-\d{2}", path.stem):
            raise ProseError(f"{path.name}: a file is named after its month, such as 2024-06.txt")
        self.told = ToldMonth(date.fromisoformat(f"{path.stem}-01"))

    def read(self) -> ToldMonth:
        blank = True
        for text in self._texts():
            if text and text[0].isdigit() and blank:
                self._head(text)
            elif text:
                self._said(text)
            blank = not text
        self._check_whole()
        return self.told

    def _texts(self) -> Iterator[str]:
        for number, raw in enumerate(self.path.read_text("utf-8").split("\n"), 1):
            self.number, text = number, raw.rstrip()
            if text != unicodedata.normalize("NFC", text) or not (text.isprintable() or not text):
                self._refuse("letters with loose accents, tabs or control characters")
            yield text

    def _refuse(self, why: str) -> None:
        raise ProseError(f"{self.path.name}:{self.number}: {why}")

    def _head(self, text: str) -> None:
        head = _HEAD.fullmatch(text)
        if not head:
            self._refuse(f"not the head of a night: {text!r}")
        self._check_last_night()
        self.place = head[2] or self.place
        if self.place not in self.places:
            self._refuse(f"no such place: {self.place!r}")
        self.told.nights.append(ToldNight(self._day(int(head[1])), self.place))

    def _day(self, day: int) -> date:
        try:
            night = self.told.month.replace(day=day)
        except ValueError:
            self._refuse(f"the month has no day {day}")
        if self.told.nights and night <= self.told.nights[-1].date:
            self._refuse(f"day {day} comes after day {self.told.nights[-1].date.day}")
        return night

    def _said(self, text: str) -> None:
        said = _SAID.fullmatch(text)
        if not said:
            self._refuse(f"neither a night's head nor \u201ckey: text\u201d: {text[:50]!r}")
        key, value = said[1], said[2]
        if self.told.nights:
            self._of_night(self.told.nights[-1], key, value)
        else:
            self._of_month(key, value)

    def _of_month(self, key: str, value: str) -> None:
        if key == "goal":
            self.told.goals.append(self._goal(value))
        elif key == "chosen" and value.isdecimal():
            self.told.chosen = int(value)
        elif key in ("question", "words") and not getattr(self.told, key):
            setattr(self.told, key, value)
        else:
            self._refuse(f"not expected before the first night: {key!r}")

    def _goal(self, value: str) -> tuple[str, str, str]:
        parts = [part.strip() for part in value.split("|")]
        if not 2 <= len(parts) <= 3 or not parts[0] or parts[1] not in OUTCOMES:
            self._refuse("a goal is \u201ctext | outcome | word\u201d, the outcome one of " + ", ".join(OUTCOMES))
        return parts[0], parts[1], parts[2] if len(parts) == 3 else ""

    def _of_night(self, night: ToldNight, key: str, value: str) -> None:
        if key in KIND_OF and KIND_OF[key] not in night.lines:
            night.lines[KIND_OF[key]] = value
        elif key == "photo" and not night.motif:
            night.motif, night.caption = self._photo(value)
        elif key == "x" and value == "swam" and not night.swam:
            night.swam = night.date >= FIRST_SWIM or self._refuse("nobody swims before June 2024")
        else:
            self._refuse(f"unknown, or said twice in one night: {key!r}")

    def _photo(self, value: str) -> tuple[str, str]:
        motif, _, caption = (part.strip() for part in value.partition("|"))
        if motif not in MOTIFS or not caption:
            self._refuse("a photo is \u201cmotif | caption\u201d, the motif one of " + ", ".join(MOTIFS))
        return motif, caption

    def _check_last_night(self) -> None:
        if self.told.nights and not self.told.nights[-1].lines:
            self._refuse(f"night {self.told.nights[-1].date.day} has no line")

    def _check_whole(self) -> None:
        self._check_last_night()
        told = self.told
        if not (told.question and told.words and told.nights and 1 <= len(told.goals) <= 3):
            self._refuse("a month has a question, words, one to three goals and nights")
        if not any(night.date.day == told.chosen and night.motif for night in told.nights):
            self._refuse(f"chosen night {told.chosen} has no photo")
