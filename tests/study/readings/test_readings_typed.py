"""What is typed for a reading, understood by the form of its tracker."""

from datetime import UTC, date, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.dates import written
from keeper.errors import UnreadableReading
from keeper.model import Tracker
from keeper.study.readings.hours import Whence
from keeper.study.readings.typed import understood

NIGHT = date(2026, 6, 3)
HERE = Whence(UTC, datetime(2026, 6, 9, tzinfo=UTC))


def tracker(form: str, **told) -> Tracker:
    given = {"id": "t", "name": "it", "form": form, "low": None, "high": None, "unit": "", "better": "neither",
             "began": date(2020, 1, 1), **told}  # fmt: skip
    return Tracker(**given)


SCALE = tracker("scale", low=0.0, high=10.0)
HALVES = tracker("scale", low=0.0, high=10.0, step=0.5)
HOURS, COUNT, MARK = tracker("hours"), tracker("count", unit="cups"), tracker("mark")
WAKING = tracker("amount", unit="\u00b0C")
WALKED = tracker("amount", unit="km")


@pytest.mark.parametrize(
    ("of", "typed", "value"),
    [
        (SCALE, "0", 0.0), (SCALE, " 10 ", 10.0), (HALVES, "7.5", 7.5), (HALVES, "7,5", 7.5),
        (tracker("scale", low=1.0, high=5.0), "5", 5.0), (tracker("scale", low=-3.0, high=3.0), "-2", -2.0),
        (HOURS, "7.5", 7.5), (HOURS, "7,5", 7.5), (HOURS, "7:30", 7.5), (HOURS, "7h30", 7.5), (HOURS, "7h", 7.0),
        (HOURS, "7 h 30 min", 7.5), (HOURS, "90 min", 1.5), (HOURS, "0", 0.0), (HOURS, "0:05", 5 / 60), (HOURS, "7 hours", 7.0),
        (COUNT, "0", 0.0), (COUNT, "3 cups", 3.0), (COUNT, "10,000", 10_000.0), (COUNT, "10 000", 10_000.0),
        (WALKED, "4,5", 4.5), (WALKED, "4.5 km", 4.5), (WALKED, "-1", -1.0), (WALKED, "1,234", 1234.0), (WALKED, "0,750", 0.75),
        (MARK, "yes", 1.0), (MARK, "No", 0.0), (MARK, "1", 1.0), (MARK, "0", 0.0),
    ],
)  # fmt: skip
def test_each_form_takes_what_people_type(of, typed, value):
    assert understood(of, typed, NIGHT, HERE).value == pytest.approx(value)


@pytest.mark.parametrize(
    ("of", "typed", "told"),
    [
        (SCALE, "11", "from 0 to 10 in whole steps"), (SCALE, "7.5", "whole steps"), (SCALE, "seven", "scale"), (SCALE, "", "scale"),
        (HALVES, "7.3", "half steps"), (HOURS, "7:3", "7:30 or 7.5"), (HOURS, "7:75", "length of time"), (HOURS, "101", "length"),
        (HOURS, "25:00-6:00", "length"), (HOURS, "-1", "length"), (COUNT, "1.5", "whole number"), (COUNT, "-1", "whole number"),
        (WALKED, "far", "number in km"), (WALKED, "3 cups", "cannot be converted"), (WAKING, "36.6 km", "cannot be converted"),
        (MARK, "perhaps", "neither yes nor no"), (MARK, "2", "neither"), (COUNT, "nan", "whole"), (WALKED, "inf", "number"),
    ],
)  # fmt: skip
def test_what_is_no_reading_is_answered_with_what_can_be_typed(of, typed, told):
    with pytest.raises(UnreadableReading, match=told):
        understood(of, typed, NIGHT, HERE)


def test_an_amount_keeps_the_unit_it_was_typed_in():
    read = understood(WAKING, "97.9 F", NIGHT, HERE)
    assert (read.value, read.unit) == (97.9, "\u00b0F")
    assert understood(WAKING, "36,6 celsius", NIGHT, HERE).unit == ""


def test_thousands_are_parted_as_the_person_is_used_to(monkeypatch):
    monkeypatch.setattr(written, "habits", lambda: written.Habits(".", ","))
    assert understood(COUNT, "10.000", NIGHT, HERE).value == 10_000
    assert understood(WALKED, "10,25", NIGHT, HERE).value == 10.25


@given(st.text(max_size=20), st.sampled_from([SCALE, HALVES, HOURS, COUNT, WALKED, WAKING, MARK]))
def test_whatever_is_typed_becomes_a_reading_of_the_form_or_a_sentence(typed, of):
    try:
        read = understood(of, typed, NIGHT, HERE)
    except UnreadableReading as error:
        assert str(error).endswith(".")
    else:
        assert abs(read.value) <= 1e9
        assert of.form != "mark" or read.value in (0.0, 1.0)
        assert of.form != "scale" or (0 <= read.value <= 10 and (read.value / of.step).is_integer())


@given(st.sampled_from([SCALE, HALVES, HOURS, COUNT, WALKED]), st.sampled_from(["", " ", "\t", "\u00a0", "\n"]))
def test_nothing_typed_is_never_a_nought(of, typed):
    with pytest.raises(UnreadableReading):
        understood(of, typed, NIGHT, HERE)
