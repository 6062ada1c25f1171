"""The program's words for places: where, when, how often, how far."""

from collections.abc import Iterable

from PySide6.QtCore import QLocale

from keeper.model import Place
from keeper.review.places import MergedInto, PlaceKept, PlacesView, Travels
from keeper.study.journeys import Leg, Stay
from keeper.study.where import write_coordinates
from keeper.town import natural_region
from keeper.window.desk import wording

_VISITS_TOLD = 4
_WITHIN_TOLD = 3
_WAYS_NAMED = 2


def kilometres(metres: float) -> str:
    """Such as 12,480 km; under ten with one decimal."""
    far = metres / 1000
    return f"{wording.number(far, 1 if far < 9.95 else 0)} km"


def country(code: str) -> str:
    """A country's English name from its ISO 3166-1 alpha-2 code."""
    territory = QLocale.codeToTerritory(code) if code else QLocale.Country.AnyCountry
    return QLocale.territoryToString(territory) if territory != QLocale.Country.AnyCountry else code


_ROOFS = {
    "home": "home", "with someone": "with someone", "room": "a room", "inn": "an inn", "canvas": "under canvas",
    "on board": "on board", "in care": "in care",
}  # fmt: skip


def roof(of: str) -> str:
    """What a place is, such as "an inn"; "" for nothing said."""
    return _ROOFS.get(of, of)


def lies_in(place: Place) -> str:
    """Such as Pomerania, Poland."""
    return ", ".join(part for part in (natural_region(place.region), country(place.country)) if part)


def position(place: Place) -> str:
    """A place's coordinates and time zone, or that it has none."""
    if place.on_the_way:
        return "On the way: it has no position of its own."
    if place.point is None:
        return "No position yet"
    return " \u00b7 ".join(filter(None, (write_coordinates(*place.point), place.zone)))


def kept(one: PlaceKept) -> str:
    """How often one was at a place, and from when to when."""
    if one.last is None:
        return "No night was spent here yet."
    nights = wording.counted(one.nights, "night")
    if one.visits == 1:
        return f"{nights}, {wording.span(one.first, one.last)}"
    return f"{nights} in {wording.number(one.visits)} visits, from {wording.shorter_date(one.first)} to {wording.shorter_date(one.last)}"


def visits(stays: tuple[Stay, ...]) -> str:
    """The latest visits; "" for a single one, which is told already."""
    if len(stays) < 2:
        return ""
    told = "; ".join(wording.span(stay.first, stay.last) for stay in stays[:_VISITS_TOLD])
    more = len(stays) - _VISITS_TOLD
    return f"There {told}" + (f", and {wording.counted(more, 'earlier time')}" if more > 0 else "")


def merged(one: MergedInto) -> str:
    """Such as: Belfast was merged into this on 3 Mar 2026."""
    *names, last = one.within or ("",)
    if len(names) >= _WITHIN_TOLD:
        names, last = [], wording.counted(len(one.within), "other place")
    within = " and ".join(filter(None, (", ".join(names), last)))
    return f"{one.name} was merged into this on {wording.shorter_date(one.on)}{f', with {within} in it' if within else ''}."


def been(view: PlacesView) -> str:
    """How many nights at how many places."""
    if not view.nights:
        return "No night has a place yet. Say where you are on the page of a night, and it will appear here."
    when = f" in {view.year}" if view.year else ""
    if view.year is None and len(view.years) > 1:
        when = f" in {len(view.years)} years"
    return f"{wording.counted(view.nights, 'night')} at {wording.counted(view.been, 'place')}{when}"


def by_way(travels: Travels) -> str:
    """Such as: 62 times by way of The night ferry."""
    over = travels.by_way
    return f"{wording.counted(len(over), 'time')} {_by(travels, [at for leg in over for at in leg.by])}"


def journey(travels: Travels, leg: Leg) -> str:
    """Such as: 3 Nov 2026 · Lübeck to Turku, by way of The night ferry · 1,020 km."""
    told = f"{travels.names.get(leg.from_place, '')} to {travels.names.get(leg.to_place, '')}"
    told += f", {_by(travels, leg.by)}" if leg.by else ""
    over = f"over {wording.counted(leg.unknown_nights, 'unknown night')}" if leg.unknown_nights else ""
    far = kilometres(leg.metres) if leg.metres is not None else ""
    return " \u00b7 ".join(filter(None, (wording.shorter_date(leg.arrived), told, over, far)))


def _by(travels: Travels, places: Iterable[str]) -> str:
    names = list(dict.fromkeys(travels.names.get(at, "") for at in places))
    if len(names) > _WAYS_NAMED:
        return f"by way of {wording.counted(len(names), 'place')} on the way"
    return f"by way of {' and '.join(names)}"


def travelled(travels: Travels) -> str:
    """How far from place to place, and what is not in it; "" when there was no journey."""
    told = f"{kilometres(travels.metres)} from place to place, as the crow flies" if travels.metres else ""
    told += f", {by_way(travels)}" if told and travels.by_way else ""
    untold = []
    if travels.open_legs:
        untold.append(f"{wording.counted(len(travels.open_legs), 'journey')} over unknown nights")
    if travels.unmeasured:
        untold.append(f"{wording.counted(travels.unmeasured, 'journey')} to or from places without a position")
    left_out = " and ".join(untold) + (" not counted" if told and untold else "")
    return "; ".join(part for part in (told, left_out) if part)
