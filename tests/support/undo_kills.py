"""Processes that take back and do again, really killed."""

import random
import subprocess
import sys
import time
from pathlib import Path

from soundness import whole
from whole_keeper import content

from keeper.store import open_store
from keeper.store.history import turning

UNDOER = Path(__file__).parent.parent / "store" / "history" / "killed_undoer.py"


def kill_undoers(folder: Path, times: int, seed: int) -> tuple[int, set[str]]:
    """Kill so many, two at work at a time; how many texts were told, and those of them that are nowhere."""
    chance, told = random.Random(seed), set()
    for number in range(times):
        both = [subprocess.Popen([sys.executable, UNDOER, folder, str(number * 2 + which)], stdout=subprocess.PIPE, text=True)
                for which in (0, 1)]  # fmt: skip
        for undoer in both:
            told |= {undoer.stdout.readline().split()[-1]}
        time.sleep(chance.uniform(0, 0.15))
        for undoer in both:
            undoer.kill()
        for undoer in both:
            rows = undoer.communicate()[0]
            told |= {row.split()[1] for row in rows[: rows.rfind("\n") + 1].splitlines()}
        check(folder)
    with open_store(folder) as store:
        return len(told), {text for text in told if not is_somewhere(store, text)}


def is_somewhere(store, text: str) -> bool:
    """Whether a text is a line, an earlier wording, or what an act would bring back."""
    return store.row(
        "SELECT EXISTS (SELECT 1 FROM line WHERE instr(text, :t)) OR EXISTS (SELECT 1 FROM wording WHERE instr(text, :t)) "
        "OR EXISTS (SELECT 1 FROM change WHERE instr(old, :t))", {"t": f"{text} "},
    )[0] == 1  # fmt: skip


def check(folder: Path) -> None:
    """The keeper is sound, and what was done can be taken back and done again."""
    with open_store(folder) as store:
        assert whole(store) and store.rows("PRAGMA foreign_key_check") == [] and store.rows("SELECT * FROM undoing") == []
        assert store.rows("SELECT count(*) FROM change WHERE seq NOT IN (SELECT seq FROM act_part JOIN change ON seq BETWEEN begins AND ends)") == [(0,)]
        there, turned = content(store), 0
        while turned < 5 and (number := turning.next_undone(store)) is not None:
            turning.turn(store, number)
            turned += 1
        for _ in range(turned):
            turning.turn(store, turning.next_redone(store))
        assert content(store) == there
