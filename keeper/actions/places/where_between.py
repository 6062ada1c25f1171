"""Where one was for a span of nights, said at once; lines are not needed for it."""

from dataclasses import dataclass
from datetime import date

from keeper.actions import told_as
from keeper.actions.places.towns import place_of
from keeper.clock import Clock
from keeper.dates import written
from keeper.days import nights as every_night
from keeper.errors import UnknownThing, UnreadableDate
from keeper.model import Act, Place
from keeper.store import Store, nights
from keeper.store.moments import utc_text
from keeper.store.places import named as places
from keeper.town import Town

MOST = 3660
"""The most nights that one may say at once: ten years, and not a slip in the year."""


@dataclass(frozen=True, slots=True)
class Before:
    """What was known of a night until then: the place's id, and how it came."""

    night: date
    place_id: str | None
    source: str


@dataclass(frozen=True, slots=True)
class SpanSaid:
    """What was done for a span of nights, so that it can be told.

    ``changed`` are the nights that are at ``place`` since, as they were before;
    ``kept`` those that stayed where the person had said, ``there`` those that
    were at the place already. ``begun`` is whether the place is new.
    """

    first: date
    last: date
    place: Place
    changed: tuple[Before, ...]
    kept: tuple[date, ...]
    there: int
    begun: bool

    @property
    def nights(self) -> int:
        """How many nights of the span are at the place now."""
        return len(self.changed) + self.there

    @property
    def gave_way(self) -> int:
        """How many of them had been carried on at another place."""
        return sum(one.source == "carried" and one.place_id != self.place.id for one in self.changed)


def elsewhere(
    store: Store, first: date, last: date, place_id: str = "", carried: bool = False
) -> tuple[tuple[Place, tuple[date, ...]], ...]:
    """The nights of a span that were said to be at other places than this, by place, in order of time.

    With ``carried`` those that were only carried on at other places.
    """
    found: dict[str, list[date]] = {}
    for one in nights.where_between(store, first, last):
        if one[1] not in (None, place_id) and (one[2] == "carried") == carried:
            found.setdefault(one[1], []).append(one[0])
    return tuple((places.by_id(store, at), tuple(those)) for at, those in found.items())


def check_span(first: date, last: date, tonight: date) -> None:
    """Raise UnreadableDate, saying why, for a span that cannot be said."""
    if last < first:
        raise UnreadableDate(f"The last night, {last.isoformat()}, comes before the first, {first.isoformat()}.")
    if last > tonight:
        raise UnreadableDate(f"The night of {last.isoformat()} is still to come; a place is carried on by itself.")
    if (last - first).days >= MOST:
        raise UnreadableDate(f"These are {(last - first).days + 1:,} nights; at most {MOST:,} can be said at once.")


def say_between(
    store: Store, first: date, last: date, chosen: Place | Town | str, clock: Clock, tonight: date, over: bool = False
) -> SpanSaid:
    """Say where all nights of a span were spent, both ends included.

    Nights said to be elsewhere stay so, unless ``over``; a place that was only
    carried on gives way. Raises UnreadableDate for a span that cannot be,
    UnknownThing where no place is named, and as ``towns.set_where`` does.
    """
    check_span(first, last, tonight)
    with store.writing(_told(first, last, chosen)):
        known = {place.id for place in places.every(store)}
        place = place_of(store, chosen)
        if place is None:
            raise UnknownThing("Say which place it was.")
        was = {one[0]: Before(*one) for one in nights.where_between(store, first, last)}
        changed, kept, there = [], [], 0
        for night in every_night(first, last):
            before = was.get(night, Before(night, None, ""))
            if before.place_id == place.id and before.source == "said":
                there += 1
            elif not over and before.place_id != place.id and _is_said((night, before.place_id, before.source)):
                kept.append(night)
            else:
                changed.append(before)
        begun_at = utc_text(clock.moment().utc)
        for one in changed:
            nights.set_place(store, one.night, place.id, "said", begun_at)
    return SpanSaid(first, last, place, tuple(changed), tuple(kept), there, place.id not in known)


def _told(first: date, last: date, chosen: Place | Town | str) -> Act:
    name = getattr(chosen, "called", "") or getattr(chosen, "name", chosen)
    if first == last:
        return told_as.of_night(name, last)
    return Act(f"{name} for the nights of {written.span(first, last)}", "night", last)


def _is_said(one: tuple[date, str | None, str]) -> bool:
    return one[1] is not None and one[2] != "carried"
