"""A tracker's strip has one scale, on whatever page it stands."""

from datetime import date

import pytest

from keeper.actions import writing
from keeper.actions.months import shown as months
from keeper.actions.paper import contents as book_contents
from keeper.actions.years import shown as years
from keeper.model import Reading, Tracker
from keeper.review.book import BookParts
from keeper.store import trackers
from keeper.window.year import wording as year_wording

TRACKERS = {
    "Sleep": (("hours", None, None), 7.0, (0.0, 12.0)), "Long sleep": (("hours", None, None), 13.5, (0.0, 14.0)),
    "Mood": (("scale", 1.0, 5.0), 3.0, (1.0, 5.0)), "Cups": (("count", None, None), 3.0, (0.0, 20.0)),
    "Swum": (("mark", None, None), 1.0, (0.0, 1.0)),
}  # fmt: skip


@pytest.mark.parametrize("name", TRACKERS)
def test_month_year_and_book_have_one_scale(store, clock, name):
    (form, low, high), value, wanted = TRACKERS[name]
    trackers.add(store, Tracker("t", name, form, low, high, "", "neither", date(2026, 1, 1)))
    for month in (5, 6):
        writing.write_line(store, date(2026, month, 1), "memory", "Words.", clock)
        trackers.note(store, [Reading(date(2026, month, 1), "t", value)])
    if form == "count":
        writing.write_line(store, date(2024, 1, 1), "memory", "Words.", clock)
        trackers.note(store, [Reading(date(2024, 1, 1), "t", 17.0)])
    june = months.month_page(store, date(2026, 6, 1)).series[0]
    beside = months.side_by_side(store, [date(2026, 5, 1), date(2026, 6, 1)])
    year = years.year_page(store, 2026).readings[0]
    printed = book_contents.book_of(store, 2026, BookParts()).months[0].readings[0]
    all_ = [june, *(view.series[0] for view in beside), year, printed]
    assert {(one.low, one.high) for one in all_} == {wanted}


def test_nights_with_a_place_are_told_apart_from_nights_kept(store, clock):
    writing.write_line(store, date(2026, 5, 1), "memory", "Words.", clock)
    for day in (1, 2, 3):
        writing.set_place(store, date(2026, 5, day), "Visby", clock)
    review = years.year_page(store, 2026)
    assert year_wording.counted(review).startswith("1 night kept, ")
    assert year_wording.whereabouts(review.places, review.travels) == "3 nights with a known place, at 1 place"
