"""What a person decided of a month."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True)
class Goal:
    """A month's goal; outcome is set, done, carried on or let go.

    ``carried_from`` is the id of the goal of the month before that was carried
    on into this one; "" for one that the person set.
    """

    id: str
    text: str
    outcome: str
    word: str = ""
    carried_from: str = ""


@dataclass(frozen=True)
class MonthPage:
    """What the person decided of a month; ``month`` is its first day."""

    month: date
    question: str = ""
    words: str = ""
    photo_id: str | None = None
    goals: tuple[Goal, ...] = ()
