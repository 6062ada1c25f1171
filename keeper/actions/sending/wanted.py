"""A page to send as a person asks for it."""

from dataclasses import dataclass
from datetime import date

from keeper.review.sent import SENT

__all__ = ["SENT", "SentWanted"]


@dataclass(frozen=True, slots=True)
class SentWanted:
    """What is to be sent: one of SENT, with ``month`` any day of a month or a year, or else its ``name``.

    ``positions`` tells where one was: places, and where they lie; without,
    only what the person's own words say. ``resting`` brings in what rests,
    ``readings`` what was noted. ``size`` of a PDF's page is one of
    ``review.book.SIZES``.
    """

    what: str
    month: date | None = None
    name: str = ""
    positions: bool = False
    resting: bool = False
    readings: bool = False
    photos: bool = True
    size: str = "a5"
