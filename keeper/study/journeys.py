"""Stays and journeys: what a row of nights tells of where a person has been."""

from collections.abc import Container, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from operator import itemgetter

from keeper.earth import Point, metres_between

_ONE_NIGHT = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Stay:
    """Nights at one place, from ``first`` to ``last``, both included.

    ``nights`` counts those that are known; fewer than the days between only
    where unknown nights were bridged.
    """

    place_id: str
    first: date
    last: date
    nights: int


@dataclass(frozen=True, slots=True)
class PlaceSummary:
    """All of a place's stays: known nights, number of stays, first and last night."""

    place_id: str
    nights: int
    visits: int
    first: date
    last: date


@dataclass(frozen=True, slots=True)
class Leg:
    """The way from one stay to the next.

    ``left`` is the last night known at the one, ``arrived`` the first known at
    the other. ``metres`` is the geodesic length, None if either place has no
    coordinates. ``by`` are the places on the way between the two, each once,
    ``nights_by`` the nights spent there.
    """

    from_place: str
    to_place: str
    left: date
    arrived: date
    metres: float | None
    by: tuple[str, ...] = ()
    nights_by: int = 0

    @property
    def unknown_nights(self) -> int:
        """Nights between the two of which nothing is known."""
        return (self.arrived - self.left).days - 1 - self.nights_by


def stays(nights: Iterable[tuple[date, str | None]], bridge_unknown: bool = False) -> list[Stay]:
    """The stays in order of time.

    Nights may come in any order; None and missing dates are unknown. A gap of
    unknown nights ends a stay, unless ``bridge_unknown`` and the place after
    it is the same.
    """
    found: list[Stay] = []
    here, first, last, count = None, date.min, date.min, 0
    for night, place_id in sorted((pair for pair in nights if pair[1] is not None), key=itemgetter(0)):
        if place_id == here and (bridge_unknown or night - last <= _ONE_NIGHT):
            count += night != last
        else:
            if here is not None:
                found.append(Stay(here, first, last, count))
            here, first, count = place_id, night, 1
        last = night
    return [*found, Stay(here, first, last, count)] if here is not None else found


def summaries(stays: Iterable[Stay]) -> list[PlaceSummary]:
    """One summary a place, most nights first, then the latest."""
    found: dict[str, PlaceSummary] = {}
    for stay in stays:
        held = found.get(stay.place_id)
        found[stay.place_id] = PlaceSummary(
            stay.place_id,
            stay.nights + (held.nights if held else 0),
            1 + (held.visits if held else 0),
            min(stay.first, held.first) if held else stay.first,
            max(stay.last, held.last) if held else stay.last,
        )
    return sorted(found.values(), key=lambda place: (-place.nights, -place.last.toordinal(), place.place_id))


def legs(
    stays: Iterable[Stay], points: Mapping[str, Point | None], on_the_way: Container[str] = frozenset()
) -> list[Leg]:
    """The ways between consecutive stays at different places, in order of time.

    Nights at places ``on_the_way`` (a ferry, a night train) are no stay: the
    way goes on over them, from the stay before to the stay after.
    """
    found: list[Leg] = []
    before: Stay | None = None
    between: list[Stay] = []
    for stay in stays:
        if stay.place_id in on_the_way:
            between.append(stay)
            continue
        if before is not None and before.place_id != stay.place_id:
            found.append(_leg(before, stay, between, points))
        before, between = stay, []
    return found


def _leg(one: Stay, other: Stay, between: Sequence[Stay], points: Mapping[str, Point | None]) -> Leg:
    by = tuple(dict.fromkeys(stay.place_id for stay in between))
    nights_by = sum(stay.nights for stay in between)
    return Leg(one.place_id, other.place_id, one.last, other.first, _length(one, other, points), by, nights_by)


def _length(one: Stay, other: Stay, points: Mapping[str, Point | None]) -> float | None:
    here, there = points.get(one.place_id), points.get(other.place_id)
    if here is None or there is None:
        return None
    # There and back are the same length: one reckoning serves both.
    return metres_between(*sorted((here, there)))


def kilometres_by_year(legs: Iterable[Leg]) -> dict[int, float]:
    """Kilometres of the measured legs, by the year of arrival, in order."""
    found: dict[int, float] = {}
    for leg in legs:
        if leg.metres is not None:
            found[leg.arrived.year] = found.get(leg.arrived.year, 0.0) + leg.metres / 1000
    return dict(sorted(found.items()))
