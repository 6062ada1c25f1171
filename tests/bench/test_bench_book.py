"""A full year's book: against a bare typst compile of the same pages and a bare scaling of its photos.

Each runs in a process of its own, turn about, since typst remembers what it
has set. Targets: at most 1.5 times the compile, and the photos at no less than
70 % of the bare rate; under 400 MB.
"""

import os
import subprocess
import sys
from datetime import date, datetime, timedelta
from pathlib import Path
from statistics import median
from zoneinfo import ZoneInfo

import diary_lines
import pytest
from PIL import Image
from sample_pictures import exif, jpeg_bytes, with_exif

from keeper.actions import opening, writing
from keeper.actions.paper import making as book
from keeper.actions.photos import kept as photos
from keeper.clock import StoppedClock

YEAR, NIGHTS, ROUNDS = 2025, 365, 5
CLOCK = StoppedClock(datetime(2026, 11, 14, 22, 30, tzinfo=ZoneInfo("Europe/Riga")), "Europe/Riga")


@pytest.fixture(scope="module")
def full(tmp_path_factory) -> tuple[Path, Path]:
    """A keeper of a full year with twelve photos of 12 megapixels, and its book laid out."""
    folder = tmp_path_factory.mktemp("year")
    lines, _ = diary_lines.diary(2 * NIGHTS)
    bands = [Image.effect_noise((1000, 750), spread) for spread in (40, 60, 80)]
    picture = jpeg_bytes(Image.merge("RGB", bands).resize((4000, 3000), Image.Resampling.BICUBIC), 88)
    with opening.open_or_begin(folder / "keeper") as store:
        for number in range(NIGHTS):
            night = date(YEAR, 1, 1) + timedelta(days=number)
            for kind, line in zip(("gratitude", "memory"), lines[2 * number :], strict=False):
                writing.write_line(store, night, kind, f"{line.text} {line.text}", CLOCK)
        for month in range(1, 13):
            file = folder / f"{month}.jpg"
            file.write_bytes(with_exif(picture, exif(f"{YEAR}:{month:02d}:05 12:00:00", "+02:00", 6, 56.9, 24.1)))
            photos.take_in(store, file, CLOCK)
        laid = folder / "laid"
        laid.mkdir()
        made = book.proof_book(store, YEAR, book.BookParts(themes=False), laid, CLOCK)
    assert made.pages > 60 and len(list(laid.glob("photo-*.jpg"))) == 12
    return folder / "keeper", laid


def measured(what: str, full: tuple[Path, Path]) -> tuple[float, float]:
    """Seconds, and megabytes at the peak."""
    script = Path(__file__).with_name("book_timed.py")
    root = str(Path(__file__).parents[2])
    done = subprocess.run(
        [sys.executable, str(script), what, *map(str, full)], capture_output=True, text=True, check=True, timeout=300,
        env={**os.environ, "PYTHONPATH": root},
    )  # fmt: skip
    seconds, megabytes = done.stdout.split()
    return float(seconds), float(megabytes)


def test_the_book_of_a_full_year(full, request, benchmark):
    found = {"whole": [], "compile": [], "scale": []}
    peak = 0.0
    for number in range(ROUNDS):
        for what in sorted(found, reverse=bool(number % 2)):
            seconds, megabytes = measured(what, full)
            found[what].append(seconds)
            peak = max(peak, megabytes) if what == "whole" else peak
    whole, compile_, scale = (median(found[what]) for what in ("whole", "compile", "scale"))
    allowed = 1.5 * compile_ + scale / 0.7
    benchmark.extra_info.update(share=round(whole / allowed, 3), megabytes=peak)
    print(
        f"\nbook of {NIGHTS} nights: {whole * 1000:.0f} ms; bare compile {compile_ * 1000:.0f} ms, bare scaling "
        f"{scale * 1000:.0f} ms; {whole / allowed:.2f} of what is allowed (1.5 x compile + scaling / 0.7); "
        f"peak {peak:.0f} MB (under 400)"
    )
    benchmark.pedantic(lambda: None, rounds=1)
