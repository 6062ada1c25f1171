"""Coordinates as people type them; zones of points."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.errors import KeeperError
from keeper.study.where import UnreadableCoordinates, read_coordinates, write_coordinates, zone_at

HARBOUR = (54.352, 18.6466)


@pytest.mark.parametrize(
    "typed",
    [
        "54.3520, 18.6466",
        "54.3520 18.6466",
        "  54.3520,18.6466 ",
        "54,3520; 18,6466",
        "54,3520 18,6466",
        "54,3520, 18,6466",
        "+54.3520 +018.6466",
        "54.3520 N, 18.6466 E",
        "18.6466 E, 54.3520 N",
        "n 54.3520 e 18.6466",
        "north 54.3520, east 18.6466",
        "54.352\u00b0 18.6466\u00b0",
        "(54.352, 18.6466)",
        "geo:54.352,18.6466",
        "lat 54.352 lon 18.6466",
        "Latitude: 54.352, Longitude: 18.6466",
    ],
)
def test_decimal_degrees(typed):
    assert read_coordinates(typed) == HARBOUR


@pytest.mark.parametrize(
    "typed",
    [
        "54\u00b021\u203207\u2033 N, 18\u00b038\u203248\u2033 E",
        "54\u00b021'07\"N 18\u00b038'48\"E",
        "54\u00b0 21\u2019 07\u201d N, 18\u00b0 38\u2019 48\u201d E",
        "54\u00b021'07''N, 18\u00b038'48''E",
        "N54\u00b021'07\" E018\u00b038'48\"",
        "54 21 07 N 18 38 48 E",
        "54 21 07, 18 38 48",
        "54 21 07 18 38 48",
        "54d21m07s N 18d38m48s E",
        "54 deg 21' 7.00\" N, 18 deg 38' 48.00\" E",
        "E 18 38 48, N 54 21 07",
        "54\u00b021,11667' 18\u00b038,8'",
    ],
)
def test_degrees_minutes_seconds(typed):
    expected = (54 + 21 / 60 + 7 / 3600, 18 + 38 / 60 + 48 / 3600)
    assert read_coordinates(typed) == pytest.approx(expected, abs=1e-7)


@pytest.mark.parametrize(
    "typed, expected",
    [
        ("-41.29, 174.78", (-41.29, 174.78)),
        ("\u221233.9, \u221270.7", (-33.9, -70.7)),
        ("41.5 S, 70.25 W", (-41.5, -70.25)),
        ("41d30m00s S 70d15m00s W", (-41.5, -70.25)),
        ("0\u00b030' S 0\u00b030' W", (-0.5, -0.5)),
        ("-0 30, -0 30", (-0.5, -0.5)),
        ("90, 180", (90, 180)),
        ("-90 -180", (-90, -180)),
    ],
)
def test_south_and_west(typed, expected):
    assert read_coordinates(typed) == pytest.approx(expected)


@pytest.mark.parametrize(
    "typed, why",
    [
        ("", "No coordinates"),
        ("  ", "No coordinates"),
        ("by the old mill", "needs one of N or S|is not a latitude"),
        ("54", "is not a latitude"),
        ("54, 18, 3", "is not a latitude"),
        ("nan, 3", "N or S|is not a latitude"),
        ("54 N 18 N", "N or S"),
        ("54 N 18", "N or S"),
        ("54 61 N, 18 E", "60 or more"),
        ("-54 N, 18 E", "both a sign and the letter N"),
        ("54.5 20 N, 18 E", "fraction before the last"),
        ("118, 45", "wrong way round"),
        ("200, 300", "no point at"),
        ("91 N, 181 E", "no point at"),
        ("9" * 5000, "too long"),
    ],
)
def test_what_is_amiss_is_said(typed, why):
    with pytest.raises(UnreadableCoordinates, match=why) as told:
        read_coordinates(typed)
    assert isinstance(told.value, KeeperError)
    assert str(told.value)[-1] in ".?" and len(str(told.value)) < 300


@given(st.text("0123456789.,;+-NSEW\u00b0'\" \u2032\u2033msdO\u0663\n", max_size=40) | st.text(max_size=40))
def test_whatever_is_typed_is_read_or_refused(typed):
    try:
        latitude, longitude = read_coordinates(typed)
    except UnreadableCoordinates:
        return
    assert abs(latitude) <= 90 and abs(longitude) <= 180


@given(st.floats(-90, 90), st.floats(-180, 180), st.booleans())
def test_written_coordinates_are_read_again(latitude, longitude, sexagesimal):
    written = write_coordinates(latitude, longitude, sexagesimal)
    off = 0.5 / 3600 if sexagesimal else 0.5e-4
    assert read_coordinates(written) == pytest.approx((latitude, longitude), abs=off * 1.001)


def test_no_sixty_seconds_are_written():
    written = write_coordinates(53.99999, -0.99999, sexagesimal=True)
    assert written == "54\u00b000\u203200\u2033 N, 1\u00b000\u203200\u2033 W"


@pytest.mark.parametrize("point", [(90, 0), (-90, 0), (0, 180), (0, -180), (0, 0), (-48.9, -123.4)])
def test_every_point_has_a_zone(point):
    assert "/" in zone_at(*point)


def test_a_point_off_the_earth_has_none():
    with pytest.raises(UnreadableCoordinates):
        zone_at(91, 0)
    with pytest.raises(UnreadableCoordinates):
        zone_at(float("nan"), 0)
