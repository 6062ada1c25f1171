"""What may be brought up: each of the ways in which a line, a photo or a place can rest, by itself."""

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from keeper.model import Line, Moment, Photo, Place
from keeper.study.awake import Awake

NIGHT, OTHER = date(2026, 11, 14), date(2026, 11, 15)
WRITTEN = Moment(datetime(2026, 11, 15, 21, tzinfo=UTC), 0, "")
ANNA = Awake(names=("Anna",), nights=frozenset({NIGHT}))
EVERYTHING = replace(ANNA, everything=True)


def a_line(night=OTHER, text="The kettle sang.", resting=False):
    return Line("l", night, "memory", text, WRITTEN, resting)


def a_photo(caption="The tide mill", resting=False):
    return replace(Photo("p", "0" * 64, "jpg", 1), caption=caption, resting=resting)


def a_place(name="Riga", resting=False):
    return replace(Place("r", name), resting=resting)


ASLEEP = [
    ("line", (a_line(resting=True),)), ("line", (a_line(NIGHT),)), ("line", (a_line(text="With Anna at the mill."),)),
    ("photo", (a_photo(resting=True), [OTHER])), ("photo", (a_photo("Anna"), [OTHER])), ("photo", (a_photo(), [NIGHT])),
    ("place", (a_place(resting=True),)), ("place", (a_place("At Anna's"),)), ("text", ("The kettle sang.", "Anna")),
    ("night", (NIGHT,)),
]  # fmt: skip


@pytest.mark.parametrize(("what", "given"), ASLEEP)
def test_one_way_to_rest_is_enough_and_all_wake_when_it_is_asked_for(what, given):
    assert not getattr(ANNA, what)(*given)
    assert getattr(EVERYTHING, what)(*given)


def test_the_others_are_awake():
    assert ANNA.line(a_line()) and ANNA.place(a_place()) and ANNA.text("One", "Another") and ANNA.night(OTHER)
    assert ANNA.photo(a_photo()), "a photo of no night"
    assert ANNA.photo(a_photo(), [NIGHT, OTHER]), "one of its nights does not rest"


def test_a_themes_name_is_whole_when_everything_is_asked_for():
    assert EVERYTHING.theme_name("Anna") == "Anna" and ANNA.theme_name("Anna") == ""
