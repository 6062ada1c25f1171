"""A writing process is really killed, again and again; nothing it told of is lost."""

import random
import subprocess
import sys
import time
from datetime import date
from pathlib import Path

from killed_writer import FIRST, text_of
from soundness import whole

from keeper.actions.opening import open_or_begin
from keeper.store import create_store, lines, open_store

TIMES = 12
WRITER = Path(__file__).with_name("killed_writer.py")


def killed(folder: Path, number: int, rows: int, after: float) -> list[list[str]]:
    """What a writer told before it was killed, a moment after so many rows."""
    writer = subprocess.Popen([sys.executable, WRITER, folder, str(number)], stdout=subprocess.PIPE, text=True)
    told = "".join(writer.stdout.readline() for _ in range(rows))
    time.sleep(after)
    writer.kill()
    told += writer.communicate()[0]
    # The last row may be cut; what is not told in full is not yet promised.
    return [row.split() for row in told[: told.rfind("\n")].split("\n")]


def check(folder: Path, promised: dict[tuple[str, str], str], draft: int) -> None:
    """Open the keeper as it was left, and look for everything that was promised."""
    with open_store(folder) as store:
        assert whole(store)
        kept = {(line.night.isoformat(), line.kind): line.text for line in lines.between(store, FIRST, date(2100, 1, 1))}
        missing = {key for key, text in promised.items() if not kept.get(key, "").startswith(text)}
        assert missing == set()
        (waiting,) = lines.drafts(store, FIRST)
        assert int(waiting.text.split()[0][1:]) >= draft
        for night, kind in list(promised)[-3:]:
            earlier = lines.wordings(store, date.fromisoformat(night), kind)
            assert all(kept[night, kind].startswith(wording.text) for wording in earlier)


def test_kill_at_any_moment(folder):
    chance, promised = random.Random(4), {}
    create_store(folder).close()
    for number in range(TIMES):
        told = killed(folder, number, chance.randrange(1, 12), chance.uniform(0, 0.01))
        for word, *about in told:
            if word != "draft":
                night, kind, which = about
                promised[night, kind] = (text_of(int(which)) + "changed" * (word == "changed")).strip()
        check(folder, promised, max(int(row[1]) for row in told if row[0] == "draft"))
    assert len(promised) > TIMES


def test_kill_while_a_keeper_is_being_begun(folder):
    chance = random.Random(5)
    for number in range(5):
        writer = subprocess.Popen([sys.executable, WRITER, folder / str(number), "0"], stdout=subprocess.DEVNULL)
        time.sleep(chance.uniform(0.05, 0.4))
        writer.kill()
        writer.wait()
        with open_or_begin(folder / str(number)) as store:
            assert whole(store)
