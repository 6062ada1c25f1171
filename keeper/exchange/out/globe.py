"""Stays and journeys on the globe: GeoJSON (RFC 7946).

Longitude comes first (3.1.1), degrees of WGS 84 (4). A line that crosses the
antimeridian comes in pieces that end there (3.1.9). There are no areas, so the
right-hand rule (3.1.6) has nothing to hold.
"""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from keeper.exchange.out.cells import Out
from keeper.model import Place

_ENCODE = json.JSONEncoder(ensure_ascii=False).encode

Positions = Sequence[tuple[float, float]]
"""Points as longitude and latitude."""


@dataclass(frozen=True, slots=True)
class GivenStay:
    """Nights at one place, both ends included; ``note`` is the person's on it, ``roof`` what it is, either may be ""."""

    place: Place
    first: date
    last: date
    nights: int
    note: str = ""
    roof: str = ""


@dataclass(frozen=True, slots=True)
class GivenJourney:
    """The way from one place to another: ``pieces`` are parted where it crosses the antimeridian."""

    from_place: str
    to_place: str
    left: date
    arrived: date
    kilometres: float
    by: tuple[str, ...]
    pieces: Sequence[Positions]


class Globe:
    """A collection of features under way: ``stay`` and ``journey``, then ``end``."""

    def __init__(self, out: Out) -> None:
        self._out, self._between = out, "\n"
        out.write('{"type": "FeatureCollection", "features": [')

    def _feature(self, geometry: dict, properties: dict) -> None:
        feature = {"type": "Feature", "geometry": geometry, "properties": properties}
        self._out.write(f"{self._between}{_ENCODE(feature)}")
        self._between = ",\n"

    def stay(self, stay: GivenStay) -> None:
        """A point; a place without a position is passed over."""
        if stay.place.point is None:
            return
        latitude, longitude = stay.place.point
        self._feature(
            {"type": "Point", "coordinates": [longitude, latitude]},
            {
                "what": "stay", "place": stay.place.name, "region": stay.place.region, "country": stay.place.country,
                "first_night": stay.first.isoformat(), "last_night": stay.last.isoformat(), "nights": stay.nights,
                **{name: told for name, told in (("what_it_is", stay.roof), ("note", stay.note)) if told},
            },
        )  # fmt: skip

    def journey(self, journey: GivenJourney) -> None:
        """A line, or several where it is cut."""
        # A hand's breadth (RFC 7946, 11.2); what lies between two places is drawn, not measured.
        pieces = [[(round(longitude, 6), round(latitude, 6)) for longitude, latitude in piece] for piece in journey.pieces]
        one = len(pieces) == 1
        self._feature(
            {"type": "LineString" if one else "MultiLineString", "coordinates": pieces[0] if one else pieces},
            {
                "what": "journey", "from": journey.from_place, "to": journey.to_place, "by": list(journey.by),
                "left": journey.left.isoformat(), "arrived": journey.arrived.isoformat(),
                "kilometres": round(journey.kilometres, 1),
            },
        )  # fmt: skip

    def end(self) -> None:
        """After the last feature."""
        self._out.write("\n]}\n")
