"""What is handed to the formats: a night with all that is given of it."""

from dataclasses import dataclass, field
from datetime import date
from functools import lru_cache

from keeper.model import Line, Photo, Place, Reading, Tracker


@dataclass(frozen=True, slots=True)
class GivenReading:
    """A reading, with what it is a reading of."""

    tracker: Tracker
    reading: Reading

    @property
    def unit(self) -> str:
        """What it was noted in; "" where it has none."""
        return self.reading.unit or self.tracker.unit


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
def in_a_row(words: str) -> str:
    """Words without breaks of rows."""
    return " ".join(words.split())


def value_text(given: GivenReading) -> str:
    """A reading in words, such as "7.5 hours (23:30 to 07:00)", "yes", "6 of 0 to 10"."""
    tracker, reading = given.tracker, given.reading
    if tracker.form == "mark":
        return "yes" if reading.value else "no"
    number = f"{reading.value:.12g}"
    unit = given.unit or ("hours" if tracker.form == "hours" else "")
    low, high = (tracker.low, tracker.high) if reading.low is None else (reading.low, reading.high)
    scale = f" of {low:g} to {high:g}" if tracker.form == "scale" and None not in (low, high) else ""
    times = f" ({reading.first} to {reading.until})" if reading.first and reading.until else ""
    return f"{number}{f' {in_a_row(unit)}' if unit else ''}{scale}{times}"
