"""Chosen nights brought back: what is lacking comes, nothing is written over in silence."""

import shutil
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kept_things import NIGHT, fill
from soundness import emptied, whole

from keeper.actions import writing
from keeper.actions.backups import inside, listed, making
from keeper.errors import UnknownThing
from keeper.model import KINDS, Reading
from keeper.store import lines, nights, trackers
from keeper.store.photos import known

TENTH = NIGHT.replace(day=10)


@pytest.fixture
def filled(store, clock, tmp_path):
    return fill(store, clock, tmp_path)


@pytest.fixture
def backup(filled, clock, folder):
    making.back_up_if_due(filled, making.own_place(filled), clock)
    return listed(folder)[0]


def wordings(store, night: date, kind: str) -> set[str]:
    return {one.text for one in lines.wordings(store, night, kind)}


def without(store, night: date) -> None:
    """A night lost without a trace, as by a program's fault."""
    with store.writing() as connection:
        for table in ("reading", "night_photo", "line", "wording"):
            connection.execute(f"DELETE FROM {table} WHERE night = ?", (night.isoformat(),))
        connection.execute("DELETE FROM wording WHERE night = ?", (night.isoformat(),))
        connection.execute("DELETE FROM night WHERE date = ?", (night.isoformat(),))


def test_a_night_that_is_lost_comes_back_as_it_was(filled, backup):
    before = nights.one(filled, NIGHT), known.of_night(filled, NIGHT), trackers.readings(filled, NIGHT, NIGHT)
    without(filled, NIGHT)
    with filled.writing() as connection:
        connection.execute("DELETE FROM photo")
        connection.execute("DELETE FROM tracker")
    assert inside.look_inside(filled, backup).lacking == {NIGHT}
    told = inside.bring_nights(filled, backup, [NIGHT])
    assert told == "Brought back: Saturday 14 November 2026, with 2 lines and 2 photos."
    assert (nights.one(filled, NIGHT), known.of_night(filled, NIGHT), trackers.readings(filled, NIGHT, NIGHT)) == before
    assert inside.look_inside(filled, backup).lacking == frozenset()
    assert whole(filled)


def test_other_words_are_both_kept(filled, backup, clock):
    writing.write_line(filled, NIGHT, "memory", "The kettle was silent.", clock)
    told = inside.bring_nights(filled, backup, [NIGHT])
    assert "The words that 1 line had are among the earlier wordings." in told
    assert lines.one(filled, NIGHT, "memory").text == "The kettle sang."
    assert wordings(filled, NIGHT, "memory") >= {"The kettle was silent.", "The kettle sang."}


def test_earlier_wordings_come_too_and_each_once(store, clock, folder):
    for text in ("One.", "Two.", "Three."):
        writing.write_line(store, NIGHT, "memory", text, clock)
    making.back_up_if_due(store, making.own_place(store), clock)
    without(store, NIGHT)
    for _ in range(2):
        inside.bring_nights(store, listed(folder)[0], [NIGHT])
    assert sorted(one.text for one in lines.wordings(store, NIGHT, "memory")) == ["One.", "Two."]


def test_a_line_is_the_one_it_was_and_rests_still(filled, clock, folder):
    line = lines.one(filled, NIGHT, "memory")
    writing.rest_line(filled, line.id)
    making.back_up_if_due(filled, making.own_place(filled), clock)
    without(filled, NIGHT)
    with filled.writing() as connection:
        connection.execute("DELETE FROM resting")
    inside.bring_nights(filled, listed(folder)[0], [NIGHT])
    assert lines.by_id(filled, line.id).resting


def test_a_place_and_a_reading_that_are_there_stay(filled, backup, clock):
    writing.set_place(filled, NIGHT, "Visby", clock)
    trackers.note(filled, [Reading(NIGHT, trackers.every(filled)[0].id, 4)])
    assert "2 places and readings stayed as now." in inside.bring_nights(filled, backup, [NIGHT])
    assert nights.one(filled, NIGHT).place.name == "Visby"
    assert [one.value for one in trackers.readings(filled, NIGHT, NIGHT)] == [4]


def test_a_place_that_is_gone_comes_back_with_its_nights(filled, backup):
    first = nights.one(filled, TENTH).place
    with filled.writing() as connection:
        connection.execute("UPDATE night SET place_id = NULL, place_source = '' WHERE place_id = ?", (first.id,))
        connection.execute("DELETE FROM place WHERE id = ?", (first.id,))
    inside.bring_nights(filled, backup, [TENTH])
    assert nights.one(filled, TENTH).place == first
    assert nights.one(filled, NIGHT.replace(day=9)).place is None


def test_a_photo_whose_file_is_gone_everywhere_is_told(filled, backup, folder):
    one = known.of_night(filled, NIGHT)[0]
    known.drop(filled, one.id)
    known.file_of(filled, one).unlink()
    next((folder / "backups" / "photos").rglob(f"{one.sha256}*")).unlink()
    assert "1 photo could not be brought back" in inside.bring_nights(filled, backup, [NIGHT])


def test_nights_the_backup_has_not_are_told(filled, backup):
    with pytest.raises(UnknownThing):
        inside.bring_nights(filled, backup, [date(2020, 1, 1)])


def test_a_look_inside_shows_what_was_kept_and_changes_nothing(filled, backup, clock):
    writing.write_line(filled, NIGHT, "memory", "The kettle was silent.", clock)
    before = list(filled.connection.iterdump()), backup.path.read_bytes()
    seen = inside.look_inside(filled, backup)
    assert (len(seen.nights), seen.nights[-1], seen.lacking) == (7, NIGHT, {NIGHT})
    (night,) = inside.nights_inside(backup, [NIGHT])
    assert [line.text for line in night.lines][-1] == "The kettle sang."
    assert (night.place.name, night.photo_count) == ("Riga", 2)
    assert (list(filled.connection.iterdump()), backup.path.read_bytes()) == before


SOME = [date(2026, 1, day) for day in range(1, 5)]
diaries = st.dictionaries(st.tuples(st.sampled_from(SOME), st.sampled_from(KINDS)), st.sampled_from("ABC"), max_size=8)


@given(then=diaries, now=diaries, wanted=st.sets(st.sampled_from(SOME)))
def test_whatever_stood_there_no_wording_is_lost(store, clock, folder, then, now, wanted):
    def write(words):
        for night in SOME:
            for kind in KINDS:
                if words.get((night, kind)) or lines.one(store, night, kind):
                    writing.write_line(store, night, kind, words.get((night, kind), ""), clock)

    emptied(store)
    write(then)
    made = making.back_up_now(store, making.own_place(store), clock)
    backup = next(one for one in listed(folder) if one.path == made.path)
    emptied(store)
    write(now)
    came = {(night, kind): text for (night, kind), text in then.items() if night in wanted}
    if came:
        inside.bring_nights(store, backup, wanted)
    kept = {(line.night, line.kind): line.text for line in lines.of_nights(store, SOME)}
    assert kept == now | came
    for (night, kind), text in now.items():
        assert text == kept[night, kind] or text in wordings(store, night, kind)
    assert whole(store)
    # The clock stands: the next has the same name.
    shutil.rmtree(folder / "backups")
