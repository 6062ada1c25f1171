"""Which kept searches are given of a keeper that is not given whole: those that name nothing that is held back."""

from collections.abc import Collection
from datetime import date
from functools import cached_property

from keeper.actions.giving.limits import Limits
from keeper.days import FIRST_NIGHT, LAST_NIGHT
from keeper.errors import NotAKeeper
from keeper.store import people, trackers
from keeper.store.moments import day, told
from keeper.store.places import named as places
from keeper.study.people import mentions_any


class KeptSearches:
    """Asked of each search, once it is known which lines are given."""

    def __init__(self, limits: Limits) -> None:
        self._limits = limits

    def gives(self, name: str, sought: str, themes: Collection[int], nights: Collection[date]) -> bool:
        """Whether all that a search names is given: ``themes`` by number, and one of the ``nights`` in its span.

        ``sought`` is as it is kept. Raises NotAKeeper for one that is damaged.
        """
        asked, limits = told(sought, dict), self._limits
        given = {"places": limits.places, "people": self._people, "themes": themes, "readings": limits.trackers}
        try:
            named = all(one[0] in there for sort, there in given.items() for one in asked.get(sort, ()))
            words = f"{name} {asked.get('typed', '')}"
            first, last = (day(asked.get(end, bound.isoformat())) for end, bound in (("first", FIRST_NIGHT), ("last", LAST_NIGHT)))
        except (TypeError, LookupError) as error:
            raise NotAKeeper("The keeper is damaged: a search that is kept cannot be read.") from error
        if not named or mentions_any(words, self._held_back) or (asked.get("resting") and not limits.wanted.resting):
            return False
        return (first, last) == (FIRST_NIGHT, LAST_NIGHT) or any(first <= night <= last for night in nights)

    @cached_property
    def _people(self) -> frozenset[str]:
        return frozenset(one.id for one in self._limits.people)

    @cached_property
    def _held_back(self) -> tuple[str, ...]:
        """The names of whatever is not given."""
        limits, copy = self._limits, self._limits.copy
        found = [name for one in people.every(copy) if one.id not in self._people for name in one.names]
        found += [one.name for one in places.every(copy) if one.id not in limits.places]
        return (*found, *(one.name for one in trackers.every(copy) if one.id not in limits.trackers))
