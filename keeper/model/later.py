"""Later words: what a person thinks of an old line, years on."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, datetime

from keeper.model import Moment


@dataclass(frozen=True, slots=True)
class LaterWord:
    """What was written under a line on a later night, ``said_on``.

    ``text`` is "" where only a reading was looked at anew. ``looks`` is how
    the reading of the line's night looks from the later one, None if not
    said; ``of`` is the name of what was noted, ``was`` what it was that night
    (None where it is there no more).
    """

    said_on: date
    text: str
    written: Moment
    looks: float | None = None
    of: str = ""
    was: float | None = None
    tracker_id: str = ""


@dataclass(frozen=True, slots=True)
class EarlierLater:
    """What a later word said until it was ``replaced_at`` (aware, UTC)."""

    text: str
    replaced_at: datetime


def words_alone(those: Iterable[LaterWord]) -> tuple[LaterWord, ...]:
    """Later words without what they say of readings."""
    return tuple(replace(one, looks=None, of="", was=None, tracker_id="") for one in those if one.text)
