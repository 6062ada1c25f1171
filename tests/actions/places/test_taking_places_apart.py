"""Places that were merged, taken apart again: as if they had never been merged."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from soundness import whole

from keeper.actions import opening, writing
from keeper.actions.places import known as places
from keeper.actions.places import merging as place_merging
from keeper.errors import UnknownThing
from keeper.model import Photo, Place
from keeper.review.places import MergedInto
from keeper.store import nights, resting
from keeper.store.photos import known as photos
from keeper.store.places import merges as place_merges
from keeper.store.places import named as kept

FIRST = date(2026, 11, 1)
BEGUN = "2026-11-14T20:00:00.000000Z"
TABLES = ("place", "night", "line", "night_photo", "resting", "place_merge", "place_merge_night")


def night(number: int) -> date:
    return FIRST + timedelta(days=number)


def dump(store) -> dict[str, list]:
    """Every row that a merge may touch."""
    return {table: sorted(store.rows(f"SELECT * FROM {table}"), key=repr) for table in TABLES}


def unmarked(rows: dict[str, list]) -> dict[str, list]:
    """The same without the marks: a place that had no night was given one by those that moved to it, and keeps it."""
    return {**rows, "place": [row[:-2] + row[-1:] for row in rows["place"]]}


def told(store, ids) -> list:
    """What is known of each place, with its nights; a mark once given stays, merged or not."""
    known = [kept.by_id(store, one) for one in ids]
    return [one and (replace(one, id="", mark=None), nights.all_at(store, one.id)) for one in known]


def emptied(store):
    """The store without any of these, for the next example."""
    with store.writing() as connection:
        for table in reversed(TABLES[:-2]):
            connection.execute(f"DELETE FROM {table}")
        connection.execute("DELETE FROM place_merge")
    return store


@pytest.fixture
def spent(store, clock):
    """Spends nights, by number, at a place."""
    return lambda name, *numbers: [writing.set_place(store, night(n), name, clock) for n in numbers][-1]


@pytest.fixture
def merged(store, clock):
    """Merges one place into another and returns what the page of the other says of it."""

    def merge(gone, into) -> MergedInto:
        place_merging.merge(store, gone.id, into.id, clock)
        return place_merging.merged_into(store, into.id)[0]

    return merge


def test_apart_again_with_everything_the_place_had(store, folder, spent, merged, clock):
    belfast, riga = spent("Belfast", 0, 2, 4), spent("Riga", 1, 3)
    places.set_coordinates(store, belfast.id, "54.5973, -5.9301")
    places.rest_place(store, belfast.id)
    writing.write_line(store, night(2), "memory", "The shipyard.", clock)
    photos.attach(store, night(4), photos.add(store, Photo("", "a" * 64, "jpg", 9)).id)
    before = dump(store)
    one = merged(belfast, riga)
    assert (one.name, one.on) == ("Belfast", date(2026, 11, 14))
    assert len(nights.all_at(store, riga.id)) == 5 and kept.by_id(store, riga.id).resting
    with opening.open_again(folder) as later:
        back, said = place_merging.take_apart(later, place_merging.merged_into(later, riga.id)[0].id)
    assert said == "Belfast is a place of its own again, with 3 nights."
    assert (back.id, back.zone, back.resting) == (belfast.id, "Europe/London", True)
    assert dump(store) == before
    assert [found.line.text for found in places.lines_at(store, belfast.id)] == ["The shipyard."]
    assert place_merging.merged_into(store, riga.id) == ()
    assert whole(store)


def test_nights_said_to_be_elsewhere_since_stay_there(store, spent, merged):
    gone, remains = spent("Belfast", 0, 1, 2, 3), spent("Riga", 4)
    one = merged(gone, remains)
    visby = spent("Visby", 0, 1)
    spent("Riga", 1, 5)
    nights.set_place(store, night(2), None, "", BEGUN)
    assert place_merging.take_apart(store, one.id)[1].endswith("with 1 night.")
    assert nights.all_at(store, gone.id) == (night(3),)
    assert nights.all_at(store, visby.id) == (night(0),)
    assert nights.all_at(store, remains.id) == (night(1), night(4), night(5))


def test_saying_again_where_a_night_is_moves_nothing(store, spent, merged):
    gone, remains = spent("Belfast", 0), spent("Riga", 4)
    one = merged(gone, remains)
    spent("Riga", 0)
    place_merging.take_apart(store, one.id)
    assert nights.all_at(store, gone.id) == (night(0),)


def test_a_place_merged_into_a_merged_one_comes_apart_last(store, spent, merged):
    lubek, lubeck, home = spent("Lubek", 0), spent("L\u00fcbeck", 1), spent("Home", 2)
    before = dump(store)
    first, second = merged(lubek, lubeck), merged(lubeck, home)
    assert (second.name, second.within) == ("L\u00fcbeck", ("Lubek",))
    with pytest.raises(UnknownThing) as refused:
        place_merging.take_apart(store, first.id)
    assert str(refused.value) == (
        "\u201cL\u00fcbeck\u201d was itself merged into another place since. Take that apart first."
    )
    place_merging.take_apart(store, second.id)
    assert nights.all_at(store, lubeck.id) == (night(0), night(1))
    place_merging.take_apart(store, first.id)
    assert dump(store) == before


def test_what_was_taken_apart_cannot_be_again(store, spent, merged):
    gone, remains = spent("Belfast", 0), spent("Riga", 1)
    one = merged(gone, remains)
    place_merging.take_apart(store, one.id)
    before = dump(store)
    with pytest.raises(UnknownThing, match=r"^These two places were taken apart already\.$"):
        place_merging.take_apart(store, one.id)
    assert dump(store) == before


def test_taking_apart_that_fails_half_way_changes_nothing(store, spent, merged, monkeypatch):
    one = merged(spent("Belfast", 0), spent("Riga", 1))
    before = dump(store)
    monkeypatch.setattr(kept, "change", lambda *_: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        place_merging.take_apart(store, one.id)
    assert dump(store) == before


def test_a_place_that_took_the_name_since_is_told_of(store, spent, merged):
    one = merged(spent("Belfast", 0, 1), spent("Riga", 2))
    spent("belfast", 9)
    said = place_merging.take_apart(store, one.id)[1]
    assert said == ("Belfast is a place of its own again, with 2 nights. "
                    "There is another place of that name; if the two are the same, merge them.")  # fmt: skip


def test_what_the_person_said_of_the_remaining_place_since_stays(store, spent, merged):
    gone, remains = spent("Belfast", 0), spent("Riga", 1)
    places.set_coordinates(store, gone.id, "54.5973, -5.9301")
    places.rest_place(store, gone.id)
    one = merged(gone, remains)
    places.set_coordinates(store, remains.id, "56.946, 24.106")
    places.rename(store, remains.id, "R\u012bga")
    places.wake_place(store, remains.id)
    places.rest_place(store, remains.id)
    place_merging.take_apart(store, one.id)
    now = kept.by_id(store, remains.id)
    assert (now.name, now.latitude, now.zone, now.resting) == ("R\u012bga", 56.946, "Europe/Riga", True)


# For any nights and any places.

PLACES = st.lists(
    st.builds(
        Place, st.just(""), st.sampled_from(["Riga", "R\u012bga", "Visby"]), st.sampled_from(["", "Gotland"]),
        st.sampled_from(["", "LV", "SE"]), st.sampled_from([None, 56.946, 0.1 + 0.2]), st.just(24.106),
        st.just("Europe/Riga"), st.sampled_from([None, 1, 2]), st.booleans(),
    ),
    min_size=4, max_size=4,
)  # fmt: skip
NIGHTS = st.dictionaries(st.integers(0, 15), st.integers(0, 3), max_size=12)
MERGES = st.lists(st.tuples(st.integers(0, 3), st.integers(0, 3)).filter(lambda pair: pair[0] != pair[1]), max_size=5)


def begun(store, wished, spent_at) -> list[str]:
    """A keeper with these places and nights; the places' ids."""
    ids = []
    for one in wished:
        where = (one.longitude, one.zone) if one.latitude is not None else (None, "")
        place = Place("", one.name, one.region, one.country, one.latitude, *where, one.geoname_id)
        ids.append(kept.add(store, place).id)
        if one.resting:
            resting.rest(store, "place", ids[-1])
    for number, at in spent_at.items():
        nights.set_place(store, night(number), ids[at], "said", BEGUN)
    return ids


def merge_all(store, ids, pairs, clock) -> list[tuple[str, tuple[int, int]]]:
    """Those of the merges that can be made: the ids of each, and what it was."""
    made = []
    for gone, into in pairs:
        if kept.by_id(store, ids[gone]) and kept.by_id(store, ids[into]):
            place_merging.merge(store, ids[gone], ids[into], clock)
            made.append((place_merges.of(store, ids[gone]).id, (gone, into)))
    return made


@given(PLACES, NIGHTS, MERGES, st.randoms())
def test_merged_and_taken_apart_is_as_never_merged(store, clock, wished, spent_at, pairs, chance):
    with emptied(store).writing():
        ids = begun(store, wished, spent_at)
        before = dump(store)
        made = merge_all(store, ids, pairs, clock)
        while made:
            merge_id, (gone, into) = chance.choice(made)
            if kept.by_id(store, ids[into]) is None:
                with pytest.raises(UnknownThing, match="Take that apart first"):
                    place_merging.take_apart(store, merge_id)
                continue
            place_merging.take_apart(store, merge_id)
            made.remove((merge_id, (gone, into)))
        assert unmarked(dump(store)) == unmarked(before)


@given(PLACES, NIGHTS, MERGES, st.integers(0, 4))
def test_one_taken_apart_it_is_as_if_only_the_others_were_merged(store, clock, wished, spent_at, pairs, which):
    with emptied(store).writing():
        ids = begun(store, wished, spent_at)
        made = merge_all(store, ids, pairs, clock)
        able = [one for one in made if kept.by_id(store, ids[one[1][1]])]
        if not able:
            return
        merge_id, pair = able[which % len(able)]
        place_merging.take_apart(store, merge_id)
        found = told(store, ids)
        emptied(store)
        ids = begun(store, wished, spent_at)
        merge_all(store, ids, [other for _, other in made if other != pair], clock)
        assert found == told(store, ids)


@given(PLACES, NIGHTS, st.lists(st.tuples(st.integers(0, 20), st.sampled_from([None, 1, 2, 3])), max_size=12))
def test_with_nights_written_between_it_is_as_never_merged(store, clock, wished, spent_at, written):
    with emptied(store).writing():
        ids = begun(store, wished, spent_at)
        place_merging.merge(store, ids[0], ids[1], clock)
        said = []
        for number, at in written:
            was = nights.one(store, night(number)).place
            # Saying again where a night is says nothing new.
            if at is None or was is None or was.id != ids[at]:
                nights.set_place(store, night(number), None if at is None else ids[at], "said", BEGUN)
                said.append((number, at))
            if at is not None:  # A night without a place is given that of the night before it.
                writing.write_line(store, night(number), "memory", f"Night {number}.", clock)
        place_merging.take_apart(store, place_merges.of(store, ids[0]).id)
        found = told(store, ids)
        emptied(store)
        ids = begun(store, wished, spent_at)
        for number, at in said:
            nights.set_place(store, night(number), None if at is None else ids[at], "said", BEGUN)
        assert found == told(store, ids)
