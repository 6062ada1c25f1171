"""What is handed to the formats: a night with all that is given of it."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from functools import lru_cache

from keeper.model import Line, Photo, Place, Tracker

_MOST_SPELT = 20_000
"""Memory must not grow with the years."""


@dataclass(frozen=True, slots=True, eq=False)
class GivenReading:
    """A reading of some night, with what it is a reading of; the rest as in a Reading.

    Of some hundred thousand most are like others, so one stands for all of its
    kind: formats know again by it what they spelt before.
    """

    tracker: Tracker
    value: float
    first: str = ""
    until: str = ""
    unit: str = ""
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True, slots=True)
class GivenPhoto:
    """A photo, and where its file lies in the archive ("/" between folders)."""

    photo: Photo
    file: str


@dataclass(frozen=True, slots=True)
class GivenNight:
    """A night; ``themes`` are the names of its lines' themes, by the id of the line."""

    date: date
    place: Place | None = None
    lines: tuple[Line, ...] = ()
    readings: tuple[GivenReading, ...] = ()
    photos: tuple[GivenPhoto, ...] = ()
    themes: dict[str, str] = field(default_factory=dict)


def where(place: Place | None) -> str:
    """Such as "Lübeck, Germany", in one row; "" for no place."""
    if place is None:
        return ""
    return in_a_row(", ".join(part for part in (place.name, place.country) if part))


@lru_cache(512)
def in_utc(moment: datetime) -> str:
    """Such as 2026-11-14T20:00:00Z. One moment is asked for by several of the formats, one after another."""
    there = moment if moment.tzinfo is UTC else moment.astimezone(UTC)
    return f"{there.isoformat(timespec='seconds')[:-6]}Z"


@lru_cache(512)
def in_a_row(words: str) -> str:
    """Words without breaks of rows."""
    return " ".join(words.split())


def spelt_once(spell: Callable[[GivenReading], str]) -> Callable[[GivenReading], str]:
    """How readings are spelt, each once."""
    return lru_cache(_MOST_SPELT)(spell)


def value_text(given: GivenReading) -> str:
    """A reading in words, such as "7.5 hours (23:30 to 07:00)", "yes", "6 of 0 to 10"."""
    tracker = given.tracker
    ends = (tracker.low, tracker.high) if given.low is None else (given.low, given.high)
    told = _value_text(tracker.form, given.value, given.unit or tracker.unit, *ends)
    return f"{told} ({given.first} to {given.until})" if given.first and given.until and tracker.form != "mark" else told


def _value_text(form: str, value: float, unit: str, low: float | None, high: float | None) -> str:
    if form == "mark":
        return "yes" if value else "no"
    unit = unit or ("hours" if form == "hours" else "")
    scale = f" of {low:g} to {high:g}" if form == "scale" and None not in (low, high) else ""
    return f"{value:.12g}{f' {in_a_row(unit)}' if unit else ''}{scale}"
