"""All that a search can be narrowed by: what there is in this keeper, by name."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from keeper.actions.finding import phrases
from keeper.actions.finding.phrases import Phrase
from keeper.model import LineKind, Person, Tracker
from keeper.store import Store, kinds, people, trackers
from keeper.store.folding import bare
from keeper.store.places import named as places
from keeper.store.search import Sought


@dataclass(frozen=True)
class KnownNames:
    """Names of this keeper, ``places`` in their order. ``south``: most of its places lie south of the equator, where winter is in July."""

    kinds: tuple[LineKind, ...]
    people: tuple[Person, ...]
    places: tuple[tuple[str, str], ...]
    themes: tuple[tuple[int, str], ...]
    trackers: tuple[Tracker, ...]
    south: bool = False

    @cached_property
    def of_places(self) -> tuple[Phrase, ...]:
        """Such as "in Turku", by name."""
        return tuple(Phrase("places", number, name, "in") for name, number in self.places)

    @cached_property
    def of_people(self) -> tuple[Phrase, ...]:
        """Such as "naming Agneta"."""
        return tuple(_person(one) for one in self.people if one.names)

    @cached_property
    def all(self) -> tuple[Phrase, ...]:
        """Everything, in the order in which it is offered."""
        return (
            phrases.WITH_PHOTO, phrases.AWAKE, phrases.RESTS, *map(phrases.weekday, range(7)),
            *(phrases.season(place, self.south) for place in range(4)), *(self._kind(one) for one in self.kinds),
            *self.of_people, *self.of_places, *(Phrase("themes", number, name, "about") for number, name in self.themes),
            *map(phrases.month, range(1, 13)), *self._readings(),
        )  # fmt: skip

    def phrases(self, sought: Sought) -> tuple[Phrase, ...]:
        """What narrows a search, in the order of the sentence."""
        return tuple(one for one, _ in phrases.in_sentence(self._of(sought)))

    def _of(self, sought: Sought) -> Iterator[Phrase]:
        for sort in ("kinds", "people", "places", "themes"):
            there = {one.value: one for one in self.all if one.sort == sort}
            yield from (there.get(value) or Phrase(sort, value, "something no longer kept", "of") for value in getattr(sought, sort))
        yield from map(phrases.weekday, sorted(sought.weekdays))
        yield from phrases.months(sought, self.south)
        yield from phrases.nights(sought.first, sought.last)
        if sought.photo:
            yield phrases.WITH_PHOTO
        if sought.resting is not None:
            yield phrases.RESTS if sought.resting else phrases.AWAKE
        by_id = {one.id: one for one in self.trackers}
        yield from (phrases.between(by_id.get(one.tracker_id), one) for one in sought.readings)

    def _kind(self, kind: LineKind) -> Phrase:
        return Phrase("kinds", kind.key, kind.title, "kept as")

    def _readings(self) -> Iterator[Phrase]:
        for one in self.trackers:
            if one.form == "mark":
                yield phrases.between(one, phrases.Within(one.id, 1, 1))
                yield phrases.between(one, phrases.Within(one.id, 0, 0))
            else:
                yield phrases.between(one, phrases.Within(one.id, -phrases.ANY, phrases.ANY))


def _person(person: Person) -> Phrase:
    return Phrase("people", person.id, person.names[0], "naming")


def known(store: Store) -> KnownNames:
    """What there is now."""
    from keeper.actions.finding import themes_and_parts
    from keeper.actions.reading import BEGUN_WITH

    # In their order here, which is on a lane, and not on the first visit of a page.
    by_name = tuple(sorted(places.names(store), key=lambda one: bare(one[0])))
    lying = [one.latitude for one in places.every(store) if one.latitude is not None]
    return KnownNames(
        kinds.every(store) or BEGUN_WITH, people.every(store), by_name, themes_and_parts(store), trackers.every(store),
        sum(one < 0 for one in lying) * 2 > len(lying),
    )  # fmt: skip
