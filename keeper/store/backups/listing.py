"""Which backups a folder holds, and what is in each."""

import re
import sqlite3
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path

from keeper.errors import NotAKeeper
from keeper.store.backups.photos import Wanted
from keeper.store.file.copies import connected_copy, connected_to_check
from keeper.store.file.folder import FILE
from keeper.store.file.opening import MARK
from keeper.store.moments import day

PHOTOS_AND_SCANS = "SELECT sha256, ending, bytes FROM photo UNION SELECT sha256, ending, bytes FROM scan"
"""The files that go with a keeper: those of photos, and of pages of a notebook."""

DAILY, ASIDE, UPGRADE = "daily", "aside", "upgrade"
"""The kinds: made by itself or when asked for; kept aside before another was brought back; made before an upgrade."""

_NAME = re.compile(r"(\d{4}-\d{2}-\d{2})(?: \d{2}\.\d{2}\.\d{2})?( aside)?")


@dataclass(frozen=True, slots=True)
class Backup:
    """A whole copy of a keeper: ``path`` is its database file.

    ``day`` is when it was made; ``nights``, ``lines`` and ``photos`` are how
    many it holds, ``last_line`` the night of the last one. ``bytes`` are those
    of its own files, without photos. ``kind`` is daily, aside or upgrade. One
    that is not ``sound`` cannot be read, and nothing is known of it.
    """

    path: Path
    day: date
    nights: int
    lines: int
    photos: int
    last_line: date | None
    bytes: int
    kind: str = DAILY
    sound: bool = True

    @property
    def name(self) -> str:
        """What it is called in its folder."""
        return self.path.parent.name if self.path.name == FILE else self.path.stem

    @property
    def place(self) -> Path:
        """The folder in which it and its photos lie."""
        return self.path.parent.parent if self.path.name == FILE else self.path.parent


def listed(place: Path) -> tuple[Backup, ...]:
    """The backups in a folder, the newest first; none where there is no such folder."""
    found = [_told(*one) for one in files_in(place)]
    return tuple(sorted(found, key=lambda one: (one.day, one.name), reverse=True))


def files_in(place: Path) -> Iterator[tuple[Path, date, str]]:
    """The file of each backup, its day and kind, without a look inside."""
    with suppress(OSError):
        for entry in sorted(place.iterdir()):
            if (name := _NAME.fullmatch(entry.name)) and (entry / FILE).is_file():
                with suppress(ValueError):
                    yield entry / FILE, date.fromisoformat(name[1]), ASIDE if name[2] else DAILY
            elif entry.name.startswith("before-upgrade-from-") and entry.suffix == ".db":
                yield entry, datetime.fromtimestamp(entry.stat().st_mtime).date(), UPGRADE


def newest_day(place: Path) -> date | None:
    """The day of the newest daily backup, or None."""
    return max((made for _, made, kind in files_in(place) if kind == DAILY), default=None)


def _told(path: Path, made: date, kind: str) -> Backup:
    try:
        with connected_copy(path) as file:
            if _ask(file, "PRAGMA application_id") != MARK:
                raise NotAKeeper("It is none.")
            counted = [_ask(file, f"SELECT count(*) FROM {table}") for table in ("night", "line", "photo")]
            last = _ask(file, "SELECT max(night) FROM line")
            return Backup(path, made, *counted, day(last) if last else None, _bytes(path), kind)
    except (sqlite3.Error, OSError, NotAKeeper):
        return Backup(path, made, 0, 0, 0, None, _bytes(path), kind, sound=False)


def _ask(file: sqlite3.Connection, question: str):
    return file.execute(question).fetchone()[0]


def _bytes(path: Path) -> int:
    with suppress(OSError):
        return sum(file.stat().st_size for file in (path.parent.iterdir() if path.name == FILE else (path,)))
    return 0


def photos_of(backup: Path) -> list[Wanted]:
    """The photos of a backup, and the pages of a notebook. Raises sqlite3.Error."""
    with connected_copy(backup) as file:
        # One of an older version knows of no pages.
        pages = _ask(file, "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name = 'scan'")
        return file.execute(PHOTOS_AND_SCANS if pages else "SELECT sha256, ending, bytes FROM photo").fetchall()


def check(backup: Backup) -> bool:
    """Whether SQLite finds the file sound, all of it."""
    try:
        with connected_to_check(backup.path) as file:
            return _ask(file, "PRAGMA integrity_check") == "ok" and not file.execute("PRAGMA foreign_key_check").fetchall()
    except (sqlite3.Error, OSError):
        return False
