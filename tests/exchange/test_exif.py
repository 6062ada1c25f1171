"""Dates, offsets and positions as cameras write them, well and badly."""

from datetime import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.exchange import exif

NAN = float("nan")


@pytest.mark.parametrize(
    ("spelt", "taken"),
    [
        ("2024:02:29 23:59:59", datetime(2024, 2, 29, 23, 59, 59)),
        ("2024:02:29 23:59:59\0\0", datetime(2024, 2, 29, 23, 59, 59)),
        (b"2011:01:13 14:33:39\0", datetime(2011, 1, 13, 14, 33, 39)),
        ("2011-01-13T14:33:39+01:00", datetime(2011, 1, 13, 14, 33, 39)),
        ("2011:1:3 4:05", datetime(2011, 1, 3, 4, 5)),
        ("0000:00:00 00:00:00", None),
        ("    :  :     :  :  ", None),
        ("2023:02:29 12:00:00", None),
        ("2023:13:01 12:00:00", None),
        ("2023:01:01 24:00:00", None),
        ("0001:01:01 00:00:00", None),
        # Its small hours are of the night before, and there is none.
        ("1800:01:01 02:00:00", None),
        ("1800:01:02 02:00:00", datetime(1800, 1, 2, 2)),
        ("", None),
        ("soon", None),
        (20240229, None),
        (None, None),
    ],
)
def test_a_date_is_read_or_left(spelt, taken):
    assert exif.taken_local({0x9003: spelt}) == taken


def test_the_dates_of_scanning_and_saving_are_not_the_date_of_taking():
    assert exif.taken_local({0x9004: "2024:01:01 10:00:00", 0x0132: "2024:01:01 10:00:00"}) is None


@pytest.mark.parametrize(
    ("spelt", "minutes"),
    [
        ("+05:45", 345), ("-03:30", -210), ("+00:00", 0), ("Z", 0), ("+14:00", 840), ("-12:00", -720), ("+0100", 60),
        ("   :  ", None), ("", None), ("+99:99", None), ("+14:01", None), ("05:45", None), (345, None), (None, None),
    ],
)  # fmt: skip
def test_an_offset_is_read_or_left(spelt, minutes):
    assert exif.offset_minutes({0x9011: spelt}) == minutes


@pytest.mark.parametrize(
    ("north", "latitude", "east", "longitude", "point"),
    [
        ("N", (54, 30, 36), "E", (21, 15, 0), (54.51, 21.25)),
        ("S", (54, 30, 36), "E", (21, 15, 0), (-54.51, 21.25)),
        ("N", (54, 30, 36), "W", (21, 15, 0), (54.51, -21.25)),
        ("S", (54, 30, 36), "W", (21, 15, 0), (-54.51, -21.25)),
        ("N", (48, 53.25, NAN), "E", (21, 2.5, NAN), (48.8875, 21 + 2.5 / 60)),
        (b"N\0", (90, 0, 0), b"E\0", (180, 0, 0), (90.0, 180.0)),
        ("N", (48.5, 0), "E", (21.5, 0), (48.5, 21.5)),
        ("N", (0, 0, 0), "E", (0, 0, 0), None),
        ("N", (NAN, NAN, NAN), "E", (21, 15, 0), None),
        ("N", (54, NAN, 0), "E", (21, 15, 0), None),
        ("N", (91, 0, 0), "E", (21, 15, 0), None),
        ("N", (54, 0, 0), "E", (181, 0, 0), None),
        ("", (54, 0, 0), "E", (21, 0, 0), None),
        ("E", (54, 0, 0), "N", (21, 0, 0), None),
        ("N", None, "E", (21, 0, 0), None),
        ("N", (54,), "E", (21, 0, 0), None),
        ("N", ("a", "b", "c"), "E", (21, 0, 0), None),
        ("N", (float("inf"), 0, 0), "E", (21, 0, 0), None),
    ],
)
def test_a_position_is_read_or_left(north, latitude, east, longitude, point):
    found = exif.position({1: north, 2: latitude, 3: east, 4: longitude})
    assert found == (pytest.approx(point) if point else None)


_ANY = st.one_of(st.none(), st.text(max_size=30), st.binary(max_size=30), st.floats(), st.integers(),
                 st.lists(st.one_of(st.floats(), st.integers(), st.text(max_size=3)), max_size=5))  # fmt: skip


@given(st.dictionaries(st.sampled_from([1, 2, 3, 4, 0x9003, 0x9011]), _ANY))
def test_nothing_in_exif_makes_it_raise(tags):
    taken, minutes, point = exif.taken_local(tags), exif.offset_minutes(tags), exif.position(tags)
    assert taken is None or taken.year >= 1800
    assert minutes is None or abs(minutes) <= 840
    assert point is None or (abs(point[0]) <= 90 and abs(point[1]) <= 180)
