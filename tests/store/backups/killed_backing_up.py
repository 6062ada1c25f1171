"""A process that writes and backs up, or brings back, over and over and tells of each; for tests that kill it.

    python killed_backing_up.py back|bring|broken|move FOLDER
"""

import sys
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from itertools import count
from pathlib import Path

from keeper.actions import writing
from keeper.actions.backups import bringing_back, listed, making
from keeper.actions.keepers import moving
from keeper.clock import StoppedClock
from keeper.errors import KeeperError
from keeper.store import open_store

NIGHT = date(2026, 11, 14)
CLOCK = StoppedClock(datetime(2026, 11, 14, 20, tzinfo=UTC), "")


def tell(*words: object) -> None:
    """On a row of its own, at once."""
    print(*words, flush=True)


def clock_from_now() -> StoppedClock:
    """A clock of which no two processes have the same."""
    return replace(CLOCK, at=datetime.now(UTC))


def back(folder: Path) -> None:
    """Keep a line, back up, tell of both."""
    with open_store(folder) as store:
        tell("ready")
        for number in count():
            clock = replace(CLOCK, at=clock_from_now().at + timedelta(seconds=number))
            writing.write_line(store, NIGHT - timedelta(days=number % 20), "memory", f"Line {clock.at}.", clock)
            try:
                tell("made", making.back_up_now(store, making.own_place(store), clock).path.parent.name)
            except KeeperError as error:
                tell("not", error)


def bring(folder: Path) -> None:
    """Bring each backup there is back in turn."""
    with open_store(folder) as store:
        tell("ready")
        for number in count():
            those = [one for one in listed(folder) if one.kind == "daily"]
            clock = replace(CLOCK, at=clock_from_now().at + timedelta(seconds=number))
            bringing_back.bring_back(store, those[number % len(those)], clock)
            tell("brought", those[number % len(those)].name)


def broken(folder: Path) -> None:
    """Bring a backup into the place of a file that cannot be opened."""
    tell("ready")
    bringing_back.bring_back_into(folder, listed(folder)[0], clock_from_now())
    tell("brought")


def move(folder: Path) -> None:
    """Move the keeper to a folder beside it."""
    away = folder.with_name("away")
    tell("ready")
    moving.move(folder, away, NIGHT)
    tell("moved")


if __name__ == "__main__":
    {"back": back, "bring": bring, "broken": broken, "move": move}[sys.argv[1]](Path(sys.argv[2]))
