"""What is told of a file: how it was taken to be written, what it would bring, what it brought, what was not understood."""

from collections import Counter
from collections.abc import Iterable
from pathlib import Path

from keeper.actions.taking_in.deciding import MORE, NEW, OTHER, THERE, Decided
from keeper.actions.taking_in.keeping import FileKept
from keeper.actions.taking_in.looking import FileLooked
from keeper.actions.taking_in.meant import ASIDE, DATE, JOIN, PLACE, REPLACE
from keeper.actions.taking_in.understanding import NotUnderstood
from keeper.actions.taking_in.weighing import Weighed
from keeper.dates.written import counted, full_date, number
from keeper.errors import CannotWrite, shown_name
from keeper.exchange.tables.shape import MOST_COLUMNS, How
from keeper.model import Reading
from keeper.store import Store, kinds, trackers
from keeper.store.taking_in.many import ComingLine

FORMS = {"table": "a table", "xlsx": "a spreadsheet", "ods": "a spreadsheet", "list": "a list in JSON", "text": "a text with dates",
         "calendar": "a calendar", "folder": "a folder of texts"}  # fmt: skip
SEPARATORS = {",": "comma", ";": "semicolon", "\t": "tab", "|": "upright stroke"}
ORDERS = {"dmy": "day, month, year", "mdy": "month, day, year", "ymd": "year, month, day"}
DECIMALS = {".": "point", ",": "comma"}
ENCODINGS = {
    "utf-8": "UTF-8", "utf-8-sig": "UTF-8", "utf-16": "UTF-16", "utf-16-le": "UTF-16, low byte first", "utf-16-be": "UTF-16, high byte first",
    "utf-32": "UTF-32", "cp1252": "Western European (cp1252)", "cp1250": "Central European (cp1250)", "cp1251": "Cyrillic (cp1251)",
    "cp1253": "Greek (cp1253)", "cp1254": "Turkish (cp1254)", "cp1255": "Hebrew (cp1255)", "cp1256": "Arabic (cp1256)",
    "cp1257": "Baltic (cp1257)", "mac_roman": "Western European (Mac Roman)", "cp850": "Western European (cp850)", "koi8_r": "Cyrillic (KOI8-R)",
    "shift_jis": "Japanese (Shift JIS)", "euc_jp": "Japanese (EUC-JP)", "gb18030": "Chinese (GB 18030)", "big5": "Chinese (Big5)",
    "euc_kr": "Korean (EUC-KR)",
}  # fmt: skip
"""How encodings are called to the person, by Python's names of them."""
OTHER_WORDS = {JOIN: "Keep both in one line", ASIDE: "Keep mine; the file\u2019s become an earlier wording",
               REPLACE: "Take the file\u2019s; mine become an earlier wording"}  # fmt: skip
NEW_READINGS = {"amount": "a new reading: numbers", "hours": "a new reading: hours", "mark": "a new reading: yes or no"}


def how_written(how: How) -> str:
    """Such as "a table, in Western European (cp1252), parted by semicolon; dates: day, month, year; decimals: comma"."""
    parts = [FORMS[how.form], f"in {encoding_called(how.encoding)}" if how.encoding else "", f"parted by {SEPARATORS.get(how.separator, how.separator)}" if how.separator and how.form == "table" else ""]
    return "; ".join((", ".join(filter(None, parts)), f"dates: {ORDERS[how.order]}", f"decimals: {DECIMALS[how.decimal]}"))


def beyond(looked: FileLooked) -> str:
    """That a table has more columns than are looked at, or ""."""
    return f"Columns beyond the first {MOST_COLUMNS} are not looked at." if len(looked.names) >= MOST_COLUMNS else ""


def encoding_called(encoding: str) -> str:
    """How an encoding is called to the person; ``encoding`` is Python's name of it."""
    return ENCODINGS.get(encoding, encoding)


def choices(store: Store) -> tuple[tuple[str, str], ...]:
    """What a column can be, each with how it is called."""
    return (
        ("", "not read"), (DATE, "the date"), *((f"kind:{kind.key}", kind.title) for kind in kinds.every(store)), (PLACE, "the place"),
        *((f"reading:{one.id}", one.name) for one in trackers.every(store)), *((f"new:{form}", name) for form, name in NEW_READINGS.items()),
    )  # fmt: skip


def would_bring(weighed: Weighed) -> str:
    """What a file would bring, in a few sentences."""
    if weighed.first is None:
        return _why_nothing(weighed)
    span = f"from {full_date(weighed.first)} to {full_date(weighed.last)}" if weighed.first != weighed.last else full_date(weighed.first)
    told = [f"{counted(weighed.rows, 'row')}, {span}."]
    told += [_counts(of, what) for of, what in ((weighed.lines, "line"), (weighed.places, "place"), (weighed.readings, "reading")) if of]
    if not weighed.brings_something:
        told.append("The keeper holds all of it already; reading it in adds nothing.")
    return " ".join(told)


def _why_nothing(weighed: Weighed) -> str:
    if not weighed.rows:
        return "There is nothing in it."
    if weighed.trouble_count >= weighed.rows:
        its = "It has 1 row, and that" if weighed.rows == 1 else f"It has {counted(weighed.rows, 'row')}, and none of them"
        return f"{its} {'was not' if weighed.rows == 1 else 'was'} understood."
    return f"It has {counted(weighed.rows, 'row')}. Which column is the date, and which holds words, a place or a reading, is still to be said."


def _counts(of: Counter, what: str) -> str:
    fresh, there, other = of[NEW] + of[MORE], of[THERE], of[OTHER]
    # A file brings no new places, but where nights were spent.
    new = f"A place for {counted(fresh, 'night')}" if what == "place" else counted(fresh, f"new {what}")
    parts = [new, f"{number(there)} there already" if there else ""]
    if other:
        parts.append(f"{number(other)} for {'a night that has' if other == 1 else 'nights that have'} {'other words' if what == 'line' else 'another'} already")
    return f"{', '.join(filter(None, parts))}."


def brought(kept: FileKept, other_words: str) -> str:
    """What a file brought, in a few sentences."""
    if kept.stopped and kept.act is None:
        return "Stopped. Nothing was written."
    fresh = kept.lines[NEW] + kept.lines[MORE]
    lines, readings = (counted(many, what) if many else "" for many, what in ((fresh, "line"), (kept.readings[NEW], "reading")))
    places = f"a place for {counted(kept.places[NEW], 'night')}" if kept.places[NEW] else ""
    parts = [one for one in (lines, places, readings) if one]
    other = kept.lines[OTHER]
    how = {JOIN: "both are in one line", ASIDE: "the file\u2019s are among the earlier wordings", REPLACE: "those of before are among the earlier wordings"}
    words = f" On {counted(other, 'night')} there were other words: {how[other_words]}." if other else ""
    # Of a place and a reading a night has one.
    stay = kept.places[OTHER] + kept.readings[OTHER]
    left = f" {counted(stay, 'other place or reading', 'other places and readings')} stayed as {'it was' if stay == 1 else 'they were'}." if stay and other_words != REPLACE else ""
    there = sum(of[THERE] for of in (kept.lines, kept.places, kept.readings))
    doubled = f" {number(there)} {'was' if there == 1 else 'were'} there already." if there else ""
    stopped = " Stopped: what was kept until then stays, and the same file goes on from there." if kept.stopped else _how_it_ended(kept)
    told = f"Kept: {', '.join(parts)}." if parts else "" if other else "Nothing was added."
    return f"{told}{words}{left}{doubled}{stopped}".strip()


def _how_it_ended(kept: FileKept) -> str:
    if kept.broken_off:
        return f" {kept.broken_off} What was kept until then stays, and the same file goes on from there."
    if kept.weighed.rows == kept.foreseen:
        return ""
    return f" The file changed meanwhile: {counted(kept.foreseen, 'row')} had been looked at, {number(kept.weighed.rows)} {'was' if kept.weighed.rows == 1 else 'were'} read."


def other(one: Decided) -> tuple[str, str, str]:
    """A night that has something else: the night, what is there, and what the file has."""
    coming = one.what.text if isinstance(one.what, ComingLine) else f"{one.what.value:g}" if isinstance(one.what, Reading) else one.what
    return full_date(one.item.night), one.there, coming


def trouble(one: NotUnderstood, unit: str) -> str:
    """Such as: line 12: “31.2.2026” is not a date."""
    where = f"{one.file}, line {one.number}" if one.file else f"{unit} {one.number}"
    words = f" ({one.words})" if one.words and one.words not in one.why else ""
    return f"{where}: {one.why.rstrip('.')}{words}"


def save_list(path: Path, looked: FileLooked, troubles: Iterable[NotUnderstood]) -> None:
    """Write what was not understood into a file. Raises CannotWrite."""
    rows = [f"Not understood in {shown_name(looked.path)}", "", *(trouble(one, looked.how.unit) for one in troubles)]
    try:
        path.write_text("\n".join(rows) + "\n", "utf-8")
    except OSError as error:
        raise CannotWrite(f"{shown_name(path)} cannot be written: {(error.strerror or str(error)).lower()}.") from error
