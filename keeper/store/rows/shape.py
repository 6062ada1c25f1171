"""Which tables and columns are given out, and what each table holds, told to a stranger."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from graphlib import TopologicalSorter

from keeper.store.file.opening import Store

LEFT_OUT = {
    "about": "the keeper's own id; another keeper has another",
    "theme_model": "found again from the lines and the decisions",
    "theme_asked": "found again by the next look",
    "theme_part": "found again by the next look",
    "theme_part_line": "found again by the next look",
    "brought_up": "when nights were last brought up",
    "theme_second": "found again with the themes",
    "window_state": "where the window was left",
    "act": "the history: it speaks of rows in the shape of one version",
    "act_more": "the history",
    "change": "the history",
    "undoing": "the history",
    "watched": "the history",
    "let_go": "the history",
}
"""Tables that are not given out, and why."""

RECKONED = {"line": ("number", "folded", "sum"), "wording": ("sum",)}
"""Columns that follow from others, and are reckoned again."""

FIRST = ("setting", "kind", "place", "photo", "night", "line", "tracker", "person", "theme", "lot")
"""Tables to which others point without saying so to SQLite; they come before those."""

WHAT = {
    "setting": "What the person chose on the page of settings.",
    "kind": "The kinds of line; the names are the person's, or empty for the program's own.",
    "place": "Places; coordinates in degrees of WGS 84, empty where not known.",
    "photo": "Photos, by the SHA-256 of their files, and what is known of each; caption holds the person's words.",
    "night": "Nights of which anything is kept, with their place; the key of all that belongs to a day.",
    "line": "The person's lines: a text of one kind for a night, and when it was written (UTC, minutes from UTC, time zone).",
    "wording": "Earlier wordings of lines, with the moment at which each was replaced.",
    "draft": "Words typed for a night that were not yet kept as a line.",
    "draft_of": "Words typed elsewhere that were not yet kept.",
    "night_photo": "Which photos belong to which nights, in what order.",
    "tracker": "What is noted each night: its form, scale and unit, and from when to when.",
    "tracker_scale": "Former scales and units of what is noted.",
    "reading": "What was noted of each night.",
    "month_page": "The question, the words and the photo of each month.",
    "goal": "The goals of each month, and what became of them.",
    "person": "People whose names were marked; several spellings are parted by commas.",
    "person_about": "A line about a person.",
    "person_day": "Days of people to remember, in the Gregorian calendar; no year: not known; typed: as it was said in another calendar.",
    "photo_person": "Which people are on which photos.",
    "theme": "Themes that were found among the lines; terms are words with their weights.",
    "theme_line": "Which line belongs to which theme; no theme: to none.",
    "theme_base": "The same, as it was before the person's decisions.",
    "theme_decision": "What the person decided about themes, in order.",
    "year_page": "Years that were gone through, and their own closing questions.",
    "year_month": "Months of such a year that were gone through.",
    "year_choice": "Photos and lines chosen for a month of a year; month 0 is the year as a whole.",
    "year_answer": "Answers to a year's closing questions.",
    "resting": "What is not to be brought up unless it is looked for.",
    "place_page": "What the person says of a place: a note, what it is, the photo that stands for it.",
    "place_merge": "Places that became part of another, as they were.",
    "place_merge_night": "Their nights.",
    "lot": "Photos that came together.",
    "lot_photo": "Which photos those were, and from which file each came (its path in hexadecimal digits).",
    "lot_place": "Nights whose place was said together with them.",
    "scan": "Pages of a notebook as pictures, by the SHA-256 of their files, and the nights they show.",
    "later_word": "What was said of lines on later nights (said_on); value is how a reading of the line's night looked by then.",
    "from_paper": "Lines that were typed up from paper.",
    "kept_search": "Searches kept under a name; sought names places, people, themes and readings by id and by name.",
    "trying": "What was tried: which mark was done or left in which blocks of nights, as drawn by lot, and the reading looked at.",
    "cycle_phase": "Phases of cycles, where the person moved them or took them off.",
    "pattern_pick": "What was to take part in patterns.",
    "pattern_decision": "Patterns that were put away, are kept an eye on, or were noted on a month.",
    "file_shape": "How the columns of files from elsewhere were understood, for the next file of that shape.",
    "second_wording": "Words that stand beside those kept here, where there is room for one only: from another keeper, or what a later word said before.",
}
"""What each table holds."""


@dataclass(frozen=True, slots=True)
class ColumnShape:
    """A column: its type as SQLite has it, whether it may be empty, what it may be (None: anything), what it is by itself."""

    name: str
    type: str
    may_be_empty: bool
    choices: tuple[str, ...] | None = None
    by_itself: str | None = None


@dataclass(frozen=True, slots=True)
class TableShape:
    """A table: the columns that are given out, those of its key, and the order of its rows as SQL."""

    name: str
    columns: tuple[ColumnShape, ...]
    key: tuple[str, ...]
    order: str
    points_at: frozenset[str]

    @property
    def names(self) -> tuple[str, ...]:
        """The names of its columns."""
        return tuple(column.name for column in self.columns)


def tables(store: Store) -> tuple[TableShape, ...]:
    """The tables that are given out, each after those that its rows point at."""
    found = {table.name: table for table in _found(store)}
    first = [name for name in FIRST if name in found]
    rest = {name: sorted(table.points_at & found.keys() - {name}) for name, table in sorted(found.items()) if name not in first}
    later = [name for name in TopologicalSorter(rest).static_order() if name not in first]
    return tuple(found[name] for name in (*first, *later))


def _found(store: Store) -> Iterator[TableShape]:
    rows = store.rows("SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' ORDER BY name")
    for (name,) in rows:
        if name not in LEFT_OUT and not name.startswith(("sqlite_", "_")):
            yield _described(store, name)


def _described(store: Store, name: str) -> TableShape:
    (sql,) = store.row("SELECT sql FROM sqlite_master WHERE type = 'table' AND name = ?", (name,))
    rows = store.rows(f'SELECT name, upper(type), "notnull" OR pk, dflt_value, pk FROM pragma_table_info("{name}") ORDER BY cid')
    left_out = RECKONED.get(name, ())
    columns = tuple(
        ColumnShape(column, its, not full, _choices(sql, column), default)
        for column, its, full, default, _ in rows if column not in left_out
    )  # fmt: skip
    key = tuple(row[0] for row in sorted((row for row in rows if row[4]), key=lambda row: row[4]))
    to = frozenset(row[0] for row in store.rows(f'SELECT DISTINCT "table" FROM pragma_foreign_key_list("{name}")'))
    # Of wordings replaced in one moment the later one is known by its place alone.
    order = "night, kind, replaced_at, rowid" if name == "wording" else ", ".join(f'"{column}"' for column in key)
    return TableShape(name, columns, key, order, to)


def _choices(sql: str, column: str) -> tuple[str, ...] | None:
    spelt = re.search(rf"\bCHECK \({column} IN \(([^)]*)\)\)", sql)
    if not spelt:
        return None
    return tuple(one.strip().strip("'") for one in spelt[1].split(","))
