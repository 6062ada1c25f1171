"""Stays and journeys as GPX 1.1 and KML 2.2, against what their schemas say."""

import io
import json
from dataclasses import replace
from datetime import date
from xml.etree import ElementTree

import gpxpy
import pytest

from keeper.exchange.out.globe import GivenJourney, GivenStay, Globe
from keeper.exchange.out.tracks import Gpx, Kml
from keeper.model import Place
from keeper.study.great_circle import line_between

NIGHT, LATER = date(2026, 11, 14), date(2026, 11, 16)
SUVA = GivenStay(Place("p", "Suva & \u201cthe\x07 <harbour>\u201d", "Rewa", "FJ", latitude=-18.1, longitude=178.4), NIGHT, LATER, 3)
FERRY = GivenStay(Place("q", "A ferry", latitude=1.0, longitude=2.0, on_the_way=True), NIGHT, NIGHT, 1)
TO_APIA = GivenJourney("Suva", "Apia", NIGHT, LATER, 1150.0, ("A ferry",), line_between((-18.1, 178.4), (-13.8, -171.8)))

# OGC 07-147r2, annex B: the order of a Feature's elements, then a Placemark's geometry.
IN_ORDER = ("name", "visibility", "open", "description", "TimeSpan", "Point", "MultiGeometry")


def given(form) -> str:
    out = io.StringIO()
    written = form(out)
    written.stay(SUVA)
    written.stay(FERRY)
    written.journey(TO_APIA)
    written.end()
    return out.getvalue()


def test_gpx_is_read_by_another_with_its_longitudes_below_180():
    text = given(Gpx)
    found = gpxpy.parse(text)
    [stay], [journey] = found.waypoints, found.tracks
    assert (stay.name, stay.latitude, stay.longitude) == ("Suva & \u201cthe <harbour>\u201d", -18.1, 178.4)
    assert stay.description == "Rewa, FJ; 2026-11-14 to 2026-11-16; 3 nights"
    assert (journey.name, journey.description) == ("Suva to Apia", "2026-11-14 to 2026-11-16; 1150 kilometres; by A ferry")
    # gpx.xsd: longitudeType is from -180 to below 180.
    first, second = journey.segments
    assert first.points[-1].longitude == 179.999999 and second.points[0].longitude == -180
    # gpx.xsd: wpt before trk, name before desc.
    root = ElementTree.fromstring(text)
    assert root.get("version") == "1.1" and [_bare(one) for one in root] == ["wpt", "trk"]
    assert [_bare(one) for one in root[0]] == ["name", "desc"]


def test_kml_keeps_to_the_order_of_its_schema_with_longitude_first():
    root = ElementTree.fromstring(given(Kml))
    assert root.tag == "{http://www.opengis.net/kml/2.2}kml"
    [document] = root
    name, stay, journey = document
    assert [_bare(one) for one in (name, stay, journey)] == ["name", "Placemark", "Placemark"]
    for mark in (stay, journey):
        places = [IN_ORDER.index(_bare(one)) for one in mark]
        assert places == sorted(places) and [_bare(one) for one in mark[2]] == ["begin", "end"]
    assert [one.text for one in stay[2]] == ["2026-11-14", "2026-11-16"]
    assert stay[3][0].text == "178.400000,-18.100000"
    assert [_bare(one) for one in journey[3]] == ["LineString", "LineString"]


@pytest.mark.parametrize("form", [Gpx, Kml])
def test_nothing_to_tell_is_still_whole(form):
    out = io.StringIO()
    form(out).end()
    assert not ElementTree.fromstring(out.getvalue()).findall(".//{*}Placemark")


def _bare(element: ElementTree.Element) -> str:
    return element.tag.partition("}")[2]


def test_what_is_said_of_a_place_goes_with_its_stays_in_each_form():
    told = replace(SUVA, note="The third floor.\nFrau Ohlsen has the key.", roof="room")
    out = [io.StringIO() for _ in range(3)]
    forms = [Gpx(out[0]), Kml(out[1]), Globe(out[2])]
    for form in forms:
        form.stay(told)
        form.end()
    said = "room; Rewa, FJ; 2026-11-14 to 2026-11-16; 3 nights\n\nThe third floor.\nFrau Ohlsen has the key."
    assert gpxpy.parse(out[0].getvalue()).waypoints[0].description == said
    assert ElementTree.fromstring(out[1].getvalue()).findtext(".//{*}Placemark/{*}description") == said
    [feature] = json.loads(out[2].getvalue())["features"]
    assert (feature["properties"]["note"], feature["properties"]["what_it_is"]) == (told.note, "room")
