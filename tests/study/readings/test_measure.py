"""Units converted, and readings of old scales beside those of now."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.model import Reading, Tracker
from keeper.study.readings.measure import converted, convertible, on_axis, spelt

NIGHT = date(2026, 6, 3)
WAKING = Tracker("t", "waking", "amount", None, None, "\u00b0C", "neither", date(2020, 1, 1))
MOOD = Tracker("m", "mood", "scale", 0.0, 10.0, "", "higher", date(2020, 1, 1))


@pytest.mark.parametrize(
    ("value", "unit", "to", "now"),
    [
        # The fixed points of the scales, and where they meet (NIST SP 811, B.8).
        (0.0, "\u00b0C", "\u00b0F", 32.0), (100.0, "\u00b0C", "\u00b0F", 212.0), (-40.0, "\u00b0F", "\u00b0C", -40.0), (98.6, "\u00b0F", "\u00b0C", 37.0),
        (1.0, "mi", "km", 1.609344), (1.0, "lb", "kg", 0.45359237), (1.0, "in", "cm", 2.54), (1.0, "kcal", "kJ", 4.184), (250.0, "ml", "l", 0.25),
    ],
)  # fmt: skip
def test_units_are_converted_as_they_are_defined(value, unit, to, now):
    assert converted(value, unit, to) == pytest.approx(now, abs=1e-9)


def test_what_cannot_be_converted_is_not():
    assert not convertible("cups", "km") and not convertible("", "km") and convertible("cups", "cups")
    with pytest.raises(LookupError):
        converted(1.0, "cups", "km")


@pytest.mark.parametrize(("typed", "unit"), [("celsius", "\u00b0C"), (" F ", "\u00b0F"), ("\u2103", "\u00b0C"), ("KM", "km"), ("Tassen", "Tassen")])
def test_a_known_unit_has_one_spelling(typed, unit):
    assert spelt(typed) == unit


@given(st.floats(-100, 200))
def test_degrees_there_and_back_are_where_they_were(value):
    assert converted(converted(value, "\u00b0C", "\u00b0F"), "\u00b0F", "\u00b0C") == pytest.approx(value, abs=1e-9)


@given(st.floats(30, 110), st.sampled_from(["\u00b0C", "\u00b0F"]))
def test_what_was_noted_stands_where_it_was_once_the_unit_is_back(value, unit):
    noted = Reading(NIGHT, "t", value, unit=unit)
    away = replace(WAKING, unit="\u00b0F" if unit == "\u00b0C" else "\u00b0C")
    assert on_axis(away, noted) == pytest.approx(converted(value, unit, away.unit))
    assert on_axis(replace(WAKING, unit=unit), noted) == value == noted.value


@given(st.integers(0, 10))
def test_a_reading_of_an_old_scale_stands_as_high_as_it_did(value):
    five = replace(MOOD, low=1.0, high=5.0)
    noted = Reading(NIGHT, "m", float(value), low=0.0, high=10.0)
    assert (on_axis(five, noted) - 1) / 4 == pytest.approx(value / 10)
    assert on_axis(MOOD, noted) == value
