"""Breaks keepers as disks do, and looks what becomes of every line of them."""

import random
import shutil
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from functools import cached_property
from pathlib import Path

from keeper.actions import writing
from keeper.actions.damage import checking, mending
from keeper.actions.opening import open_kept
from keeper.clock import StoppedClock
from keeper.errors import KeeperError
from keeper.model import KINDS
from keeper.store import create_store, lines, open_store
from keeper.store.file.folder import FILE
from keeper.store.file.opening import back_up
from keeper.store.folding import folded_or_none

NIGHT = date(2026, 11, 14)
CLOCK = StoppedClock(datetime(2026, 11, 14, 22, tzinfo=UTC), "UTC")
PAGE = 4096
LOG = f"{FILE}-wal"
ROW = "id, night, kind, text, written_at, offset_minutes, zone, sum"
WORDS = ["ferry", "kettle", "quay", "pedal", "hammer", "bread", "choir", "cold", "water", "sister", "snow", "ærø", "пирс", "茶", "lamp", "string", "felt"]


def make(folder: Path, count: int = 400) -> None:
    """A keeper of so many lines of all lengths, a few changed and taken out, with a backup of the day before."""
    chance = random.Random(12)
    with create_store(folder) as store, store.writing():
        for n in range(count - 12):
            night = NIGHT - timedelta(days=n // 3)
            if n % 9 == 0:
                writing.set_place(store, night, f"Town {n % 7}", CLOCK)
            words = " ".join(chance.choices(WORDS, k=chance.choice((3, 12, 12, 20, 20, 40, 900))))
            writing.write_line(store, night, KINDS[n % 3], f"{words} {n}", CLOCK)
        for n in range(6):
            writing.write_line(store, NIGHT - timedelta(days=20 + n), "memory", f"Changed {n}." if n % 2 else "", CLOCK)
    with open_store(folder) as store:
        back_up(store, folder / "backups" / "a day old.db")
    with open_store(folder) as store, store.writing():
        for n in range(12):
            writing.write_line(store, NIGHT + timedelta(days=1 + n // 3), KINDS[n % 3], f"Of today {n}", CLOCK)


def leave_a_log(folder: Path, to: Path) -> None:
    """A copy of a keeper as a program leaves it that was killed: its last lines are in the log."""
    shutil.copytree(folder, to, dirs_exist_ok=True)
    with open_store(to) as store:
        store.connection.execute("PRAGMA wal_autocheckpoint = 0")
        for n in range(20):
            writing.write_line(store, NIGHT + timedelta(days=10 + n), "memory", f"In the log {n}", CLOCK)
        killed = {name: (to / name).read_bytes() for name in (FILE, LOG)}
    for name, data in killed.items():
        (to / name).write_bytes(data)


class Rows(dict[tuple[str, str], tuple]):
    """All lines by night and kind."""

    @cached_property
    def payloads(self) -> dict[tuple[str, str], bytes]:
        """The bytes of each line that lies in one page: its own values from the id on, as the file has them."""
        found = {}
        for key, (line_id, night, kind, text, written_at, *_) in self.items():
            values = f"{line_id}{night}{kind}{text}{folded_or_none(text) or ''}{written_at}".encode()
            if len(values) < 3900:
                found[key] = values
        return found


def rows_of(folder: Path) -> Rows:
    """All lines by night and kind, as SQLite reads them."""
    with open_store(folder) as store:
        return Rows({(row[1], row[2]): row for row in store.rows(f"SELECT {ROW} FROM line")})


def _flip(data: bytearray, chance: random.Random) -> None:
    for _ in range(chance.choice((1, 3, 10, 40))):
        data[chance.randrange(len(data))] ^= 1 << chance.randrange(8)


def _zero(data: bytearray, chance: random.Random) -> None:
    for _ in range(chance.choice((1, 2, 5))):
        at = chance.randrange(-(-len(data) // PAGE)) * PAGE
        data[at : at + PAGE] = bytes(len(data[at : at + PAGE]))


def _swap(data: bytearray, chance: random.Random) -> None:
    for _ in range(chance.choice((1, 2))):
        one, two = (chance.randrange(max(len(data) // PAGE, 1)) * PAGE for _ in range(2))
        first, second = data[one : one + PAGE], data[two : two + PAGE]
        if len(first) == len(second):
            data[one : one + PAGE], data[two : two + PAGE] = second, first


def _cut(data: bytearray, chance: random.Random) -> None:
    del data[chance.choice((chance.randrange(len(data)), len(data) - chance.randrange(1, 3 * PAGE))) :]


def _tear(data: bytearray, chance: random.Random) -> None:
    begin = chance.choice((0, 0, chance.randrange(100)))
    long = chance.choice((4, 16, 60, 100))
    data[begin : begin + long] = chance.choice((bytes(long), chance.randbytes(long)))


def _scribble(data: bytearray, chance: random.Random) -> None:
    at, long = chance.randrange(len(data)), chance.choice((8, 64, 512))
    data[at : at + long] = chance.randbytes(len(data[at : at + long]))


DAMAGES: tuple[Callable, ...] = (_flip, _zero, _swap, _cut, _tear, _scribble)


def break_a_copy(sound: Path, folder: Path, number: int, with_backup: bool) -> None:
    """Damage a copy of a keeper, always in the same way for the same number; now and then its log, if it has one."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    for part in (FILE, LOG):
        if (sound / part).exists():
            shutil.copyfile(sound / part, folder / part)
    (folder / "photos").mkdir()
    if with_backup:
        shutil.copytree(sound / "backups", folder / "backups")
    chance, damage = random.Random(number), DAMAGES[number % len(DAMAGES)]
    # A log of which the end is gone is what it was some moments before: nobody can tell.
    in_log = (sound / LOG).exists() and number // len(DAMAGES) % 2 and damage is not _cut
    victim = folder / (LOG if in_log else FILE)
    data = bytearray(victim.read_bytes())
    damage(data, chance)
    victim.write_bytes(data)


def silently_lost(folder: Path, rows: dict[tuple[str, str], tuple]) -> list[tuple]:
    """Lines that an ordinary opening neither shows as they were nor tells of, by the checks made in the background."""
    try:
        with open_kept(folder) as store:
            if checking.look_over(store, NIGHT):
                return []
            shown = {(one.night.isoformat(), one.kind): one.text for one in lines.between(store, date(1900, 1, 1), date(2100, 1, 1))}
            return [] if store.damage else [key for key, row in rows.items() if shown.get(key) != row[3]]
    except KeeperError:
        return []


def whole_in(folder: Path, payloads: dict[tuple[str, str], bytes]) -> set[tuple[str, str]]:
    """The lines whose bytes stand whole in what is left of a keeper."""
    data = b"".join((folder / part).read_bytes() for part in (FILE, LOG) if (folder / part).exists())
    return {key for key, payload in payloads.items() if payload in data}


def mended(folder: Path) -> tuple[mending.Survey, mending.Mended]:
    """Look and mend, without taking anything that is doubtful, and put it into place."""
    survey = mending.look(folder)
    made = mending.mend(survey, (), datetime(2026, 11, 15, 9))
    assert mending.put_into_place(folder)
    return survey, made
