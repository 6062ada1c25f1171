"""Stays and journeys for the globe."""

from collections.abc import Iterator, Sequence

from keeper.actions.giving.limits import Limits
from keeper.exchange.out.globe import GivenJourney, GivenStay, Globe
from keeper.exchange.out.tracks import Gpx, Kml
from keeper.model import PlacePage
from keeper.store import nights
from keeper.study.great_circle import line_between
from keeper.study.journeys import Leg, Stay, legs, stays

FORMS = {"globe/where.geojson": Globe, "globe/where.gpx": Gpx, "globe/where.kml": Kml}
"""Where each lies, and what writes it."""


def write_globe(forms: Sequence[Globe | Gpx | Kml], limits: Limits) -> None:
    """Write the stays of the nights that are given, then the journeys between them, in order of time, in each of the forms."""
    places = limits.places
    spent = [(night, place_id) for night, place_id in nights.spent(limits.copy) if limits.night(night) and place_id in places]
    found, said = stays(spent), limits.said
    for stay in found:
        its = said.get(stay.place_id, PlacePage())
        for form in forms:
            form.stay(GivenStay(places[stay.place_id], stay.first, stay.last, stay.nights, its.note, its.roof))
    for journey in _journeys(found, limits):
        for form in forms:
            form.journey(journey)
    for form in forms:
        form.end()


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
