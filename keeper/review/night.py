"""A night's page: what is kept, what is asked, what stayed open."""

from collections.abc import Container, Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from keeper.model import Draft, LineKind, Night, Place

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
    have earlier wordings, ``from_paper`` those whose lines were typed up. ``latest`` is the last night that has a line.
    ``kinds`` are those that the night asks for or has words of, in the
    person's order.
    """

    night: Night
    question: str
    drafts: tuple[Draft, ...]
    carried: Place | None
    still_open: tuple[date, ...]
    reworded: frozenset[str] = frozenset()
    from_paper: frozenset[str] = frozenset()
    latest: date | None = None
    left: Place | None = None
    kinds: tuple[LineKind, ...] = ()


def still_open(tonight: date, kept: frozenset[date], begun: date | None) -> tuple[date, ...]:
    """Nights before tonight without a line, newest first.

    None before the keeper's first night ``begun``: those were never missed.
    """
    if begun is None:
        return ()
    back = (tonight - timedelta(days=n) for n in range(1, LOOKED_OVER + 1))
    return tuple(night for night in back if night >= begun and night not in kept)[:OFFERED]


def kinds_asked(kinds: Iterable[LineKind], night: date, held: Container[str] = ()) -> tuple[LineKind, ...]:
    """Those of all kinds that a night asks for, and those of which it has words (``held``, by key), in their order.

    Where none is in force, the first of all: there is always somewhere to write.
    """
    known = tuple(kinds)
    asked = tuple(kind for kind in known if kind.asked_on(night) or kind.key in held)
    return asked or known[:1]
