"""The whole archive of fifty years with 2,000 photos, against a plain copy with a hash of each file; and memory."""

import hashlib
import os
import random
import resource
import shutil
import subprocess
import sys
import time
from pathlib import Path

import fifty_years
import pytest

from keeper.actions.giving.making import give
from keeper.actions.giving.taking import take
from keeper.actions.giving.wanted import ToGive
from keeper.actions.opening import open_or_begin
from keeper.clock import Clock
from keeper.model import Act
from keeper.store.photos.files import relative_file

PHOTOS, BYTES = 2_000, 1_500_000
"""As many as are asked for, each smaller than a camera makes them: so the texts weigh more than they would."""


@pytest.fixture(scope="module")
def many(tmp_path_factory) -> Path:
    """The keeper of fifty years with its readings, and 2,000 files that stand for photos."""
    folder = tmp_path_factory.mktemp("years") / "keeper"
    with fifty_years.make(folder) as store:
        fifty_years.note(store)
        lay_photos(store)
    return folder


def lay_photos(store) -> None:
    """Photos that are no pictures: neither giving nor taking looks into them."""
    chance = random.Random(5)
    nights = [row[0] for row in store.rows("SELECT date FROM night ORDER BY date")][:: 18_334 // PHOTOS]
    with store.writing(Act("Photos")) as connection:
        for number in range(PHOTOS):
            data = chance.randbytes(BYTES)
            sha256 = hashlib.sha256(data).hexdigest()
            file = store.folder / "photos" / relative_file(sha256, "jpg")
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(data)
            connection.execute(
                "INSERT INTO photo (id, sha256, ending, bytes, caption, came_at) VALUES (?, ?, 'jpg', ?, 'A harbour', '2025-01-01T00:00:00Z')",
                (f"p{number}", sha256, BYTES),
            )
            connection.execute("INSERT INTO night_photo (night, photo_id, position) VALUES (?, ?, 0)", (nights[number], f"p{number}"))


def plain_copy(source: Path, target: Path) -> None:
    """What anybody would do: copy every file, hash every copy, and force all of it to the disk."""
    shutil.copytree(source, target)
    for file in sorted(target.rglob("*")):
        if file.is_file():
            with file.open("rb") as opened:
                hashlib.file_digest(opened, "sha256")
    os.sync()


def seconds(work) -> tuple[float, float]:
    """How long it takes, and how long processors are at it, those of other processes too: another number on a busy machine."""
    begun, before = time.perf_counter(), sum(os.times()[:4])
    work()
    return time.perf_counter() - begun, sum(os.times()[:4]) - before


def test_giving_is_at_least_half_as_fast_as_a_plain_copy_with_hashes(many, tmp_path):
    ratios = []
    with open_or_begin(many) as store:
        for turn in range(3):
            plain, of_plain = seconds(lambda turn=turn: plain_copy(many, tmp_path / f"plain{turn}"))
            given, of_given = seconds(lambda turn=turn: give(store, tmp_path / f"given{turn}", ToGive(), Clock()))
            for name in (f"plain{turn}", f"given{turn}"):
                shutil.rmtree(tmp_path / name)
            ratios.append(given / plain)
            print(f"plain {plain:.1f} s, given {given:.1f} s, ratio {given / plain:.2f}; of the processor {of_plain:.1f} and {of_given:.1f} s")
    assert min(ratios) <= 2.0


MEASURED = """
import resource, sys
from pathlib import Path
from keeper.actions.giving.{module} import {verb}
from keeper.actions.giving.wanted import ToGive
from keeper.actions.opening import open_or_begin
from keeper.clock import Clock
with open_or_begin(Path(sys.argv[1])) as store:
    {verb}(store, Path(sys.argv[2]), {more}Clock())
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)
"""


def megabytes(module: str, verb: str, more: str, *paths: Path) -> float:
    """The most memory that a process of its own had."""
    program = MEASURED.format(module=module, verb=verb, more=more)
    done = subprocess.run([sys.executable, "-c", program, *map(str, paths)], capture_output=True, text=True, timeout=600, check=True)
    return int(done.stdout) / 1024


def test_memory_does_not_grow_with_the_years(many, tmp_path):
    with fifty_years.make(tmp_path / "few", [f"A line of {number}." for number in range(300)]):
        pass
    few = megabytes("making", "give", "ToGive(), ", tmp_path / "few", tmp_path / "few-out")
    all_of_it = megabytes("making", "give", "ToGive(), ", many, tmp_path / "out")
    print(f"giving: {few:.0f} MB for a hundred nights, {all_of_it:.0f} MB for fifty years")
    few_in = megabytes("taking", "take", "", tmp_path / "few-in", tmp_path / "few-out")
    all_in = megabytes("taking", "take", "", tmp_path / "in", tmp_path / "out")
    print(f"taking: {few_in:.0f} MB for a hundred nights, {all_in:.0f} MB for fifty years")
    assert all_of_it - few < 80 and all_in - few_in < 80


def test_taking_in_fifty_years(many, tmp_path):
    with open_or_begin(many) as store:
        give(store, tmp_path / "out", ToGive(frozenset({"json"})), Clock())
    with open_or_begin(tmp_path / "in") as store:
        print(f"taken in within {seconds(lambda: take(store, tmp_path / 'out', Clock()))[0]:.1f} s")
        print(f"the second time {seconds(lambda: take(store, tmp_path / 'out', Clock()))[0]:.1f} s")
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss > 0
