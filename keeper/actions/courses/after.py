"""How often a mark comes after another, from what was noted."""

from dataclasses import dataclass

from keeper.actions.courses.asked import known, nights_of
from keeper.errors import UnreadableReading
from keeper.review.courses.after import AfterTold, Phase, after_told
from keeper.store import Store

MOST = 30
"""So many nights after a mark at the most."""

LONGEST_PHASE = 366


@dataclass(frozen=True, slots=True)
class PhaseAsked:
    """Nights ``first`` to ``last`` after the latest night with the mark of this key."""

    mark_key: str
    first: int
    last: int


def after_mark(store: Store, first_key: str, second_key: str, within: int, asked: PhaseAsked | None = None) -> AfterTold:
    """What is to be told of it. Raises UnknownThing; UnreadableReading for nights that cannot be."""
    from keeper.study.patterns.following import follows, phase

    if not 1 <= within <= MOST:
        raise UnreadableReading(f"After a mark can be 1 to {MOST} nights, not {within}.")
    if asked and not 0 <= asked.first <= asked.last <= LONGEST_PHASE:
        raise UnreadableReading(f"A phase goes from one night to a later one, 0 to {LONGEST_PHASE}; not from {asked.first} to {asked.last}.")
    first, second, *of_phase = its = known(store, first_key, second_key, *([asked.mark_key] if asked else []))
    within_phase = Phase(of_phase[0], asked.first, asked.last) if asked else None
    values = nights_of(store, its).values
    only = phase(values[asked.mark_key], asked.first, asked.last) if asked else None
    found = follows(values[first_key], values[second_key], within, only)
    return after_told(first, second, within, within_phase, found)
