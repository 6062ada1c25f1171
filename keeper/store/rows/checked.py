"""Whether a row from elsewhere is one that a keeper could have written itself.

SQLite holds to the types and to what each table asks for; this holds to what
it cannot know. Whatever else stands in a text is the person's, as it is.
"""

import json
import re
from collections.abc import Callable

from keeper import settings
from keeper.errors import BadArchive, BadSetting, NotAKeeper
from keeper.store.moments import day, local_time, utc_instant
from keeper.store.rows.shape import ColumnShape, TableShape

Row = dict[str, str | int | float | bytes | None]

_SHA256, _ENDING, _HEXADECIMAL = re.compile("[0-9a-f]{64}"), re.compile("[a-z0-9]{1,8}"), re.compile("([0-9a-fA-F]{2})*")
_HOUR = re.compile(r"[0-9]{1,2}:[0-9]{2}")
_ID = re.compile(r"[0-9A-Za-z_-]{1,64}")
_TYPES = {"TEXT": str, "INTEGER": int, "INT": int, "REAL": int | float, "BLOB": bytes}
_A_DAY = 24 * 60
_LONGEST = 1 << 20
"""Characters; no field takes so many."""


def _as(pattern: re.Pattern[str]) -> Callable[[str], object]:
    def check(text: str) -> None:
        if not pattern.fullmatch(text):
            raise ValueError

    return check


def _texts(text: str) -> None:
    if not all(isinstance(one, str) for one in _list(text)):
        raise ValueError


def _list(text: str) -> list:
    found = json.loads(text)
    if not isinstance(found, list):
        raise ValueError
    return found


_NIGHTS = ("night", "date", "merged_on", "said_on")
_MOMENTS = ("written_at", "replaced_at", "typed_at", "noted_at", "came_at", "taken_back_at", "decided_at", "undone_at", "closed_at", "answered_at")
_IDS = ("id", "line_id", "person_id", "place_id", "photo_id", "tracker_id", "into_id", "merge_id", "was_id")

_BY_NAME: dict[str, Callable[[str], object]] = {
    **dict.fromkeys(_NIGHTS, day), **dict.fromkeys(_MOMENTS, utc_instant), **dict.fromkeys(_IDS, _as(_ID)),
    "sha256": _as(_SHA256), "ending": _as(_ENDING), "taken_local": local_time,
}  # fmt: skip
_BY_PLACE: dict[tuple[str, str], Callable[[str], object]] = {
    ("month_page", "month"): lambda text: day(f"{text}-01"), ("goal", "month"): lambda text: day(f"{text}-01"),
    ("resting", "first"): day, ("resting", "last"): day, ("tracker", "began"): day, ("tracker", "ended"): day,
    ("kind", "began"): day, ("kind", "ended"): day, ("night", "begun_at"): utc_instant,
    ("lot_photo", "path"): _as(_HEXADECIMAL), ("year_page", "questions"): _texts, ("theme", "terms"): _list, ("theme", "base_terms"): _list,
    ("scan", "first"): day, ("scan", "last"): day, ("reading", "first"): _as(_HOUR), ("reading", "until"): _as(_HOUR),
}  # fmt: skip
_NUMBERS = {
    "offset_minutes": (1 - _A_DAY, _A_DAY - 1), "taken_offset_minutes": (1 - _A_DAY, _A_DAY - 1), "latitude": (-90, 90),
    "longitude": (-180, 180), "position": (0, 1 << 31), "number": (0, 1 << 31), "year": (1800, 2999), "bytes": (0, 1 << 50),
    **dict.fromkeys(("value", "low", "high", "step"), (-1e15, 1e15)),
}  # fmt: skip


def checked(table: TableShape, row: Row) -> Row:
    """The columns of a row that this version knows. Raises BadArchive for a row that no keeper has written."""
    known = {column.name: column for column in table.columns}
    found = {name: value for name, value in row.items() if name in known}
    lacking = [column.name for column in table.columns
               if column.name not in found and not column.may_be_empty and column.by_itself is None]  # fmt: skip
    if lacking:
        raise _bad(table.name, f"a row is without {lacking[0]!r}")
    found = {column.name: None for column in table.columns if column.may_be_empty and column.by_itself is None} | found
    for name, value in found.items():
        if not _is_of_type(known[name], value):
            raise _bad(table.name, f"{name!r} has a value that cannot be")
        _check(table.name, known[name], value)
    if table.name == "setting":
        _check_setting(found)
    if table.name == "tracker" and found["form"] == "scale" and not _is_scale(found.get("low"), found.get("high")):
        raise _bad("tracker", "a scale has no two ends")
    if table.name == "resting" and found["what"] == "span" and not (found.get("first") and found.get("last")):
        raise _bad("resting", "a span has no two ends")
    return found


def _is_of_type(column: ColumnShape, value: object) -> bool:
    if value is None:
        return column.may_be_empty
    return isinstance(value, _TYPES.get(column.type, str))


def _check(table: str, column: ColumnShape, value: object) -> None:
    name = column.name
    try:
        if isinstance(value, str):
            value.encode()
            check = _BY_PLACE.get((table, name)) or _BY_NAME.get(name)
            if len(value) > _LONGEST or "\0" in value:
                raise ValueError
            # An empty one is none, where none may be; a night or a moment that must be there may not.
            must_be = check in (day, utc_instant) and not column.may_be_empty and column.by_itself is None
            if check and (value or must_be):
                check(value)
        elif value is not None and name in _NUMBERS and not _within(value, *_NUMBERS[name]):
            raise ValueError
    except (ValueError, TypeError, NotAKeeper, RecursionError):
        raise _bad(table, f"{name!r} has a value that cannot be") from None


def _within(value: object, low: float, high: float) -> bool:
    return isinstance(value, int | float) and low <= value <= high


def _is_scale(low: object, high: object) -> bool:
    return isinstance(low, int | float) and isinstance(high, int | float) and low < high


def _check_setting(row: Row) -> None:
    try:
        settings.checked(str(row["name"]), str(row["value"]))
    except BadSetting:
        row.clear()


def detail_of(row: Row, name: str) -> dict:
    """What a column spells as JSON, which must be names and values. Raises BadArchive."""
    try:
        found = json.loads(str(row[name]))
    except (ValueError, RecursionError):
        found = None
    if not isinstance(found, dict):
        raise _bad("theme_decision", f"{name!r} has a value that cannot be")
    return found


def _bad(table: str, why: str) -> BadArchive:
    return BadArchive(f"The archive cannot be taken in: in its table {table!r} {why}. Nothing was changed.")
