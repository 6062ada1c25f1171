"""What rests in the keeper, gathered into the one rule of what may be brought up unasked."""

from datetime import date

from keeper.store import Store, people, resting
from keeper.study.awake import Awake

__all__ = ["Awake", "awake"]


def awake(store: Store, first: date = date.min, last: date = date.max, asked_for_place: bool = False) -> Awake:
    """The rule for the nights of a span, both ends included.

    ``asked_for_place``: the nights of a resting place were asked for, and rest
    only in a span.
    """
    nights = resting.nights(store, first, last, places=not asked_for_place)
    return Awake(people.resting_names(store), nights, shows=people.resting_on_photos(store))
