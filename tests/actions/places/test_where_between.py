"""Where one was for a span of nights."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from soundness import whole

from keeper.actions import writing
from keeper.actions.history import undoing
from keeper.actions.places import known as places
from keeper.actions.places import where_between
from keeper.errors import CannotTurn, KeeperError, UnknownThing, UnreadableDate
from keeper.model import Place
from keeper.store import nights
from keeper.store.places import named as kept
from keeper.town import Town

TONIGHT = date(2026, 11, 14)
RIGA = Town(456172, "Riga", "Riga", "R\u012bga", "LV", "Latvia", 56.946, 24.10589, "Europe/Riga", 742572, "R\u012bga", "Riga")


def november(day: int) -> date:
    return date(2026, 11, day)


@pytest.fixture
def say(store, clock):
    """Says where the nights of a span of November were spent."""
    return lambda first, last, chosen="Lisbon", **how: where_between.say_between(
        store, november(first), november(last), chosen, clock, TONIGHT, **how
    )


def where(store) -> dict[int, str]:
    """The day of each November night with a place, and the place."""
    found = nights.where_between(store, november(1), november(30))
    return {night.day: kept.by_id(store, at).name for night, at, _ in found if at}


def test_lisbon_from_the_3rd_to_the_12th_without_a_line(store, say):
    done = say(3, 12)
    assert where(store) == dict.fromkeys(range(3, 13), "Lisbon")
    assert (done.nights, len(done.changed), done.kept, done.begun) == (10, 10, (), True)
    assert {source for _, _, source in nights.where_between(store, november(3), november(12))} == {"said"}
    assert places.place_view(store, done.place.id).kept.visits == 1
    assert whole(store)


def test_nights_said_to_be_elsewhere_are_told_and_stay_unless_the_person_says_so(store, say, clock):
    writing.set_place(store, november(5), "Sintra", clock)
    writing.set_place(store, november(6), "Sintra", clock)
    (told,) = where_between.elsewhere(store, november(3), november(12))
    assert (told[0].name, told[1]) == ("Sintra", (november(5), november(6)))
    done = say(3, 12)
    assert done.kept == (november(5), november(6)) and where(store)[5] == "Sintra" and done.nights == 8
    assert say(3, 12, over=True).kept == ()
    assert set(where(store).values()) == {"Lisbon"}


def test_what_was_only_carried_on_gives_way(store, say, clock):
    writing.set_place(store, november(2), "Riga", clock)
    writing.write_line(store, november(4), "memory", "The tram.", clock)
    assert where(store)[4] == "Riga"
    assert where_between.elsewhere(store, november(3), november(12)) == ()
    (told,) = where_between.elsewhere(store, november(3), november(12), carried=True)
    assert (told[0].name, told[1]) == ("Riga", (november(4),))
    assert say(3, 12).gave_way == 1
    assert where(store)[4] == "Lisbon" and where(store)[2] == "Riga"


def test_a_place_taken_from_a_photo_counts_as_said(store, say):
    visby = kept.add(store, Place("", "Visby"))
    nights.set_place(store, november(4), visby.id, "photo", "2026-11-04T20:00:00.000000Z")
    assert say(3, 5).kept == (november(4),)


def test_taken_back_at_once_all_is_as_before(store, say, clock):
    writing.set_place(store, november(2), "Riga", clock)
    writing.set_place(store, november(5), "Sintra", clock)
    writing.write_line(store, november(3), "memory", "The tram.", clock)
    before = {one for one in nights.where_between(store, november(1), november(30)) if one[1]}
    done = say(1, 12, over=True)
    assert done.nights == 12
    assert undoing.undo(store).sentence == "Took back: Lisbon for the nights of 1 to 12 Nov 2026."
    assert {one for one in nights.where_between(store, november(1), november(30)) if one[1]} == before
    assert kept.named(store, "Lisbon") is None, "it was begun for this"
    assert whole(store)


def test_taking_back_leaves_what_was_said_since(store, say, clock):
    say(3, 6)
    said = undoing.last_noted(store)
    writing.set_place(store, november(4), "Sintra", clock)
    undoing.turn(store, said)
    assert where(store) == {4: "Sintra"} and kept.named(store, "Lisbon") is None
    undoing.redo(store)
    assert where(store) == {3: "Lisbon", 4: "Sintra", 5: "Lisbon", 6: "Lisbon"}


def test_what_was_said_since_of_a_night_that_was_there_is_named(store, say, clock):
    writing.write_line(store, november(4), "memory", "The tram.", clock)
    say(3, 6)
    said = undoing.last_noted(store)
    writing.set_place(store, november(4), "Sintra", clock)
    with pytest.raises(CannotTurn, match="leans on it: Sintra for the night of 4 November 2026"):
        undoing.turn(store, said)
    assert where(store) == {3: "Lisbon", 4: "Sintra", 5: "Lisbon", 6: "Lisbon"}


def test_a_known_place_stays_when_it_is_taken_back(store, say, clock):
    writing.set_place(store, november(1), "Lisbon", clock)
    say(3, 4)
    undoing.undo(store)
    assert where(store) == {1: "Lisbon"}


def test_a_town_and_a_known_place_may_be_said(store, say):
    riga = say(3, 4, RIGA).place
    assert riga.zone == "Europe/Riga"
    assert say(7, 8, riga).place.id == riga.id and not say(9, 9, riga).begun
    assert set(where(store)) == {3, 4, 7, 8, 9}


def test_nights_that_came_with_a_merge_come_with_it_again_when_taken_back(store, say, clock):
    from keeper.actions.places import merging as place_merging

    sintra, riga = (writing.set_place(store, november(day), name, clock) for day, name in ((5, "Sintra"), (1, "Riga")))
    place_merging.merge(store, sintra.id, riga.id, clock)
    say(3, 6, over=True)
    undoing.undo(store)
    assert where(store) == {1: "Riga", 5: "Riga"}
    place_merging.take_apart(store, place_merging.merged_into(store, riga.id)[0].id)
    assert where(store) == {1: "Riga", 5: "Sintra"}
    place_merging.merge(store, sintra.id, riga.id, clock)
    done = say(3, 6, over=True)
    place_merging.take_apart(store, place_merging.merged_into(store, riga.id)[0].id)
    assert where(store)[5] == "Lisbon" and done.nights == 4


@pytest.mark.parametrize(
    "first, last, said",
    [(TONIGHT, TONIGHT - timedelta(1), "comes before"), (TONIGHT, TONIGHT + timedelta(1), "still to come"),
     (date(1900, 1, 1), TONIGHT, "at most 3,660")],
)  # fmt: skip
def test_a_span_that_cannot_be_is_refused(store, clock, first, last, said):
    with pytest.raises(UnreadableDate, match=said):
        where_between.say_between(store, first, last, "Lisbon", clock, TONIGHT)
    assert kept.every(store) == ()


@pytest.mark.parametrize("chosen, error", [("", UnknownThing), ("  ", UnknownThing), ("54.1, 10.8", KeeperError)])
def test_without_a_place_nothing_is_said(store, say, chosen, error):
    with pytest.raises(error):
        say(3, 4, chosen)
    assert where(store) == {}


SPANS = st.tuples(st.integers(1, 14), st.integers(1, 14)).map(sorted)


@given(st.lists(st.tuples(SPANS, st.sampled_from("abc"), st.booleans()), max_size=6))
def test_spans_in_any_order_taken_back_in_the_other_leave_nothing(store, clock, said):
    done = [
        where_between.say_between(store, november(first), november(last), name, clock, TONIGHT, over)
        for (first, last), name, over in said
    ]
    for one in done:
        assert one.nights + len(one.kept) == (one.last - one.first).days + 1
    while undoing.undo(store):
        pass
    assert where(store) == {} and kept.every(store) == ()
