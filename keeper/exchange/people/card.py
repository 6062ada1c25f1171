"""A person as a card or a calendar tells of them, whatever the format."""

import re
from dataclasses import dataclass

_CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f]")


@dataclass(frozen=True, slots=True)
class CardDay:
    """A day of the year in the Gregorian calendar: no ``year`` where it is not told.

    ``what`` is "birthday", or what the day is called. ``after``: 29 February
    is 1 March in other years. ``said`` is how it was said in another calendar.
    """

    what: str
    month: int
    day: int
    year: int | None = None
    after: bool = False
    said: str = ""


@dataclass(frozen=True, slots=True)
class Card:
    """Somebody by their names, the first being the one they are listed under.

    ``given`` is the given name alone, "" where it is not told; ``number`` the
    row of the file with which they begin. ``troubles`` say what of them was
    not understood.
    """

    names: tuple[str, ...]
    days: tuple[CardDay, ...] = ()
    about: str = ""
    given: str = ""
    uid: str = ""
    number: int = 0
    troubles: tuple[str, ...] = ()


def plain(text: str) -> str:
    """A text without what no text of these formats may hold."""
    return _CONTROL.sub("", text.replace("\r\n", "\n").replace("\r", "\n"))


def one_name(text: str) -> str:
    """A name in one row; what stands after a comma is no other spelling, so there is none."""
    return " ".join(plain(text).replace(",", " ").split())
