"""Processes that back up, bring back and move, really killed, and what must be true of what they leave."""

import random
import shutil
import subprocess
import sys
import time
from datetime import UTC, date, datetime
from pathlib import Path

from soundness import whole

from keeper.actions import opening, writing
from keeper.actions.backups import listed, making
from keeper.actions.backups.bringing_back import bring_back_into
from keeper.actions.backups.listing import is_good
from keeper.clock import StoppedClock
from keeper.store import lines, open_store
from keeper.store.backups.inside import opened
from keeper.store.file.opening import FILE
from keeper.store.photos import known

PROGRAM = Path(__file__).parents[1] / "store" / "backups" / "killed_backing_up.py"
ALL = date(1900, 1, 1), date(2999, 12, 31)
CLOCK = StoppedClock(datetime(2026, 11, 14, 20, tzinfo=UTC), "")


def killed(what: str, folder: Path, after: float) -> list[str]:
    """What a process told before it was killed, so many seconds after its first word."""
    running = subprocess.Popen([sys.executable, PROGRAM, what, folder], stdout=subprocess.PIPE, text=True)
    told = running.stdout.readline()
    time.sleep(after)
    running.kill()
    told += running.communicate()[0]
    # The last row may be cut.
    return told[: told.rfind("\n")].split("\n")


def words(folder: Path) -> dict:
    """All lines of the keeper, which must open, be whole, and have all its photos."""
    with open_store(folder) as store:
        assert whole(store)
        for photo in known.every(store):
            known.check(store, photo)
        return {(line.night, line.kind): line.text for line in lines.between(store, *ALL)}


def kill_in_backing_up(folder: Path, chance: random.Random, longest: float) -> None:
    """What was told as made is listed and good, and so is everything listed."""
    told = killed("back", folder, chance.uniform(0, longest))
    assert words(folder)
    there = listed(folder)
    assert all(is_good(one) for one in there)
    made = [row.removeprefix("made ") for row in told if row.startswith("made ")]
    # Of one day the newest stays.
    assert not made or max(made) <= max(one.name for one in there)


def kill_in_bringing_back(folder: Path, chance: random.Random, longest: float) -> None:
    """The keeper holds what it held or what a backup holds, and what it held is there still."""
    before = words(folder)
    killed("bring", folder, chance.uniform(0, longest))
    now, held = words(folder), [words_of(one.path) for one in listed(folder)]
    assert now == before or now in held
    assert before == now or before in held
    assert all(is_good(one) for one in listed(folder))
    for aside in [one for one in listed(folder) if one.kind == "aside"][2:]:
        shutil.rmtree(aside.path.parent)


def words_of(file: Path) -> dict:
    """All lines of a backup."""
    with opened(file) as copy:
        return {(line.night, line.kind): line.text for line in lines.between(copy, *ALL)}


def kill_over_a_broken_one(folder: Path, chance: random.Random, longest: float) -> None:
    """The keeper is the broken one still, byte by byte, or the one brought back; and then the broken one is kept."""
    rubbish = bytes(chance.randbytes(20_000))
    (folder / FILE).write_bytes(rubbish)
    (folder / f"{FILE}-wal").write_bytes(b"log" + rubbish)
    killed("broken", folder, chance.uniform(0, longest))
    kept = [path for path in (folder / "backups").glob("* unreadable") if (path / FILE).read_bytes() == rubbish]
    if (folder / FILE).read_bytes() == rubbish:
        log = folder / f"{FILE}-wal"
        assert kept or log.read_bytes() == b"log" + rubbish
        bring_back_into(folder, listed(folder)[0], StoppedClock(datetime.now(UTC), ""))
    else:
        assert kept and (kept[0] / f"{FILE}-wal").read_bytes() == b"log" + rubbish
    assert words(folder) == words_of(listed(folder)[0].path)


def kill_in_moving(folder: Path, chance: random.Random, longest: float) -> None:
    """The keeper is whole in its old folder or in the new one; and comes back for the next time."""
    away = folder.with_name("away")
    before, held = words(folder), {one.name for one in listed(folder)}
    killed("move", folder, chance.uniform(0, longest))
    for left in folder.parent.glob(".*.coming-*"):
        shutil.rmtree(left)
    there = [one for one in (folder, away) if (one / FILE).exists()]
    assert there and all(words(one) == before and {kept.name for kept in listed(one)} == held for one in there)
    # Where only the new one is there, that is where the person's own is looked for.
    assert folder in there or opening.own_folder() == away
    if folder not in there:
        shutil.rmtree(folder, ignore_errors=True)
        away.rename(folder)
    shutil.rmtree(away, ignore_errors=True)
    opening.note_moved(folder)


def with_backups(store, many: int = 3) -> None:
    """Some backups of a keeper, each with other words."""
    for number in range(many):
        clock = StoppedClock(CLOCK.at.replace(day=number + 1), "")
        writing.write_line(store, date(2026, 11, 1), "reflection", f"Of day {number}.", clock)
        making.back_up_now(store, making.own_place(store), clock)
