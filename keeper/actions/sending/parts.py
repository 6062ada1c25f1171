"""What pages to send are made of: nights with their lines, photos, and the languages spoken."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from keeper.model import Line, Photo
from keeper.review.book import BookLine, BookPhoto
from keeper.review.book_making import Language, book_line, guesser
from keeper.review.sent import SentNight, SentPhoto
from keeper.review.year_words import spoken


@dataclass(frozen=True, slots=True)
class Speaker:
    """The language of most lines, and a guess for each."""

    most: str
    guess: Language


def speaker(texts: Iterable[str]) -> Speaker:
    """What languages some lines are in."""
    languages = spoken(list(texts))
    return Speaker(languages[0], guesser(languages))


def by_night(lines: Iterable[Line], says: Speaker, places: Mapping[date, str] | None = None) -> tuple[SentNight, ...]:
    """Lines in the order of time, each night's together; ``places`` are told where they change."""
    found: list[SentNight] = []
    here = ""
    for night, its in groupby(sorted(lines, key=lambda line: line.night), key=lambda line: line.night):
        place = (places or {}).get(night, "")
        found.append(SentNight(night, tuple(_line(line, says) for line in its), place if place != here else ""))
        here = place or here
    return tuple(found)


def _line(line: Line, says: Speaker) -> BookLine:
    return book_line(line, says.guess, later=True)


def photo_of(photo: Photo, of: str) -> SentPhoto:
    """A photo with its caption, or else of what it is, for those who cannot see it."""
    caption = " ".join(photo.caption.split())
    return SentPhoto(BookPhoto(photo.id, photo.width or 4, photo.height or 3, photo.caption), caption or f"Photo of {of}")
