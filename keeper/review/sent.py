"""A month, a year, a theme, a place or a person as a page to send."""

from dataclasses import dataclass
from datetime import date

from keeper.review.book import BookLine, BookPhoto

SENT = ("month", "year", "theme", "place", "person")
"""What can be sent."""


@dataclass(frozen=True, slots=True)
class SentPhoto:
    """A photo, and what is said of it to who cannot see it."""

    photo: BookPhoto
    alt: str


@dataclass(frozen=True, slots=True)
class SentNight:
    """A night's lines; ``place`` is "" where it is not told."""

    date: date
    lines: tuple[BookLine, ...]
    place: str = ""


@dataclass(frozen=True, slots=True)
class SentTable:
    """Rows under heads, the first of each row naming it; ``told`` stands below."""

    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    told: str = ""


@dataclass(frozen=True, slots=True)
class SentPart:
    """A part of the page under its own heading ("" for the one that needs none).

    ``said`` are the person's texts; ``facts`` are names, each with what there
    is of it.
    """

    title: str = ""
    said: tuple[str, ...] = ()
    facts: tuple[tuple[str, str], ...] = ()
    photos: tuple[SentPhoto, ...] = ()
    nights: tuple[SentNight, ...] = ()
    table: SentTable | None = None

    @property
    def empty(self) -> bool:
        """Whether nothing is in it."""
        return not (self.said or self.facts or self.photos or self.nights or self.table)


@dataclass(frozen=True, slots=True)
class SentPage:
    """The whole page; ``told`` is a line below its title. ``ink`` is ``#rrggbb``, ``language`` that of most lines."""

    title: str
    told: str
    parts: tuple[SentPart, ...]
    ink: str
    language: str
    size: str = "a5"

    @property
    def photos(self) -> tuple[SentPhoto, ...]:
        """All photos in their order."""
        return tuple(photo for part in self.parts for photo in part.photos)
