"""Mending: what a broken keeper still holds, looked at first, then made into a new one."""

import sqlite3
import tempfile
from collections.abc import Callable, Iterable
from contextlib import suppress
from dataclasses import dataclass, field, replace
from pathlib import Path

from keeper.errors import NotAKeeper
from keeper.store.damage import building, placing, selecting
from keeper.store.damage.building import Kept
from keeper.store.damage.carving import LEFT_OVER, NONE, RIGHT, WRONG, Carved, Haul, carve
from keeper.store.damage.choosing import Sorting, choose, numbers_of_kinds
from keeper.store.damage.filling import with_own_ids
from keeper.store.damage.pages import MAGIC, Pages, pages_of
from keeper.store.file.folder import FILE, PHOTOS, holds_something
from keeper.store.file.log import log_of
from keeper.store.file.opening import MARK
from keeper.store.file.sentences import told
from keeper.store.file.sums import line_sum
from keeper.store.ids import new_id

GoOn = Callable[[float, str], None]
"""Hears how far the work is, 0 to 1, and what is done; may raise Stopped."""


@dataclass(frozen=True)
class Survey:
    """What is left of a keeper. ``choice`` tells the lines apart; ``tables`` what could be read besides them.

    ``broken_pages`` and ``lost_pages`` are pages that make no sense, and those
    that the file should have and has not: what stood in them cannot be counted.
    """

    folder: Path
    backup: Path | None
    choice: Sorting
    broken_pages: int
    lost_pages: int
    tables: tuple[selecting.Read, ...] = field(repr=False, default=())
    wordings: tuple[Carved, ...] = field(repr=False, default=())
    numbers: dict[str, int] = field(repr=False, default_factory=dict)

    @property
    def may_lack_more(self) -> bool:
        """Whether more may be missing than can be named."""
        return bool(self.broken_pages or self.lost_pages)


@dataclass(frozen=True)
class Mended:
    """What the new keeper holds; ``room`` is where it lies with the broken one."""

    room: Path
    lines: int
    tables: tuple[Kept, ...]


def is_ours(folder: Path, backup: Path | None) -> bool:
    """Whether what lies there as a keeper's file is, or was, one: it says so, lines of ours stand in it, or beside it.

    Raises CannotWrite when it cannot be read.
    """
    with told(folder):
        data, log = _bytes(folder)
    if len(data) >= 72 and data[68:72] == MARK.to_bytes(4, "big"):
        return True
    if len(data) < 2 * len(MAGIC) and (backup is not None or holds_something(folder / PHOTOS)):
        return True
    haul = carve(pages_of(data, log))
    return any(one.proof == RIGHT for one in (*haul.lines, *haul.wordings)) or b"CREATE TABLE line (\n        number" in data


def look(folder: Path, backup: Path | None, go_on: GoOn = lambda *_: None) -> Survey:
    """What can be saved of the keeper in a folder, with the newest good backup if there is one; changes nothing.

    Raises CannotWrite when it cannot be read, NotAKeeper when the backup
    cannot, and whatever ``go_on`` raises.
    """
    with told(folder):
        pages = pages_of(*_bytes(folder))
        haul = carve(pages, lambda share: go_on(0.6 * share, "Lines"))
        go_on(0.6, "The backup" if backup else "Everything else")
        with tempfile.TemporaryDirectory(prefix="keeper-", ignore_cleanup_errors=True) as passing:
            shape = Path(passing, "shape.db")
            building.begin(shape, backup)
            choice = choose(haul, _of_backup(shape) if backup else ())
            go_on(0.75, "Everything else")
            tables = _read(pages, shape, Path(passing, "read.db"))
    wordings = tuple(one for one in haul.wordings if one.place != LEFT_OVER and one.proof != WRONG)
    lost = max(pages.expected - len(pages.pages), 0) if pages.expected < 1 << 24 else 0
    return Survey(folder, backup, choice, haul.broken_pages, lost, tables, wordings, _numbers(haul))


def _bytes(folder: Path) -> tuple[bytes, bytes]:
    log = log_of(folder / FILE)
    return (folder / FILE).read_bytes(), log.read_bytes() if log.exists() else b""


def _numbers(haul: Haul) -> dict[str, int]:
    return numbers_of_kinds(haul.lines)


def _of_backup(shape: Path) -> list[Carved]:
    found = []
    for number, *columns, given in building.lines_in(shape):
        with suppress(UnicodeEncodeError):
            proof = NONE if given is None else RIGHT if line_sum(*columns) == given else WRONG
            found.append(Carved(number, *columns, given, proof, "backup"))
    return [one for one in found if one.proof != WRONG]


def _read(pages: Pages, shape: Path, copy: Path) -> tuple[selecting.Read, ...]:
    selecting.lay_out(pages, copy)
    wanted = building.columns_of(shape)
    with selecting.opened(copy) as connection:
        there = selecting.tables_of(connection)
        return tuple(selecting.read(connection, table, columns) for table, columns in wanted.items()
                     if table in there and table != "line")  # fmt: skip


def mend(survey: Survey, taken: Iterable[Carved], name: str, go_on: GoOn = lambda *_: None) -> Mended:
    """Make a new keeper beside the broken one, which stays in its place; ``placing.finish`` changes them.

    ``taken`` are the doubtful and left-over lines that the person wants; one
    for a night that has another takes its place, and that becomes an earlier
    wording. ``name`` is that of the folder in which both are kept. Raises
    CannotWrite, NotAKeeper, and whatever ``go_on`` raises.
    """
    lines, wordings = _decided(survey, taken)
    with told(survey.folder):
        room = placing.begun(survey.folder, name)
        target = placing.mended_in(room)
        go_on(0.3, "The new keeper")
        building.begin(target, survey.backup)
        go_on(0.5, "Lines")
        try:
            kept = building.fill(target, lines, wordings, survey.tables, survey.numbers)
        except sqlite3.DatabaseError as error:
            raise NotAKeeper(f"The new keeper is not sound, and was not used: {error}.") from error
        go_on(0.9, "The disk")
        return Mended(placing.make_ready(room), next(one.rows for one in kept if one.table == "line"), kept)


def _decided(survey: Survey, taken: Iterable[Carved]) -> tuple[list[Carved], list[Carved]]:
    chosen = {one.key: one for one in survey.choice.lines}
    wordings = list(survey.wordings)
    for one in taken:
        if (there := chosen.get(one.key)) is not None:
            wordings.append(replace(there, replaced_at=there.written_at))
        chosen[one.key] = replace(one, id=there.id if there else one.id or new_id(), zone=one.zone)
    return with_own_ids(chosen.values()), wordings
