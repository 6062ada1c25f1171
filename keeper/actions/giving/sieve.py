"""Which rows of a table are given of a keeper that is not given whole.

Every table has its rule here, by name; one without a rule is held back, as
nobody has thought of what of it may be told.
"""

from collections.abc import Callable, Container
from datetime import date
from functools import cached_property

from keeper.actions.giving.limits import Limits
from keeper.actions.giving.searches import KeptSearches
from keeper.days import FIRST_NIGHT, LAST_NIGHT
from keeper.errors import NotAKeeper
from keeper.store import resting
from keeper.store.moments import day
from keeper.store.themes import lines

Row = dict[str, object]

POSITIONS = ("latitude", "longitude", "geoname_id")
"""Columns that tell where something is, whatever table they stand in."""

HOLD_POSITIONS = frozenset({"place_merge", "place_merge_night"})
"""Tables that hold positions within other things."""


class Sieve:
    """Goes through the tables in the order in which they are given, and remembers what of each was kept."""

    def __init__(self, limits: Limits, pages: Container[str] = frozenset()) -> None:
        """``pages`` are the SHA-256 of the pages of a notebook that are given."""
        self._limits, self._pages = limits, pages
        self._lines: set[str] = set()
        self._nights: set[date] = set()
        self._searches = KeptSearches(limits)
        self._rules: dict[str, Callable[[Row], bool]] = {
            "kind": lambda row: True,
            "place": lambda row: row["id"] in limits.places,
            "photo": lambda row: row["id"] in limits.photos,
            "place_page": lambda row: row["place_id"] in limits.places,
            "night": lambda row: self._night(row["date"]),
            "line": self._line,
            "wording": lambda row: self.keeps_wording(row["line_id"], row["night"], row["text"]),
            "draft": lambda row: self._night(row["night"]),
            "night_photo": lambda row: self._night(row["night"]) and row["photo_id"] in limits.photos,
            "tracker": lambda row: row["id"] in limits.trackers,
            "tracker_scale": lambda row: row["tracker_id"] in limits.trackers,
            "reading": lambda row: self._night(row["night"]) and row["tracker_id"] in limits.trackers,
            "from_paper": lambda row: row["line_id"] in self._lines,
            "later_word": lambda row: row["line_id"] in self._lines and (row["text"] or row["tracker_id"] in limits.trackers),
            "scan": lambda row: row["sha256"] in self._pages,
            "month_page": lambda row: limits.month(_month(row["month"])),
            "goal": lambda row: limits.month(_month(row["month"])),
            "person": lambda row: self._person(row["id"]),
            "person_about": lambda row: self._person(row["person_id"]),
            "person_day": lambda row: self._person(row["person_id"]),
            "photo_person": lambda row: self._person(row["person_id"]) and row["photo_id"] in limits.photos,
            "theme": lambda row: row["number"] in self._themes,
            "theme_line": lambda row: row["line_id"] in self._lines,
            "kept_search": lambda row: self._searches.gives(row["name"], row["sought"], self._themes, self._nights),
            "year_page": lambda row: limits.year(row["year"]),
            "year_month": lambda row: limits.year(row["year"]),
            "year_choice": lambda row: limits.year(row["year"]) and (row["ref"] in self._lines or row["ref"] in limits.photos),
            "year_answer": lambda row: limits.year(row["year"]),
        }

    def gives(self, table: str) -> bool:
        """Whether any row of a table can be given."""
        if not self._limits.wanted.positions and table in HOLD_POSITIONS:
            return False
        return self._limits.wanted.all_nights or table in self._rules

    def row(self, table: str, row: Row) -> Row | None:
        """The row as it is given; None for one that is held back."""
        limits = self._limits
        if not limits.wanted.all_nights and not self._kept(table, row):
            return None
        if not limits.wanted.positions:
            row = {name: None if name in POSITIONS else value for name, value in row.items()}
        return self._without_what_is_gone(table, row) if not limits.wanted.all_nights else row

    def keeps_wording(self, line_id: str, night: str, text: str) -> bool:
        """Whether an earlier wording is given."""
        return self._night(night) and not self._rests(line_id) and self._limits.text(text)

    def _kept(self, table: str, row: Row) -> bool:
        try:
            return self._rules[table](row) and self._limits.text(*(one for one in row.values() if isinstance(one, str)))
        except NotAKeeper:
            return False

    def _without_what_is_gone(self, table: str, row: Row) -> Row:
        if table == "theme":
            # Its words are those of all its lines.
            return {**row, "terms": "[]", "base_terms": "[]"}
        limits = self._limits
        there = {"place_id": limits.places, "photo_id": limits.photos}
        found = {name: None if name in there and value not in there[name] else value for name, value in row.items()}
        if table == "later_word" and found["tracker_id"] not in limits.trackers:
            found |= {"tracker_id": None, "value": None}
        if found.get("place_id", "") is None and "place_source" in found:
            found["place_source"] = ""
        return found

    def _night(self, text: object) -> bool:
        return self._limits.night(day(text))

    def _line(self, row: Row) -> bool:
        if not self._night(row["night"]) or self._rests(row["id"]) or not self._limits.text(row["text"]):
            return False
        self._lines.add(row["id"])
        self._nights.add(day(row["night"]))
        return True

    def _person(self, person_id: object) -> bool:
        return any(person.id == person_id for person in self._limits.people)

    def _rests(self, line_id: object) -> bool:
        limits = self._limits
        return not limits.wanted.resting and resting.id_of(limits.copy, "line", line_id) is not None

    @cached_property
    def _themes(self) -> frozenset[int]:
        # Lines come before themes.
        named = lines.named_between(self._limits.copy, FIRST_NIGHT, LAST_NIGHT)
        return frozenset(number for line_id, number, _, _ in named if line_id in self._lines)


def _month(text: object) -> date:
    return day(f"{text}-01")
