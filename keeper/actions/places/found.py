"""Where the lines of a search were written."""

from keeper.review.places import PlaceKept
from keeper.store import Store
from keeper.store.finding import counted
from keeper.store.places import named as places
from keeper.store.search import Sought


def places_found(store: Store, sought: Sought) -> tuple[PlaceKept, ...]:
    """The places with a line that answers, and the nights that have one there; most nights first."""
    nights = counted.places(store, sought)
    told = [PlaceKept(one, len(nights[one.id]), 0, nights[one.id][0], nights[one.id][-1]) for one in places.every(store) if one.id in nights]
    return tuple(sorted(told, key=lambda one: (-one.nights, one.place.name)))
