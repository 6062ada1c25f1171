"""Writes lines and drafts until it is killed, telling each one that is kept.

``python killed_writer.py FOLDER ROUND``: run by test_kill.py.
"""

import sys
from datetime import date, timedelta
from itertools import count
from pathlib import Path

from keeper.actions import writing
from keeper.actions.opening import open_or_begin
from keeper.clock import Clock

FIRST = date(1900, 1, 1)
KINDS = ("gratitude", "memory")


def night_of_round(round_number: int, number: int) -> date:
    """A night of its own for each round and number."""
    return FIRST + timedelta(days=round_number * 1000 + number % 1000)


def text_of(number: int) -> str:
    """A text that tells its number, long enough to fill pages."""
    return f"n{number} \u00e6r\u00f8 ferry " + "and a good deal more to say " * (number % 40)


def write_for_ever(folder: Path, round_number: int) -> None:
    """Write, and say so on standard output once it is kept."""
    store, clock = open_or_begin(folder), Clock()
    for number in count():
        night, kind = night_of_round(round_number, number), KINDS[number % 2]
        writing.keep_draft(store, FIRST, "reflection", text_of(number), clock)
        print("draft", number, flush=True)
        writing.write_line(store, night, kind, text_of(number), clock)
        print("line", night, kind, number, flush=True)
        if number % 7 == 0:
            writing.write_line(store, night, kind, text_of(number) + "changed", clock)
            print("changed", night, kind, number, flush=True)


if __name__ == "__main__":
    write_for_ever(Path(sys.argv[1]), int(sys.argv[2]))
