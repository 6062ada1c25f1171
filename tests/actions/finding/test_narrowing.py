"""What narrows a search: several at once, said as one sentence, taken off one by one."""

from datetime import date
from functools import reduce

import pytest

from keeper.actions import finding, people, writing
from keeper.actions.finding import Sought
from keeper.actions.finding import phrases as said
from keeper.actions.finding.known import known
from keeper.actions.finding.offers import meant, offered
from keeper.actions.resting import rest_span
from keeper.errors import UnknownThing
from keeper.model import Act, Photo, Reading, Tracker
from keeper.store import trackers
from keeper.store.photos import known as photos

TONIGHT = date(2026, 11, 14)
MOOD, SLEEP, SWAM = (
    Tracker("", "mood", "scale", 0, 10, "", "higher", date(2024, 1, 1)),
    Tracker("", "sleep", "hours", None, None, "", "higher", date(2024, 1, 1)),
    Tracker("", "swam", "mark", None, None, "", "neither", date(2024, 1, 1)),
)
LINES = (
    # A Monday in winter, a Sunday in summer, a Sunday in winter, a Saturday in spring.
    (date(2024, 1, 8), "Turku", "memory", "Pauli sang.", 2, 7.5),
    (date(2024, 6, 2), "Turku", "gratitude", "Maja and Pauli rowed.", 8, 6.0),
    (date(2025, 1, 5), "Visby", "memory", "Maja will write.", 5, None),
    (date(2025, 3, 1), "Kalmar", "memory", "I will write to nobody.", None, 8.25),
)


@pytest.fixture
def kept(store, clock):
    """Four nights with places, people, readings."""
    with store.writing(Act("Readings")):
        mood, sleep, swam = (trackers.add(store, one) for one in (MOOD, SLEEP, SWAM))
    for night, place, kind, text, felt, slept in LINES:
        writing.write_line(store, night, kind, text, clock)
        writing.set_place(store, night, place, clock)
        with store.writing(Act("Readings")):
            told = [Reading(night, mood, felt)] if felt is not None else []
            trackers.note(store, told + ([Reading(night, sleep, slept)] if slept is not None else []))
    with store.writing(Act("Readings")):
        trackers.note(store, [Reading(LINES[2][0], swam, 1)])
    for name in ("Pauli", "Maja", "Will"):
        people.add(store, name)
    return store


def narrowed(store, *typed: str) -> Sought:
    """The search narrowed by phrases as they are typed."""
    there = known(store)
    return reduce(said.with_phrase, (one for said_so in typed for one in meant(there, said_so, TONIGHT)), Sought())


@pytest.mark.parametrize(
    ("typed", "told", "which"),
    [
        (("turku", "visby"), "in Turku or Visby", [2, 1, 0]),
        (("pauli", "maja"), "naming Pauli and Maja", [1]),
        (("memory", "gratitude", "sundays"), "kept as Memory or Gratitude, on Sundays", [2, 1]),
        (("winter", "spring"), "in winter or spring", [3, 2, 0]),
        (("monday", "saturday"), "on Mondays or Saturdays", [3, 0]),
        (("june", "winter"), "in winter or June", [2, 1, 0]),
        (("mood 1 to 5",), "with mood from 1 to 5", [2, 0]),
        (("mood at least 6",), "with mood at least 6", [1]),
        (("mood 8",), "with mood 8", [1]),
        (("mood",), "with mood noted", [2, 1, 0]),
        (("sleep 6:00-7:30",), "with sleep from 6:00 to 7:30", [1, 0]),
        (("mood 1-5", "sleep over 7"), "with mood from 1 to 5, with sleep at least 7:00", [0]),
        (("swam",), "with swam", [2]),
        (("from june 2024", "until january 2025"), "from June 2024, until January 2025", [2, 1]),
        (("in 2024",), "in 2024", [1, 0]),
        (("a sunday in turku",), "in Turku, on Sundays", [1]),
        (("Will",), "naming Will", []),
    ],
)  # fmt: skip
def test_several_at_once_are_said_as_one_sentence(kept, typed, told, which):
    sought = narrowed(kept, *typed)
    assert said.sentence(known(kept).phrases(sought)) == told
    assert [one.line.text for one in finding.with_every_word(kept, sought)] == [LINES[place][3] for place in which]
    assert finding.count_found(kept, sought) == len(which)


def test_each_phrase_can_be_taken_off_and_leaves_the_others(kept):
    typed = ("turku", "visby", "pauli", "sundays", "winter", "june", "mood 1-9", "from 2024", "with a photo", "that do not rest", "memory")
    sought = narrowed(kept, *typed)
    told = known(kept).phrases(sought)
    for one in told:
        left = known(kept).phrases(said.without_phrase(sought, one))
        assert set(told) - set(left) == {one}, one.text
    assert reduce(said.without_phrase, told, sought) == Sought()


def test_what_rests_for_whatever_reason(kept):
    people.rest_by_name(kept, "Maja")
    rest_span(kept, date(2025, 3, 1), date(2025, 3, 2))
    assert [one.line.text for one in finding.with_every_word(kept, narrowed(kept, "that rest"))] == [LINES[at][3] for at in (3, 2, 1)]
    assert [one.line.text for one in finding.with_every_word(kept, narrowed(kept, "that do not rest"))] == [LINES[0][3]]
    assert [one.line.text for one in finding.with_every_word(kept, Sought("sang", resting=True))] == []


def test_by_having_a_photo(kept):
    with kept.writing(Act("A photo")):
        photo = photos.add(kept, Photo("", "ab" * 32, "jpg", 10))
        photos.attach(kept, LINES[2][0], photo.id)
    assert [one.line.text for one in finding.with_every_word(kept, narrowed(kept, "with a photo"))] == [LINES[2][3]]


def test_a_name_of_what_is_kept_no_more_stays_a_phrase_and_finds_nothing(kept):
    sought = Sought(people=("gone",), places=("gone",))
    assert [one.text for one in known(kept).phrases(sought)] == ["of something no longer kept", "of something no longer kept"]
    assert finding.with_every_word(kept, sought) == ()


def test_what_begins_so_is_offered_the_likeliest_first(kept):
    there = known(kept)
    assert offered(there, "", TONIGHT)[0] == (said.WITH_PHOTO,)
    assert [one[0].text for one in offered(there, "tur", TONIGHT)] == ["in Turku"]
    assert [one[0].text for one in offered(there, "s", TONIGHT)][:3] == ["on Saturdays", "on Sundays", "in spring"]
    with pytest.raises(UnknownThing, match="Nothing here is called \u201cxyzzy\u201d"):
        meant(there, "xyzzy", TONIGHT)
