"""A keeper with some of everything in it, for what copies one."""

from datetime import date, timedelta
from pathlib import Path

from sample_pictures import quarters, save

from keeper.actions import writing
from keeper.actions.photos import kept as photos
from keeper.clock import Clock
from keeper.model import Goal, MonthPage, Reading, Tracker
from keeper.store import Store, month_pages, trackers, year_pages

NIGHT = date(2026, 11, 14)


def fill(store: Store, clock: Clock, passing: Path, pictures: int = 2) -> Store:
    """A week of lines at two places with a question, goals, readings, a year's answers and photos."""
    for number in range(7):
        night = NIGHT - timedelta(days=number)
        writing.write_line(store, night, "gratitude", f"Tuned the school\u2019s piano, string {number}.\n\n# Not a heading", clock)
        writing.set_place(store, night, "Riga" if number < 3 else "L\u00fcbeck", clock)
    writing.write_line(store, NIGHT, "memory", "The kettle sang.", clock)
    month = month_pages.one(store, NIGHT).month
    goals = (Goal("", "Swim before breakfast", "done", "Twice."),)
    month_pages.keep(store, MonthPage(month, "What held?", "A month of bridges.", goals=goals))
    trackers.note(store, [Reading(NIGHT, trackers.add(store, Tracker("", "Sleep", "hours", 0, 24, "", "higher", NIGHT)), 7.5)])
    year_pages.answer(store, 2026, "What carried you?", "The ferries.")
    for number in range(pictures):
        photos.take_in(store, save(passing / f"{number}.jpg", quarters(40 + 8 * number, 32)), clock, NIGHT)
    return store
