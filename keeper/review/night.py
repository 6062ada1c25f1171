"""A night's page: what is kept, what is asked, what stayed open."""

from dataclasses import dataclass
from datetime import date, timedelta

from keeper.model import Draft, Night, Place

OFFERED = 5
"""How many open nights are offered at most."""

LOOKED_OVER = 21
"""How many nights back open ones are offered."""


@dataclass(frozen=True, slots=True)
class NightPage:
    """What the page of one night shows.

    ``carried`` is the place of the night before, when this night has none of
    its own yet; it is ``left`` instead where the clock tells that the person
    is in another time zone. ``still_open`` are earlier nights without a line, newest first.
    ``drafts`` are words typed but never kept; ``reworded`` are the kinds that
    have earlier wordings. ``latest`` is the last night that has a line.
    """

    night: Night
    question: str
    drafts: tuple[Draft, ...]
    carried: Place | None
    still_open: tuple[date, ...]
    reworded: frozenset[str] = frozenset()
    latest: date | None = None
    left: Place | None = None


def still_open(tonight: date, kept: frozenset[date], begun: date | None) -> tuple[date, ...]:
    """Nights before tonight without a line, newest first.

    None before the keeper's first night ``begun``: those were never missed.
    """
    if begun is None:
        return ()
    back = (tonight - timedelta(days=n) for n in range(1, LOOKED_OVER + 1))
    return tuple(night for night in back if night >= begun and night not in kept)[:OFFERED]
