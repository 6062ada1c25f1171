"""Stays and journeys for programs that read neither of the other's forms: GPX 1.1 and KML 2.2.

Both are told in the order their schemas ask for (topografix.com/GPX/1/1/gpx.xsd;
OGC 07-147r2). A night is a day, no moment: GPX has no word for that, so the
nights of a stay stand in its description there.
"""

import re
from collections.abc import Callable
from contextlib import contextmanager
from html import escape
from itertools import chain

from keeper.exchange.out.cells import Out
from keeper.exchange.out.globe import GivenJourney, GivenStay, Positions

_GPX = {
    "version": "1.1", "creator": "Keeper of Days", "xmlns": "http://www.topografix.com/GPX/1/1",
}  # fmt: skip
_KML = {"xmlns": "http://www.opengis.net/kml/2.2"}

# GPX's longitudes end before 180 (longitudeType).
_EAST = 179.999999

# XML 1.0 (2.2) has no way to write these.
_UNWRITABLE = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


class _Xml:
    """Elements within one another."""

    def __init__(self, out: Out) -> None:
        self._out = out
        out.write('<?xml version="1.0" encoding="UTF-8"?>\n')

    def begin(self, name: str, its: dict[str, str]) -> None:
        told = "".join(f' {key}="{escape(value)}"' for key, value in its.items())
        self._out.write(f"<{name}{told}>")

    def end(self, name: str) -> None:
        self._out.write(f"</{name}>\n")

    @contextmanager
    def within(self, name: str, **its: str):
        self.begin(name, its)
        yield
        self.end(name)

    def numbers(self, told: str) -> None:
        """What holds no words: nothing of it need be spelt otherwise."""
        self._out.write(told)

    def words(self, name: str, text: str) -> None:
        if text:
            with self.within(name):
                self._out.write(escape(_UNWRITABLE.sub("", text), quote=False))


class Gpx:
    """Stays as waypoints, then journeys as tracks; ``stay`` and ``journey``, then ``end``."""

    def __init__(self, out: Out) -> None:
        self._xml = _Xml(out)
        self._xml.begin("gpx", _GPX)

    def stay(self, stay: GivenStay) -> None:
        """A waypoint; a place without a position is passed over. Those come before the journeys."""
        if stay.place.point is None:
            return
        with self._xml.within("wpt", **_at(*reversed(stay.place.point))):
            self._xml.words("name", stay.place.name)
            self._xml.words("desc", _nights(stay))

    def journey(self, journey: GivenJourney) -> None:
        """A track, a segment for each piece."""
        with self._xml.within("trk"):
            self._xml.words("name", _way(journey))
            self._xml.words("desc", _when(journey))
            for piece in journey.pieces:
                self._segment(piece)

    def _segment(self, piece: Positions) -> None:
        with self._xml.within("trkseg"):
            # One call for all of a way: there are a hundred thousand such points in fifty years.
            told = [number for longitude, latitude in piece for number in (latitude, longitude if longitude < _EAST else _EAST)]
            self._xml.numbers('<trkpt lat="%.6f" lon="%.6f"/>\n' * len(piece) % tuple(told))

    def end(self) -> None:
        """After the last journey."""
        self._xml.end("gpx")


class Kml:
    """Stays as points and journeys as lines, each with its days; ``stay`` and ``journey``, then ``end``."""

    def __init__(self, out: Out) -> None:
        self._xml = _Xml(out)
        self._xml.begin("kml", _KML)
        self._xml.begin("Document", {})
        self._xml.words("name", "Stays and journeys")

    def stay(self, stay: GivenStay) -> None:
        """A point; a place without a position is passed over."""
        if stay.place.point is not None:
            latitude, longitude = stay.place.point
            told = (stay.place.name, _nights(stay), stay.first.isoformat(), stay.last.isoformat())
            self._placemark(*told, lambda: self._shape("Point", [(longitude, latitude)]))

    def journey(self, journey: GivenJourney) -> None:
        """A line, or several where it is cut."""
        told = (_way(journey), _when(journey), journey.left.isoformat(), journey.arrived.isoformat())
        self._placemark(*told, lambda: self._lines(journey))

    def _placemark(self, name: str, told: str, first: str, last: str, shape: Callable[[], None]) -> None:
        with self._xml.within("Placemark"):
            self._xml.words("name", name)
            self._xml.words("description", told)
            with self._xml.within("TimeSpan"):
                self._xml.words("begin", first)
                self._xml.words("end", last)
            shape()

    def _lines(self, journey: GivenJourney) -> None:
        with self._xml.within("MultiGeometry"):
            for piece in journey.pieces:
                self._shape("LineString", piece)

    def _shape(self, name: str, points: Positions) -> None:
        with self._xml.within(name):
            self._xml.words("coordinates", ("%.6f,%.6f " * len(points) % tuple(chain.from_iterable(points))).rstrip())

    def end(self) -> None:
        """After the last of them."""
        self._xml.end("Document")
        self._xml.end("kml")


def _at(longitude: float, latitude: float) -> dict[str, str]:
    return {"lat": f"{latitude:.6f}", "lon": f"{min(longitude, _EAST):.6f}"}


def _nights(stay: GivenStay) -> str:
    where = ", ".join(word for word in (stay.place.region, stay.place.country) if word)
    counted = "1 night" if stay.nights == 1 else f"{stay.nights} nights"
    days = stay.first.isoformat() if stay.first == stay.last else f"{stay.first.isoformat()} to {stay.last.isoformat()}"
    told = "; ".join(part for part in (stay.roof, where, days, counted) if part)
    return "\n\n".join(part for part in (told, stay.note) if part)


def _way(journey: GivenJourney) -> str:
    return f"{journey.from_place} to {journey.to_place}"


def _when(journey: GivenJourney) -> str:
    by = f"; by {', '.join(journey.by)}" if journey.by else ""
    return f"{journey.left.isoformat()} to {journey.arrived.isoformat()}; {journey.kilometres:.0f} kilometres{by}"
