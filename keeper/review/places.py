"""Where one has been: what the Places page and a place's own page show."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from types import MappingProxyType

from keeper.earth import Point
from keeper.model import Photo, Place, PlacePage
from keeper.study.journeys import Leg, Stay, kilometres_by_year, legs, stays, summaries

Spent = Sequence[tuple[date, str]]
"""Nights whose place is known, with the id of that place."""


_NOTHING_SAID = PlacePage()


@dataclass(frozen=True, slots=True)
class PlaceKept:
    """A place with its known nights in the years shown; without one, ``first`` and ``last`` are None.

    ``roof`` is what the person says that it is, or "".
    """

    place: Place
    nights: int = 0
    visits: int = 0
    first: date | None = None
    last: date | None = None
    roof: str = ""

    @property
    def point(self) -> Point | None:
        """Latitude and longitude in degrees, or None if not known."""
        return self.place.point


@dataclass(frozen=True, slots=True)
class PlacesView:
    """The places of all years (``year`` is None) or of one, most nights first.

    ``years`` are all years with a known night, newest first. Places without a
    night stand at the end, and only when all years are shown. ``stays`` are in
    order of time.
    """

    year: int | None
    years: tuple[int, ...]
    places: tuple[PlaceKept, ...]
    stays: tuple[Stay, ...]

    @property
    def nights(self) -> int:
        """How many nights have a known place."""
        return sum(stay.nights for stay in self.stays)

    @property
    def been(self) -> int:
        """How many places have a night."""
        return sum(1 for kept in self.places if kept.nights)


@dataclass(frozen=True, slots=True)
class Way:
    """All journeys between two places, there and back, as one line of the map.

    Points are latitude and longitude in degrees. ``unsure`` when each of the
    journeys has unknown nights in it. ``legs`` are the journeys, latest first.
    """

    here: Point
    there: Point
    times: int
    latest: date
    unsure: bool
    legs: tuple[Leg, ...] = ()


@dataclass(frozen=True, slots=True)
class Travels:
    """The journeys of all years or of one, by the year of arrival.

    ``kilometres`` are those of each year there is, whichever is shown. ``ways``
    are latest first. ``open_legs`` have unknown nights in them: they are drawn,
    but not counted, unless the person joins them up. ``names`` are those of the
    places that the journeys go from, to and by way of.
    """

    legs: tuple[Leg, ...]
    kilometres: Mapping[int, float]
    ways: tuple[Way, ...]
    open_legs: tuple[Leg, ...] = ()
    names: Mapping[str, str] = field(default_factory=dict)

    @property
    def by_way(self) -> tuple[Leg, ...]:
        """The journeys that go over a place on the way, such as a ferry."""
        return tuple(leg for leg in self.legs if leg.by)

    @property
    def metres(self) -> float:
        """The length of those journeys that have one."""
        return sum(leg.metres for leg in self.legs if leg.metres is not None)

    @property
    def unmeasured(self) -> int:
        """How many journeys have no length, for want of a position."""
        return sum(1 for leg in self.legs if leg.metres is None)


@dataclass(frozen=True, slots=True)
class PlaceView:
    """A place's own page. ``stays`` are newest first; ``photo`` is the one that stands for it."""

    kept: PlaceKept
    stays: tuple[Stay, ...]
    lines: int
    photos: int
    said: PlacePage = _NOTHING_SAID
    photo: Photo | None = None


@dataclass(frozen=True, slots=True)
class MergedInto:
    """A place that was merged into another and can be taken apart: the merge's id, its name, the day.

    ``within`` are the names of the places that had been merged into that one.
    """

    id: str
    name: str
    on: date
    within: tuple[str, ...] = ()


def places_view(
    spent: Spent, places: Iterable[Place], year: int | None = None, joined: bool = False,
    said: Mapping[str, PlacePage] = MappingProxyType({}),
) -> PlacesView:  # fmt: skip
    """Where one has been. ``joined``: unknown nights between two at the same place are one stay; ``said`` of places, by id."""
    shown = [pair for pair in spent if year in (None, pair[0].year)]
    its_stays = stays(shown, joined)
    by_id = {place.id: place for place in places}
    been = summaries(its_stays)
    kept = [
        PlaceKept(by_id[one.place_id], one.nights, one.visits, one.first, one.last)
        for one in been
        if one.place_id in by_id
    ]
    if year is None:
        slept_at = {one.place_id for one in been}
        kept += [PlaceKept(place) for place in by_id.values() if place.id not in slept_at]
    kept = [replace(one, roof=said[one.place.id].roof) if one.place.id in said else one for one in kept]
    years = sorted({night.year for night, _ in spent}, reverse=True)
    return PlacesView(year, tuple(years), tuple(kept), tuple(its_stays))


def travels(spent: Spent, places: Iterable[Place], year: int | None = None, joined: bool = False) -> Travels:
    """The journeys between stays, with their lengths; some 0.1 ms for each new pair of places.

    A journey with unknown nights in it counts only when ``joined``: where one
    was in between is not known. One over nights on the way counts from the stay
    before to the stay after.
    """
    known = {place.id: place for place in places}
    points = {place.id: place.point for place in known.values()}
    every = legs(stays(spent, joined), points, {place.id for place in known.values() if place.on_the_way})
    counted = [leg for leg in every if joined or not leg.unknown_nights]
    shown = [leg for leg in every if year in (None, leg.arrived.year)]
    return Travels(
        tuple(leg for leg in shown if joined or not leg.unknown_nights),
        kilometres_by_year(counted),
        _ways(shown, points, joined),
        tuple(leg for leg in shown if leg.unknown_nights and not joined),
        {at: known[at].name for leg in shown for at in (leg.from_place, leg.to_place, *leg.by) if at in known},
    )


def _ways(shown: Iterable[Leg], points: Mapping[str, Point | None], joined: bool) -> tuple[Way, ...]:
    found: dict[tuple[Point, Point], Way] = {}
    for leg in shown:
        here, there = points.get(leg.from_place), points.get(leg.to_place)
        if here is None or there is None or here == there:
            continue
        ends, unsure = tuple(sorted((here, there))), leg.unknown_nights > 0 and not joined
        held = found.get(ends)
        if held is None:
            found[ends] = Way(*ends, 1, leg.arrived, unsure, (leg,))
        else:
            found[ends] = replace(held, times=held.times + 1, latest=leg.arrived, unsure=held.unsure and unsure,
                                  legs=(leg, *held.legs))  # fmt: skip
    return tuple(sorted(found.values(), key=lambda way: way.latest, reverse=True))


def place_view(place: Place, nights: Iterable[date], lines: int, photos: int) -> PlaceView:
    """A place's own page, from all its nights."""
    its_stays = stays((night, place.id) for night in nights)
    summed = summaries(its_stays)
    kept = PlaceKept(place)
    if summed:
        one = summed[0]
        kept = PlaceKept(place, one.nights, one.visits, one.first, one.last)
    return PlaceView(kept, tuple(reversed(its_stays)), lines, photos)
