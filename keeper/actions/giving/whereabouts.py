"""Stays and journeys for the globe."""

from collections.abc import Iterator

from keeper.actions.giving.limits import Limits
from keeper.exchange.out.cells import Out
from keeper.exchange.out.globe import GivenJourney, GivenStay, Globe
from keeper.store import nights
from keeper.study.great_circle import line_between
from keeper.study.journeys import Leg, Stay, legs, stays


def write_globe(out: Out, limits: Limits) -> None:
    """Write the stays of the nights that are given, and the journeys between them, in order of time."""
    globe, places = Globe(out), limits.places
    spent = [(night, place_id) for night, place_id in nights.spent(limits.copy) if limits.night(night) and place_id in places]
    found = stays(spent)
    for stay in found:
        globe.stay(GivenStay(places[stay.place_id], stay.first, stay.last, stay.nights))
    for journey in _journeys(found, limits):
        globe.journey(journey)
    globe.end()


def _journeys(found: list[Stay], limits: Limits) -> Iterator[GivenJourney]:
    places = limits.places
    points = {key: place.point for key, place in places.items()}
    moving = frozenset(key for key, place in places.items() if place.on_the_way)
    for leg in legs(found, points, moving):
        if leg.metres is not None:
            yield _journey(leg, limits)


def _journey(leg: Leg, limits: Limits) -> GivenJourney:
    here, there = limits.places[leg.from_place], limits.places[leg.to_place]
    by = tuple(limits.places[key].name for key in leg.by)
    pieces = line_between(here.point, there.point)
    return GivenJourney(here.name, there.name, leg.left, leg.arrived, leg.metres / 1000, by, pieces)
