"""How fast a backup of fifty years with many photos is, beside a plain copy with hashing; its memory; and kills by the hundred.

KEEPER_BENCH_PHOTOS says how many photos (400), KEEPER_BENCH_KILLS how many kills of each kind (40).
"""

import hashlib
import os
import random
import shutil
import subprocess
import sys
from datetime import date, timedelta
from pathlib import Path

import backup_kills
import fifty_years
import pytest
from kept_things import fill

from keeper.actions.backups import making
from keeper.model import Photo
from keeper.store import create_store, open_store
from keeper.store.photos import known

MANY = int(os.environ.get("KEEPER_BENCH_PHOTOS", "400"))
KILLS = int(os.environ.get("KEEPER_BENCH_KILLS", "40"))
SIZE = 3_000_000


@pytest.fixture(scope="module")
def with_photos(tmp_path_factory) -> Path:
    """A keeper of fifty years with photos of 3 MB."""
    folder = tmp_path_factory.mktemp("fifty") / "keeper"
    chance = random.Random(7)
    with fifty_years.make(folder) as store:
        for number in range(MANY):
            data = chance.randbytes(SIZE)
            sha256 = hashlib.sha256(data).hexdigest()
            file = folder / "photos" / sha256[:2] / f"{sha256}.jpg"
            file.parent.mkdir(exist_ok=True)
            file.write_bytes(data)
            photo = known.add(store, Photo("", sha256, "jpg", SIZE))
            known.attach(store, fifty_years.LAST - timedelta(days=number), photo.id)
    return folder


def bare(folder: Path, target: Path) -> None:
    """Every file copied, and hashed."""
    for file in [folder / "keeper.db", *(folder / "photos").rglob("*.jpg")]:
        copy = target / file.relative_to(folder)
        copy.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(file, copy)
        with copy.open("rb") as copied:
            hashlib.file_digest(copied, "sha256")


def test_backup_beside_a_plain_copy(with_photos, tmp_path, compared, clock):
    with open_store(with_photos) as store:
        compared(
            f"backup of fifty years with {MANY} photos of 3 MB",
            lambda number: making.back_up_now(store, tmp_path / "ours", clock),
            lambda number: bare(with_photos, tmp_path / "bare"),
            rounds=3, target=2.0,
            after=lambda: [shutil.rmtree(tmp_path / name, ignore_errors=True) for name in ("ours", "bare")],
        )  # fmt: skip


_MEASURED = """
import sys
from pathlib import Path
from keeper.actions.backups import making
from keeper.clock import Clock
from keeper.store import open_store
store = open_store(Path(sys.argv[1]))
def most() -> int:
    return int(next(row for row in open("/proc/self/status") if row.startswith("VmHWM")).split()[1])
before = most()
making.back_up_now(store, Path(sys.argv[2]), Clock())
print((most() - before) / 1024)
"""


@pytest.mark.skipif(sys.platform != "linux", reason="memory is told otherwise there")
def test_memory_is_flat(with_photos, tmp_path):
    """An empty keeper and one of fifty years take not so differently much: printed in MB."""
    few = tmp_path / "few"
    with create_store(few):
        pass
    taken = [float(subprocess.run([sys.executable, "-c", _MEASURED, folder, tmp_path / str(number)], capture_output=True, text=True,
                                  check=True).stdout) for number, folder in enumerate((few, with_photos))]  # fmt: skip
    print(f"memory of a backup: {taken[0]:.1f} MB of an empty keeper, {taken[1]:.1f} MB of fifty years with {MANY} photos")
    assert taken[1] < 100


@pytest.mark.parametrize("kill", [
    backup_kills.kill_in_backing_up, backup_kills.kill_in_bringing_back, backup_kills.kill_over_a_broken_one, backup_kills.kill_in_moving,
])  # fmt: skip
def test_killed_by_the_hundred(store, clock, tmp_path, folder, kill):
    fill(store, clock, tmp_path, pictures=6)
    backup_kills.with_backups(store)
    store.close()
    chance = random.Random(date(2026, 11, 14).toordinal())
    for _ in range(KILLS):
        kill(folder, chance, 0.6)
