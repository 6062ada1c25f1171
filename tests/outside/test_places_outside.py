"""Places against published sources, each named beside its check."""

import re
from importlib.resources import files

import pytest
from geographiclib.test import test_geodesic

from keeper.earth import metres_between
from keeper.shipped import resource
from keeper.store.places.towns import Gazetteer
from keeper.store.places.towns_file import unpack
from keeper.study.where import read_coordinates, zone_at

# Published with GeographicLib (C. F. F. Karney); carried by its Python package:
# latitude, longitude, azimuth, latitude, longitude, azimuth, metres, and more.
PUBLISHED = next(
    case.testcases for case in vars(test_geodesic).values() if isinstance(getattr(case, "testcases", None), list)
)

# https://www.geonames.org/NUMBER of each; the numbers are from memory.
GEONAMES = {
    "London": (2643743, "GB"),
    "Paris": (2988507, "FR"),
    "Berlin": (2950159, "DE"),
    "Munich": (2867714, "DE"),
    "Moscow": (524901, "RU"),
    "New York": (5128581, "US"),
    "Tokyo": (1850147, "JP"),
    "Sydney": (2147714, "AU"),
    "Cairo": (360630, "EG"),
    "Reykjavik": (3413829, "IS"),
}

# IANA time zone database, zone.tab: the point beside each zone, in its own
# spelling (ISO 6709, degrees and minutes, then seconds if any).
IANA = {
    "Europe/London": "+513030-0000731",
    "Europe/Warsaw": "+5215+02100",
    "Europe/Oslo": "+5955+01045",
    "America/New_York": "+404251-0740023",
    "America/Los_Angeles": "+340308-1181434",
    "Asia/Tokyo": "+353916+1394441",
    "Asia/Kolkata": "+2232+08822",
    "Australia/Sydney": "-3352+15113",
    "Pacific/Auckland": "-3652+17446",
    "Africa/Cairo": "+3003+03115",
}


@pytest.fixture(scope="module")
def towns(tmp_path_factory):
    gazetteer = Gazetteer(unpack(tmp_path_factory.mktemp("cache"), resource("gazetteer")))
    yield gazetteer
    gazetteer.close()


def iso6709(spelt):
    """Latitude and longitude from IANA's spelling, through what a person would type."""
    halves = re.fullmatch(r"([+-])(\d\d)(\d\d)(\d\d)?([+-])(\d{3})(\d\d)(\d\d)?", spelt).groups("00")
    return read_coordinates("{}{} {} {}, {}{} {} {}".format(*halves))


def test_the_documented_example():
    # GeographicLib for Python, Examples: "The distance from Wellington, NZ to
    # Salamanca, Spain".
    assert metres_between((-41.32, 174.81), (40.96, -5.50)) == pytest.approx(19_959_679.267, abs=0.001)


@pytest.mark.parametrize("case", PUBLISHED)
def test_the_published_geodesics(case):
    lat, lon, _, lat2, lon2, _, metres, *_ = case
    assert metres_between((lat, lon), (lat2, lon2)) == pytest.approx(metres, abs=1e-8)


@pytest.mark.parametrize("name", GEONAMES)
def test_ids_of_well_known_towns(towns, name):
    first = towns.look_up(name)[0]
    assert (first.geoname_id, first.country) == GEONAMES[name]


@pytest.mark.parametrize("zone", IANA)
def test_zones_of_well_known_points(zone):
    assert zone_at(*iso6709(IANA[zone])) == zone


def test_zones_of_all_points_of_iana():
    rows = files("tzdata").joinpath("zoneinfo/zone.tab").read_text(encoding="utf-8").splitlines()
    points = {zone: point for _, point, zone, *_ in (row.split("\t") for row in rows if row[0] != "#")}
    assert {zone: points[zone] for zone in IANA} == IANA
    wrong = {zone for zone, point in points.items() if zone_at(*iso6709(point)) != zone}
    # Urumqi keeps two times at once; Monaco is narrower than the outline.
    assert len(points) > 400
    assert wrong <= {"Asia/Urumqi", "Europe/Monaco"}


@pytest.mark.parametrize("zone", IANA)
def test_the_town_at_the_point_keeps_the_same_time(towns, zone):
    assert towns.nearest(*iso6709(IANA[zone])).zone == zone
