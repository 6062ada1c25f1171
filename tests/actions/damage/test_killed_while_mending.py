"""A mending is really killed, again and again: the broken keeper is there as it was, or a whole mended one."""

import random
import shutil
import subprocess
import sys
import time
from datetime import datetime
from pathlib import Path

import broken_keepers as broken
from soundness import whole

from keeper.actions import opening
from keeper.actions.damage import mending
from keeper.errors import NotAKeeper
from keeper.store.file.folder import FILE

MENDER = Path(__file__).with_name("killed_mender.py")


def broken_once(room: Path) -> tuple[Path, dict]:
    """A keeper with a log, damaged so that SQLite refuses it; and what can be carved out of it."""
    broken.make(room / "made", 200)
    broken.leave_a_log(room / "made", room / "broken")
    data = bytearray((room / "broken" / FILE).read_bytes())
    data[:16] = b"no longer a file"
    data[50_000:50_040] = bytes(40)
    (room / "broken" / FILE).write_bytes(data)
    return room / "broken", {one.key: one.text for one in mending.look(room / "broken").choice.lines}


def kill_while_mending(room: Path, times: int, seed: int) -> int:
    """Kill so many mendings; how many were killed before they were done. What they left is mended to its end."""
    chance, (sound, expected), early = random.Random(seed), broken_once(room), 0
    for number in range(times):
        folder = shutil.copytree(sound, room / "copy")
        before = (folder / FILE).read_bytes(), (folder / broken.LOG).read_bytes()
        with subprocess.Popen([sys.executable, MENDER, folder], stdout=subprocess.PIPE) as mender:
            assert mender.stdout.read(1) == b"."
            time.sleep(chance.uniform(0, 1.2))
            mender.kill()
            early += mender.stdout.read() != b"done"
        _is_the_one_or_the_other(folder, before, expected, number)
        shutil.rmtree(folder)
    return early


def _is_the_one_or_the_other(folder: Path, before: tuple[bytes, bytes], expected: dict, number: int) -> None:
    try:
        # What waits is put into place by the opening itself.
        store = opening.open_kept(folder)
    except NotAKeeper:
        assert (folder / FILE).read_bytes() == before[0] and (folder / broken.LOG).read_bytes() == before[1], number
        survey = mending.look(folder)
        mending.mend(survey, (), datetime(2026, 11, 15, 10))
        assert mending.put_into_place(folder)
        store = opening.open_kept(folder)
    with store:
        assert not store.only_read and whole(store), number
        kept = {(row[0], row[1]): row[2] for row in store.rows("SELECT night, kind, text FROM line")}
    assert expected.items() <= kept.items(), number
    rooms = [one for one in (folder / "broken").iterdir() if not one.name.startswith(".")]
    assert [(one / FILE).read_bytes() for one in rooms] == [before[0]] * len(rooms) and rooms, number


def test_killed_while_mending(tmp_path):
    assert kill_while_mending(tmp_path, 4, seed=3) >= 1


def test_killed_between_the_new_file_and_its_name(tmp_path):
    folder, expected = broken_once(tmp_path)
    before = (folder / FILE).read_bytes(), (folder / broken.LOG).read_bytes()
    survey = mending.look(folder)
    mending.mend(survey, (), datetime(2026, 11, 15, 9))
    # The log is gone, the new file has not its name yet.
    (folder / broken.LOG).unlink()
    _is_the_one_or_the_other(folder, before, expected, 0)
