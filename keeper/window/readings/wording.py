"""The words of the page of readings."""

from datetime import date

from keeper.actions.readings import wording
from keeper.dates.written import shorter_date
from keeper.model import Tracker

FORMS = (
    ("scale", "on a scale"), ("hours", "in hours, or from and until"), ("count", "by counting"),
    ("amount", "as an amount"), ("mark", "as a mark: yes or no"),
)  # fmt: skip

BETTER = (("neither", "neither"), ("higher", "higher"), ("lower", "lower"))

HOW = "Asked for each night below the lines, in this order. What is left open is not noted: neither nought nor no."

EMPTY = "Nothing is noted each night. These can be begun with one key each, or something of your own."


def about(tracker: Tracker, tonight: date) -> str:
    """Such as "0 to 10 by half steps, letter M, since 3 Jun 2026"."""
    steps = " by half steps" if tracker.form == "scale" and tracker.step == 0.5 else ""
    asked, _, letter = wording.asked(tracker).partition(", letter ")
    parts = [asked + steps, f"letter {letter}" if letter else "", _when(tracker, tonight)]
    return ", ".join(part for part in parts if part)


def _when(tracker: Tracker, tonight: date) -> str:
    if tracker.ended is None:
        return f"{'since' if tracker.began <= tonight else 'from'} {shorter_date(tracker.began)}"
    return f"{shorter_date(tracker.began)} to {shorter_date(tracker.ended)}"
