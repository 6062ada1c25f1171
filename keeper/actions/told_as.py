"""What was done, as the person would say it, and where that is seen."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path

from keeper.dates import written
from keeper.errors import shown_name
from keeper.model import Act


def of_night(what: str, night: date, thing: str = "") -> Act:
    """Such as "Lübeck for the night of 3 June 2026"."""
    return Act(f"{what} for the night of {written.full_date(night)}", "night", night, thing)


def of_line(name: str, kind: str, night: date, text: str) -> Act:
    """A line written, or taken out where there is no text; ``name`` is what its kind is called."""
    return of_night(name if text.strip() else f"{name} taken out", night, kind)


def of_month(what: str, month: date) -> Act:
    """Such as "A goal for June 2026"."""
    return Act(f"{what} for {written.month_and_year(month)}", "month", month)


def of_year(what: str, year: int) -> Act:
    """Such as "A closing question for the year 2026"."""
    return Act(f"{what} for the year {year}", "year", date(year, 1, 1))


def of_year_month(what: str, year: int, month: int) -> Act:
    """Such as "The photo for June 2026, in its year"; month 0 is the year as a whole."""
    if not month:
        return of_year(what, year)
    return Act(f"{what} for {written.month_and_year(date(year, month, 1))}, in its year", "year", date(year, 1, 1))


def of_place(told: str, place_id: str) -> Act:
    """Something about a place."""
    return Act(told, "places", thing=place_id)


def of_theme(told: str, number: int | str = "") -> Act:
    """Something about a theme."""
    return Act(told, "themes", thing=str(number))


def of_person(told: str, person_id: str = "") -> Act:
    """Something about somebody whose name is marked."""
    return Act(told, "people", thing=person_id)


def of_photos(sources: Sequence[Path]) -> Act:
    """Photos that came at once, by where they came from."""
    if len(sources) == 1:
        return Act(f"The photos of {shown_name(sources[0])}")
    return Act(f"Photos of {written.counted(len(sources), 'file')}")


IN_TRAY = "in-tray"


def of_in_tray(what: str) -> Act:
    """Files that were taken in from the in-tray, such as "2 texts and 1 photo"."""
    return Act(f"The in-tray: {what}", thing=IN_TRAY)


def of_settings(told: str) -> Act:
    """Something on the page of settings."""
    return Act(told, "settings")


def quoted(name: str) -> str:
    """A name within such words, of bearable length."""
    return f"\u201c{name if len(name) <= 60 else name[:59] + chr(0x2026)}\u201d"
