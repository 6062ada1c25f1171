"""What was done since, and what leans on what."""

from datetime import date

import pytest

from keeper.actions import writing
from keeper.actions.months import goals
from keeper.actions.photos import kept as photos
from keeper.actions.places import known as places
from keeper.errors import CannotTurn
from keeper.model import Photo
from keeper.store import lines, month_pages, nights
from keeper.store.history import acts, turning
from keeper.store.photos import known

NIGHT, MONTH = date(2026, 11, 14), date(2026, 11, 1)


def test_what_is_overtaken_is_no_longer_next_and_stays_to_be_had(store, clock):
    writing.write_line(store, NIGHT, "memory", "Fog.", clock)
    turning.turn(store, turning.next_undone(store))
    writing.write_line(store, NIGHT, "gratitude", "Tea.", clock)
    assert turning.next_redone(store) is None
    told = [(one.number, one.undone, one.overtaken) for one in acts.latest(store, 9)]
    assert told == [(2, False, False), (1, True, True)]
    turning.turn(store, 1)
    assert lines.one(store, NIGHT, "memory").text == "Fog." and turning.next_undone(store) == 1


def test_what_made_a_month_first_is_taken_back_and_what_came_to_it_stays(store):
    writing.ask_question(store, MONTH, "What was new?")
    goals.add_goal(store, MONTH, "Swim")
    turning.turn(store, 1)
    page = month_pages.one(store, MONTH)
    assert (page.question, [goal.text for goal in page.goals]) == ("", ["Swim"])
    turning.turn(store, 1)
    assert month_pages.one(store, MONTH).question == "What was new?"


def test_a_place_carried_on_goes_with_the_line_but_not_one_said_since(store, clock):
    writing.set_place(store, date(2026, 11, 13), "Riga", clock)
    writing.write_line(store, NIGHT, "memory", "Fog.", clock)
    writing.set_place(store, NIGHT, "Visby", clock)
    turning.turn(store, 2)
    assert lines.count(store) == 0 and nights.one(store, NIGHT).place.name == "Visby"


def test_other_columns_of_the_same_row_do_not_lean(store, clock):
    place = writing.set_place(store, NIGHT, "Riga", clock)
    places.rename(store, place.id, "R\u012bga")
    places.set_coordinates(store, place.id, "56.95, 24.1")
    turning.turn(store, 2)
    there = places.known(store, place.id)
    assert (there.name, there.point) == ("Riga", (56.95, 24.1))


def test_what_points_at_it_is_named(store, clock):
    with store.writing():
        photo = known.add(store, Photo("", "a" * 64, "jpg", 100))
    photos.choose_for_night(store, NIGHT, photo.id, clock)
    with pytest.raises(CannotTurn, match="leans on it: The photo for the night of 14 November 2026"):
        turning.turn(store, 1)
    assert known.count(store) == 1
