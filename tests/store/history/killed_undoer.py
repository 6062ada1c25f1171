"""Writes, takes back and does again until it is killed, telling each text that is kept.

``python killed_undoer.py FOLDER SEED``: run by test_killed_undoing.py, and by the campaign in tests/bench.
"""

import random
import sys
import time
from datetime import date, timedelta
from itertools import count
from pathlib import Path

from keeper.actions import writing
from keeper.actions.history import undoing
from keeper.actions.history.moving import move_line
from keeper.actions.opening import open_or_begin
from keeper.clock import Clock
from keeper.errors import AlreadyKept, CannotTurn, CannotWrite, UnknownThing

FIRST = date(1900, 1, 1)
KINDS = ("gratitude", "memory")


def turn_for_ever(folder: Path, seed: int) -> None:
    """Do one thing after another, and say so on standard output once it is done."""
    store, clock, chance = open_or_begin(folder), Clock(), random.Random(seed)
    for number in count():
        night, kind = FIRST + timedelta(days=chance.randrange(40)), chance.choice(KINDS)
        what = chance.random()
        try:
            if what < 0.4:
                text = f"r{seed}n{number} \u00e6r\u00f8 " + "and more " * (number % 30)
                writing.write_line(store, night, kind, text, clock)
                print("text", text.strip().split()[0], flush=True)
            elif what < 0.5:
                writing.set_place(store, night, f"Place {number % 9}", clock)
            elif what < 0.55:
                move_line(store, night, kind, FIRST + timedelta(days=chance.randrange(40)), kind, clock)
            elif what < 0.8:
                undoing.undo(store)
            elif what < 0.95:
                undoing.redo(store)
            else:
                undoing.turn(store, 1 + chance.randrange(number + 1))
        except (AlreadyKept, CannotTurn, CannotWrite, UnknownThing):
            pass
        # The other one is to come in too.
        time.sleep(0.002)


if __name__ == "__main__":
    turn_for_ever(Path(sys.argv[1]), int(sys.argv[2]))
