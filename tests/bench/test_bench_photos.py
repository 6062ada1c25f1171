"""The rate of taking photos in, as a share of a bare loop of the same library calls, and its memory.

Both run in the same process on the same cores, turn about, so that a busy
machine slows both. KEEPER_BENCH_PHOTOS says how many photos (60).
"""

import hashlib
import os
import shutil
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from statistics import median
from time import perf_counter

import pytest
from PIL import Image
from sample_pictures import exif, jpeg_bytes, with_exif

from keeper.actions.photos.kept import THUMBNAIL, take_in_many
from keeper.clock import Clock
from keeper.store import create_store

MANY = int(os.environ.get("KEEPER_BENCH_PHOTOS", "60"))
CORES = os.cpu_count() or 1
ROUNDS = 3


@pytest.fixture(scope="module")
def photos(tmp_path_factory):
    """Photos of 12 megapixels and some 5 MB, each a file of its own."""
    folder = tmp_path_factory.mktemp("photos")
    bands = [Image.effect_noise((1000, 750), spread) for spread in (40, 60, 80)]
    whole = jpeg_bytes(Image.merge("RGB", bands).resize((4000, 3000), Image.Resampling.BICUBIC), 88)
    for number in range(MANY):
        when = f"2024:{1 + number % 12:02d}:{1 + number % 28:02d} {number // 3600:02d}:{number // 60 % 60:02d}:{number % 60:02d}"
        notes = exif(when, "+02:00", 1 + number % 8, 56.9, 24.1)
        (folder / f"{number:05d}.jpg").write_bytes(with_exif(whole, notes))
    return sorted(folder.iterdir())


def bare(photo: Path, out: Path, forced: bool) -> None:
    """Copy, hash, Exif and thumbnail, with nothing around them."""
    copy = out / photo.name
    shutil.copyfile(photo, copy)
    if forced:
        with copy.open("rb+") as file:
            os.fsync(file.fileno())
    with copy.open("rb") as file:
        hashlib.file_digest(file, "sha256")
    with Image.open(copy) as image:
        image.getexif().get_ifd(0x8769)
        image.thumbnail((THUMBNAIL, THUMBNAIL), reducing_gap=2.0)
        image.save(out / f"{photo.name}.small.jpg", quality=82)


def rate_of_bare(photos, folder, workers: int, forced: bool) -> float:
    """Photos a second."""
    folder.mkdir()
    begun = perf_counter()
    with ThreadPoolExecutor(workers) as pool:
        list(pool.map(lambda photo: bare(photo, folder, forced), photos))
    taken = perf_counter() - begun
    shutil.rmtree(folder)
    return len(photos) / taken


def rate_of_ours(photos, folder) -> float:
    """Photos a second."""
    with create_store(folder) as store:
        begun = perf_counter()
        summary = take_in_many(store, photos, Clock())
        taken = perf_counter() - begun
    assert summary.taken == len(photos)
    shutil.rmtree(folder)
    return len(photos) / taken


def test_the_rate_is_at_least_seventy_per_cent_of_a_bare_loop(photos, tmp_path, capsys):
    kinds = {
        "one after another": lambda: rate_of_bare(photos, tmp_path / "bare", 1, forced=False),
        "on all cores": lambda: rate_of_bare(photos, tmp_path / "bare", CORES, forced=False),
        "on all cores, forced to disk": lambda: rate_of_bare(photos, tmp_path / "bare", CORES, forced=True),
        "ours": lambda: rate_of_ours(photos, tmp_path / "keeper"),
    }
    rates = {name: [] for name in kinds}
    for _ in range(ROUNDS):
        for name, rate in kinds.items():
            rates[name].append(rate())
    ours = median(rates.pop("ours"))
    with capsys.disabled():
        print(f"\n{MANY} photos on {CORES} cores: {ours:.1f} a second")
        for name, found in rates.items():
            print(f"  bare loop {name}: {median(found):.1f} a second, ours is {ours / median(found):.0%}")
    # Of the strictest: all cores, and nothing forced to the disk.
    assert ours / median(rates["on all cores"]) >= 0.70


def test_memory_is_flat(photos, tmp_path, capsys):
    resource = pytest.importorskip("resource")
    with create_store(tmp_path / "keeper") as store:
        take_in_many(store, photos[:20], Clock())
        before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        take_in_many(store, photos[20:], Clock())
    grown = (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / 1024
    with capsys.disabled():
        print(f"\nmemory grew by {grown:.1f} MB from 20 photos to {MANY}")
    assert grown < 30
