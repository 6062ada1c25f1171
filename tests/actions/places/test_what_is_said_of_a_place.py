"""A place's note, what it is and its photo: kept, undone, given out, merged and taken apart."""

import json
from datetime import date

import pytest

from keeper.actions import writing
from keeper.actions.history import undoing
from keeper.actions.places import here, known, merging, said
from keeper.errors import UnknownThing, UnreadableText
from keeper.model import Photo, PlacePage
from keeper.store.damage.filling import tie_up
from keeper.store.photos import known as photos
from keeper.store.places import pages

NIGHT = date(2026, 11, 14)
NOTE = "The third floor over the sailmaker\u2019s.\nFrau Ohlsen has the key."


@pytest.fixture
def lubeck(store, clock):
    return writing.set_place(store, NIGHT, "L\u00fcbeck", clock)


@pytest.fixture
def turku(store, clock):
    return writing.set_place(store, date(2026, 11, 13), "Turku", clock)


def test_each_part_is_kept_by_itself_and_nothing_said_leaves_nothing(store, lubeck):
    photo = photos.add(store, Photo("", "a" * 64, "jpg", 9))
    said.write_note(store, lubeck.id, f"  {NOTE}\n")
    said.say_roof(store, lubeck.id, "room")
    said.choose_photo(store, lubeck.id, photo.id)
    assert said.of(store, lubeck.id) == PlacePage(NOTE, "room", photo.id)
    assert known.place_view(store, lubeck.id).photo == photo
    assert [one.roof for one in known.places_view(store).places] == ["room"]
    said.write_note(store, lubeck.id, "")
    said.say_roof(store, lubeck.id, "")
    said.choose_photo(store, lubeck.id, None)
    assert store.row("SELECT count(*) FROM place_page") == (0,)


def test_what_cannot_be_is_refused_in_a_sentence(store, lubeck):
    with pytest.raises(UnknownThing, match=r"^A place can be: home, with someone"):
        said.say_roof(store, lubeck.id, "castle")
    with pytest.raises(UnknownThing, match=r"^That photo is no longer in the keeper"):
        said.choose_photo(store, lubeck.id, "x")
    with pytest.raises(UnknownThing, match=r"^That place is no longer"):
        said.write_note(store, "x", "words")
    with pytest.raises(UnreadableText):
        said.write_note(store, lubeck.id, "a\x00b")
    assert said.of(store, lubeck.id) == PlacePage()


def test_it_is_undone_and_done_again(store, lubeck):
    said.write_note(store, lubeck.id, NOTE)
    said.say_roof(store, lubeck.id, "inn")
    assert "What L\u00fcbeck is" in undoing.undo(store).sentence
    assert said.of(store, lubeck.id) == PlacePage(NOTE)
    assert "The note on L\u00fcbeck" in undoing.undo(store).sentence
    assert said.of(store, lubeck.id) == PlacePage()
    undoing.redo(store)
    undoing.redo(store)
    assert said.of(store, lubeck.id) == PlacePage(NOTE, "inn")


def test_two_places_that_become_one_keep_both_notes_and_come_apart_again(store, lubeck, turku, clock):
    said.write_note(store, lubeck.id, NOTE)
    said.say_roof(store, lubeck.id, "room")
    said.write_note(store, turku.id, "By the river.")
    merging.merge(store, lubeck.id, turku.id, clock)
    assert said.of(store, turku.id) == PlacePage(f"By the river.\n\n{NOTE}", "room")
    said.write_note(store, turku.id, f"By the river.\n\n{NOTE}\n\nSince then: a new bed.")
    merging.take_apart(store, merging.merged_into(store, turku.id)[0].id)
    assert said.of(store, turku.id) == PlacePage("By the river.\n\nSince then: a new bed.")
    assert said.of(store, lubeck.id) == PlacePage(NOTE, "room")


def test_a_merge_is_undone_and_done_again_with_its_notes(store, lubeck, turku, clock):
    said.write_note(store, lubeck.id, NOTE)
    said.write_note(store, turku.id, "By the river.")
    merging.merge(store, lubeck.id, turku.id, clock)
    assert "L\u00fcbeck merged into Turku" in undoing.undo(store).sentence
    assert (said.of(store, lubeck.id).note, said.of(store, turku.id).note) == (NOTE, "By the river.")
    undoing.redo(store)
    assert said.of(store, turku.id).note == f"By the river.\n\n{NOTE}" and not said.of(store, lubeck.id).note


def test_a_note_that_was_changed_stays_and_one_that_a_later_place_has_too_is_the_later_ones(store, lubeck, turku, clock):
    visby = writing.set_place(store, date(2026, 11, 12), "Visby", clock)
    for one in (lubeck, visby):
        said.write_note(store, one.id, NOTE)
    said.say_roof(store, lubeck.id, "inn")
    said.say_roof(store, visby.id, "home")
    merging.merge(store, lubeck.id, turku.id, clock)
    merging.merge(store, visby.id, turku.id, clock)
    later, first = merging.merged_into(store, turku.id)
    merging.take_apart(store, first.id)
    assert said.of(store, turku.id) == PlacePage(NOTE, "home")
    said.write_note(store, turku.id, "Another altogether.")
    merging.take_apart(store, later.id)
    assert said.of(store, turku.id) == PlacePage("Another altogether.")
    assert said.of(store, visby.id) == PlacePage(NOTE, "home")


def test_a_note_outlives_its_place_where_a_broken_file_lost_that(store, lubeck):
    said.write_note(store, lubeck.id, NOTE)
    connection = store.connection
    connection.execute("PRAGMA foreign_keys = OFF")
    connection.execute("DELETE FROM place")
    assert tie_up(connection) == {}
    assert connection.execute("SELECT name, note FROM place JOIN place_page ON place_id = id").fetchall() == [("A place", NOTE)]
    assert connection.execute("SELECT place_id FROM night").fetchall() == [(None,)]


def test_a_merge_noted_before_there_were_notes_comes_apart(store, lubeck, turku, clock):
    merging.merge(store, lubeck.id, turku.id, clock)
    with store.writing() as connection:
        gone = json.loads(connection.execute("SELECT gone FROM place_merge").fetchone()[0])
        del gone["page"]
        connection.execute("UPDATE place_merge SET gone = ?", (json.dumps(gone),))
    merging.take_apart(store, merging.merged_into(store, turku.id)[0].id)
    assert said.of(store, lubeck.id) == PlacePage() and pages.every(store) == {}


def test_the_nights_come_in_their_order_each_line_one_and_the_empty_ones_too(store, lubeck, clock):
    writing.set_place(store, date(2026, 11, 10), "L\u00fcbeck", clock)
    writing.write_line(store, NIGHT, "memory", "A grand with a cold.", clock)
    writing.write_line(store, NIGHT, "gratitude", "Soup.", clock)
    told = [(one.line.night.day, one.line.text or one.line.kind_title) for one in here.nights_at(store, lubeck.id)]
    assert told == [(14, "Soup."), (14, "A grand with a cold."), (10, "nothing written")]
    assert [one.line.night.day for one in here.nights_at(store, lubeck.id, latest_first=False)] == [10, 14, 14]
    assert [one.line.text for one in here.nights_at(store, lubeck.id, False, 1, 2)] == ["A grand with a cold."]


def test_photos_taken_close_by_on_a_night_elsewhere_are_its_own_too(store, lubeck, turku):
    known.set_coordinates(store, lubeck.id, "53.8655, 10.6866")
    near = photos.add(store, Photo("", "b" * 64, "jpg", 9, latitude=53.8700, longitude=10.6900))
    far = photos.add(store, Photo("", "c" * 64, "jpg", 9, latitude=53.9600, longitude=10.8700))
    own = photos.add(store, Photo("", "d" * 64, "jpg", 9))
    for photo, night in ((near, date(2026, 11, 13)), (far, date(2026, 11, 13)), (own, NIGHT)):
        photos.attach(store, night, photo.id)
    assert [photo.id for photo, _ in here.photos_here(store, lubeck.id)] == [own.id, near.id]
    assert {photo.id for photo, _ in here.photos_here(store, turku.id)} == {far.id, near.id}
