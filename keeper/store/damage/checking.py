"""Whether a keeper is what was written: SQLite's own checks, and the sum of every line."""

import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from zlib import crc32

from keeper.errors import NotAKeeper, Stopped
from keeper.store.file.folder import FILE
from keeper.store.file.log import PAGE_SIZE, is_cut_off, log_of
from keeper.store.file.opening import Store
from keeper.store.moments import NUMBERS_A_NIGHT

_AT_ONCE = 4000
"""Lines between two looks whether to stop."""

_BETWEEN = b"\x1f"


@dataclass(frozen=True)
class Trouble:
    """What is wrong; false when nothing is.

    ``changed`` are nights and kinds whose lines are not what was written.
    ``built`` is what SQLite says of the file, "" for nothing.
    """

    changed: tuple[tuple[str, str], ...] = ()
    built: str = ""

    def __bool__(self) -> bool:
        return bool(self.changed or self.built)


def quick(store: Store, stopped: Callable[[], bool] = lambda: False) -> Trouble:
    """What is wrong with the file and with the lines; some tenths of a second for fifty years. Raises Stopped."""
    try:
        built = store.rows("PRAGMA integrity_check(3)")
        return Trouble(_changed(store, stopped), "" if built == [("ok",)] else str(built[0][0]))
    except NotAKeeper as damage:
        return Trouble((), str(damage.__cause__ or damage))


def full(store: Store, stopped: Callable[[], bool] = lambda: False) -> Trouble:
    """The same, and the earlier wordings, what refers to what, and the index of words. Raises Stopped.

    Asked of a copy in memory, so that whoever writes need not wait.
    """
    found = quick(store, stopped)
    if found:
        return found
    # One that was opened to read only leaves the log as it was found.
    if store.only_read and _log_is_broken(store):
        return Trouble((), "the log has a frame that is broken")
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as copy:
        # Twenty pages at a time and more: it can be stopped.
        store.connection.backup(copy, pages=2000, progress=lambda *_: _go_on(stopped))
        try:
            copy.execute("INSERT INTO line_words (line_words, rank) VALUES ('integrity-check', 1)")
            untied = copy.execute("PRAGMA foreign_key_check").fetchone()
            wrong = _wordings_changed(copy)
        except sqlite3.DatabaseError as error:
            return Trouble((), f"the index of words: {error}")
    if untied:
        return Trouble((), f"{untied[0]} refers to a {untied[2]} that is not there")
    return Trouble((), f"{wrong} earlier wordings are not what was written") if wrong else Trouble()


def _log_is_broken(store: Store) -> bool:
    log = log_of(store.folder / FILE)
    try:
        return is_cut_off(log.read_bytes(), PAGE_SIZE)
    except OSError:
        return False


def _changed(store: Store, stopped: Callable[[], bool]) -> tuple[tuple[str, str], ...]:
    found: list[tuple[str, str]] = []
    residues: dict[bytes, dict[int, list]] = {}
    last = -(1 << 63)
    while rows := store.rows(f"{_OF_LINES} WHERE number > ? ORDER BY number LIMIT {_AT_ONCE}", (last,)):
        _go_on(stopped)
        # In a tree whose pages are swapped numbers go back, and one would go round for ever; SQLite's check tells of it.
        if max(row[0] for row in rows) <= last:
            break
        last = max(row[0] for row in rows)
        for number, given, ordinal, *columns in rows:
            if not _is_right(given, columns) or number // NUMBERS_A_NIGHT != ordinal:
                found.append(_key(columns))
            residues.setdefault(columns[2], {}).setdefault(number % NUMBERS_A_NIGHT, []).append(_key(columns))
    # All lines of a kind have one place within their nights.
    for places in residues.values():
        for few in sorted(places.values(), key=len)[:-1]:
            found += few
    return tuple(dict.fromkeys(found))


# The ordinal of Python's calendar: 1721424.5 is the day before its first. As bytes: they need not be text.
_OF_LINES = (
    "SELECT number, sum, CAST(julianday(night) - 1721424.5 AS INTEGER), CAST(id AS BLOB), CAST(night AS BLOB), "
    "CAST(kind AS BLOB), CAST(text AS BLOB), CAST(written_at AS BLOB), offset_minutes, CAST(zone AS BLOB) FROM line"
)

_OF_WORDINGS = (
    "SELECT sum, CAST(line_id AS BLOB), CAST(night AS BLOB), CAST(kind AS BLOB), CAST(text AS BLOB), "
    "CAST(written_at AS BLOB), offset_minutes, CAST(zone AS BLOB) FROM wording WHERE sum IS NOT NULL"
)


def _is_right(given: object, columns: list) -> bool:
    *texts, offset, zone = columns
    return None not in columns and isinstance(offset, int) and crc32(_BETWEEN.join((*texts, b"%d" % offset, zone))) == given


def _wordings_changed(copy: sqlite3.Connection) -> int:
    return sum(not _is_right(given, columns) for given, *columns in copy.execute(_OF_WORDINGS))


def _key(columns: list) -> tuple[str, str]:
    night, kind = (one.decode("utf-8", "replace") if isinstance(one, bytes) else "" for one in columns[1:3])
    return night, kind


def _go_on(stopped: Callable[[], bool]) -> None:
    if stopped():
        raise Stopped
