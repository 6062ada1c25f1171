"""Killing a real window again and again, and looking for every word that was on disk."""

import os
import random
import re
import subprocess
import sys
from pathlib import Path

from keeper.store import open_store

WINDOW = Path(__file__).with_name("typing_window.py")
PLACES = ("line", "draft", "wording", "draft_of")


def words_on_disk(folder: Path) -> set[str]:
    """Every word of the typist that a line, a draft or an earlier wording holds."""
    with open_store(folder) as store:
        texts = [row[0] for place in PLACES for row in store.rows(f"SELECT text FROM {place}")]
    return {word for text in texts for word in re.findall(r"w\d+n\d+", text)}


def kill_windows(folder: Path, times: int, seed: int, typist: Path = WINDOW) -> tuple[int, dict[int, set[str]]]:
    """Let so many windows be killed while one types in them, as the ``typist`` does.

    Returns how many words were on disk at some kill, and for each kill the
    words that were there before it and no more after it.
    """
    chance, seen, lost = random.Random(seed), set(), {}
    for number in range(times):
        _killed(folder, typist, number, chance.choice((7, 7, 20)) + chance.randrange(6))
        there = words_on_disk(folder)
        lost[number] = seen - there
        seen |= there
    return len(seen), {number: words for number, words in lost.items() if words}


def _killed(folder: Path, typist: Path, number: int, things: int) -> None:
    env = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    with subprocess.Popen([sys.executable, typist, folder, str(number)], stdout=subprocess.PIPE, env=env) as window:
        # Once it has done so many things, each of which it tells: how long that takes is no matter here.
        told = window.stdout.read(things)
        window.kill()
    assert told == b"." * things
