"""Year pages in the file: the sitting, choices, answers, and what is awake."""

import sqlite3
from datetime import UTC, date, datetime

import pytest

from keeper.errors import NotAKeeper
from keeper.model import Moment, Photo, Place, YearAnswer, YearChoice, YearPage
from keeper.store import lines, nights, open_store, resting, year_pages
from keeper.store.photos import known as photos
from keeper.store.places import named as places

MOMENT = Moment(datetime(2026, 11, 14, 20, tzinfo=UTC), 120, "Europe/Riga")
NOW = "2026-11-14T20:00:00.000000Z"
FIRST, LAST = date(2026, 1, 1), date(2026, 12, 31)


def keep(store, night: date, text: str, kind: str = "memory") -> str:
    lines.keep(store, night, kind, text, MOMENT)
    return lines.one(store, night, kind).id


def add_photo(store, night: date, number: int, caption: str = "") -> Photo:
    photo = photos.add(store, Photo("", f"{number:064x}", "jpg", 10, caption=caption))
    photos.attach(store, night, photo.id)
    return photo


def texts(store) -> dict[str, bool]:
    return {line.text: line.resting for line in year_pages.lines_between(store, FIRST, LAST)}


def test_a_year_never_sat_down_with_is_empty(store):
    assert year_pages.one(store, 2026) == YearPage(2026)


def test_the_sitting_is_remembered_step_by_step(store):
    year_pages.begin(store, 2026)
    year_pages.settle(store, 2026, 2)
    year_pages.reach(store, 2026, 3)
    with open_store(store.folder) as again:
        page = year_pages.one(again, 2026)
    assert (page.state, page.at, page.settled) == ("begun", 3, {2})
    year_pages.close(store, 2026)
    year_pages.begin(store, 2026)
    assert year_pages.one(store, 2026).state == "closed"
    assert year_pages.one(store, 2025) == YearPage(2025)


def test_choices_take_the_place_of_those_before_in_their_order(store):
    year_pages.choose(store, 2026, 4, "line", [YearChoice(4, "line", "b"), YearChoice(4, "line", "a", "changed")])
    year_pages.choose(store, 2026, 4, "photo", [YearChoice(4, "photo", "p", "dropped")])
    year_pages.choose(store, 2026, 5, "line", [YearChoice(5, "line", "a")])
    year_pages.choose(store, 2026, 4, "line", [YearChoice(4, "line", "c"), YearChoice(4, "line", "b", "dropped")])
    assert year_pages.one(store, 2026).choices == (
        YearChoice(4, "line", "c"), YearChoice(4, "line", "b", "dropped"), YearChoice(4, "photo", "p", "dropped"),
        YearChoice(5, "line", "a"),
    )  # fmt: skip


def test_answers_stand_in_the_order_in_which_they_were_first_given(store):
    for question, words in (("Who?", "Oddny"), ("What?", "tuning"), ("Who?", "Oddny & Pauli"), ("When?", "May")):
        year_pages.answer(store, 2026, question, words)
    year_pages.answer(store, 2026, "What?", "")
    assert year_pages.one(store, 2026).answers == (YearAnswer("Who?", "Oddny & Pauli"), YearAnswer("When?", "May"))


@pytest.mark.parametrize("decision", ["", "liked", None])
def test_no_other_decision_can_be_kept(store, decision):
    with pytest.raises((NotAKeeper, sqlite3.IntegrityError)):
        year_pages.choose(store, 2026, 4, "line", [YearChoice(4, "line", "a", decision)])
    assert year_pages.one(store, 2026).choices == ()


def test_lines_rest_with_their_night_or_its_place(store):
    inn = places.add(store, Place("", "The inn"))
    for day, text in ((1, "awake"), (2, "alone"), (3, "in the span"), (4, "at the inn")):
        line_id = keep(store, date(2026, 3, day), text)
        if text == "alone":
            resting.rest(store, "line", line_id)
    nights.set_place(store, date(2026, 3, 4), inn.id, "said", NOW)
    resting.rest(store, "place", inn.id)
    resting.rest_span(store, date(2026, 3, 3), date(2026, 3, 3))
    assert texts(store) == {"awake": False, "alone": True, "in the span": True, "at the inn": True}
    assert [night.day for night, _ in year_pages.nights_awake(store, FIRST, LAST)] == [1, 2]


def test_photos_of_resting_nights_are_left_out_and_the_chosen_one_comes_first(store):
    night = date(2026, 5, 2)
    first, second = add_photo(store, night, 1), add_photo(store, night, 2)
    hidden = add_photo(store, date(2026, 5, 9), 3)
    resting.rest_span(store, date(2026, 5, 8), date(2026, 5, 10))
    photos.set_photo_of_night(store, night, second.id)
    assert [photo.id for _, photo in year_pages.photos_between(store, FIRST, LAST)] == [second.id, first.id]
    resting.rest(store, "photo", first.id)
    assert [photo.id for _, photo in year_pages.photos_between(store, FIRST, LAST)] == [second.id]
    assert year_pages.photo_awake(store, second.id).id == second.id
    assert [year_pages.photo_awake(store, one) for one in (first.id, hidden.id, "nothing")] == [None] * 3
    assert year_pages.photo_count(store, FIRST, LAST) == 3


def test_the_last_place_before_a_year(store):
    assert year_pages.last_stay_before(store, FIRST) == ()
    harbour = places.add(store, Place("", "The harbour"))
    nights.set_place(store, date(2025, 12, 28), harbour.id, "said", NOW)
    keep(store, date(2025, 12, 31), "no place")
    assert year_pages.last_stay_before(store, FIRST) == ((date(2025, 12, 28), harbour.id),)
    ferry = places.add(store, Place("", "The ferry", on_the_way=True))
    nights.set_place(store, date(2025, 12, 30), ferry.id, "said", NOW)
    assert year_pages.last_stay_before(store, FIRST) == (
        (date(2025, 12, 28), harbour.id), (date(2025, 12, 30), ferry.id),
    )  # fmt: skip
