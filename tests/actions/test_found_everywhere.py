"""What answers besides lines: what it is said to be, and where it opens."""

from datetime import date

from keeper.actions import people, writing
from keeper.actions.finding.everywhere import everywhere
from keeper.model import Act, Goal, MonthPage
from keeper.store import month_pages

TONIGHT = date(2026, 11, 14)


def told(store, typed, **more):
    return [(one.what, one.text, one.page) for one in everywhere(store, typed, TONIGHT, **more)[0]]


def keep(store, page):
    with store.writing(Act("The month", "month", page.month)):
        month_pages.keep(store, page)


def test_what_is_written_on_months_says_what_it_is(store):
    keep(store, MonthPage(date(2024, 6, 1), "What did the ferry bring?", "Ferries and rain.", None, (Goal("", "Take the ferry to Rønne", "set"),)))
    assert told(store, "ferr") == [
        ("Words of June 2024", "Ferries and rain.", "month"),
        ("Question of June 2024", "What did the ferry bring?", "month"),
        ("Goal of June 2024", "Take the ferry to Rønne", "month"),
    ]
    assert told(store, "RONNE take") == [("Goal of June 2024", "Take the ferry to Rønne", "month")]
    assert told(store, "erry") == []


def test_a_place_and_a_person_are_found_by_name(store, clock):
    writing.set_place(store, date(2025, 8, 9), "Visby", clock)
    people.add(store, "Visander, Maja")
    assert told(store, "vis") == [("Place", "Visby", "places"), ("Person", "Visander", "people")]


def test_dates_are_read_as_in_the_field_of_a_date(store):
    assert told(store, "june 2024") == [("Month", "June 2024", "month")]
    assert told(store, "2024") == [("Year", "2024", "year")]
    (night,) = everywhere(store, "14 november 2025", TONIGHT)[0]
    assert (night.what, night.page, night.night) == ("Night", "night", date(2025, 11, 14))
    assert night.text == "14 November 2025"
    assert told(store, "31 june 2024") == told(store, "  ") == []


def test_a_date_tells_where_one_slept(store, clock):
    writing.set_place(store, date(2025, 8, 9), "Visby", clock)
    assert told(store, "9.8.2025") == [("Night", "9 August 2025, Visby", "night")]


def test_of_each_sort_a_few_and_how_many_more(store):
    for month in range(1, 8):
        keep(store, MonthPage(date(2024, month, 1), "", f"Rain, the {month}."))
    shown, more = everywhere(store, "rain", TONIGHT)
    assert ([one.night.month for one in shown], more) == ([7, 6, 5], 4)
    assert everywhere(store, "rain", TONIGHT, each=9)[1] == 0
