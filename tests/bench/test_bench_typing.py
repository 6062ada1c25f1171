"""How long the window's thread is held up, with fifty years in the keeper.

A block is the time one turn of the event loop takes. The aim: at most 16 ms
for a key, 50 ms for anything. Printed beside a bare text field in the same run.
"""

import random
import shutil
import statistics
import subprocess
import sys
import time
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import fifty_years
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPlainTextEdit
from test_bench_start import surroundings
from turns import Turns, opened

from keeper.actions import opening as keepers
from keeper.actions import writing
from keeper.shipped import demo_keeper
from keeper.store import lines
from keeper.window.frame import opening
from keeper.window.themes.work import ThemeWork

WORDS = "The wind went round to the west and the stove drew at last. "


@pytest.fixture
def frame(fifty, qapp):
    frame = opened(fifty)
    was = sys.getswitchinterval()
    opening.at_ease(frame)
    Turns().after(lambda: None, 1000)
    yield frame
    sys.setswitchinterval(was)
    frame.leave()
    frame.deleteLater()


@pytest.fixture(scope="module")
def themed(tmp_path_factory) -> Path:
    """Fifty years of lines whose words are dealt from those of the demo, so that there are themes."""
    folder = tmp_path_factory.mktemp("themed")
    shutil.copytree(demo_keeper(), folder / "demo")
    with keepers.open_again(folder / "demo") as store:
        texts = [line.text.split() for line in lines.between(store, date.min, date.max)]
    fifty_years.make(folder / "keeper", _dealt(texts)).close()
    return folder / "keeper"


def _dealt(texts: list[list[str]]) -> Iterator[str]:
    # Most words of one line and some of another, in any order.
    chance = random.Random(5)
    for _ in range(fifty_years.LINES):
        most, some = chance.choice(texts), chance.choice(texts)
        yield " ".join(chance.sample(most, max(3, 2 * len(most) // 3)) + some[:3])


def typed(field) -> list[float]:
    """Milliseconds each key takes, until the field has drawn it."""
    taken = []
    for letter in WORDS * 3:
        began = time.perf_counter()
        QTest.keyClick(field, letter)
        QApplication.processEvents()
        taken.append((time.perf_counter() - began) * 1000)
    return taken


def test_a_key(frame):
    field = frame.pages["night"].fields["memory"]
    field.setFocus()
    ours = typed(field)
    bare = QPlainTextEdit()
    bare.show()
    theirs = typed(bare)
    print(f"\na key: median {statistics.median(ours):.2f} ms, 99 % {sorted(ours)[-2]:.1f}, longest {max(ours):.1f}; "
          f"bare: median {statistics.median(theirs):.2f}, longest {max(theirs):.1f}")  # fmt: skip
    assert len(ours) == len(theirs) > 100


def test_everything_else(frame, qapp):
    turns, tonight = Turns(), frame.desk.tonight()
    night = frame.pages["night"]
    told = {
        "Enter keeps a line": lambda: QTest.keyClick(night.fields["gratitude"], Qt.Key.Key_Return),
        "another night": lambda: frame.go("night", date(1999, 5, 17)),
        "another year on the ribbon": lambda: frame.ribbon.show_year(1987),
        "back to tonight": lambda: frame.go("night", tonight),
    }
    for page in frame.buttons:
        told[f"the page {page}, first"] = lambda page=page: frame.go(page)
        told[f"the page {page}, again"] = lambda page=page: frame.go(page)
    night.fields["gratitude"].insertPlainText(WORDS)
    for name, does in told.items():
        longest = turns.after(does, 1200)
        print(f"\n{name}: longest block {longest:.1f} ms", end="")
        assert longest > 0
    print()


def test_finding(frame, qapp):
    frame.go("find")
    turns = Turns()
    for typed_so_far in ("t", "th", "the", "the h"):
        longest = turns.after(lambda text=typed_so_far: frame.pages["find"].typed.setText(text), 600)
        print(f"\nfinding {typed_so_far!r}: longest block {longest:.1f} ms", end="")
        assert frame.pages["find"].model.rowCount() > 0
    print()


@pytest.mark.parametrize("when", ["at-once", "after-quiet"])
def test_first_visits(fifty, when):
    """In a process of its own, as only there no page was ever opened."""
    program = Path(__file__).with_name("first_visits.py")
    # Once before, so that what is compiled and read from the disk is not measured.
    for _ in range(2):
        done = subprocess.run([sys.executable, str(program), str(fifty), when], capture_output=True, text=True,
                              check=True, env=surroundings(fifty))  # fmt: skip
    print(f"\nfirst visits {when}, longest blocks in ms: {done.stdout.strip()}")
    assert "settings" in done.stdout


def test_while_themes_are_found(themed, qapp):
    frame, turns = opened(themed), Turns()
    opening.at_ease(frame)
    turns.after(lambda: None, 8000)
    work, saved, begun = ThemeWork.of(frame.desk), [], time.perf_counter()
    blocks = [turns.after(lambda: work.look(anew=True), 400)]
    while work.running:
        blocks.append(turns.after(lambda: _save(frame, len(blocks), saved), 400))
    frame.desk.writer.finish()
    QApplication.processEvents()
    print(f"\n{fifty_years.LINES} lines, themes found in {time.perf_counter() - begun:.1f} s: longest block "
          f"{max(blocks):.0f} ms; a save: median {statistics.median(saved):.1f} ms, longest {max(saved):.0f}")  # fmt: skip
    frame.leave()
    frame.deleteLater()
    assert saved


def _save(frame, number: int, saved: list[float]) -> None:
    begun, night = time.perf_counter(), date(1990, 1, 1 + number % 28)
    frame.desk.write(
        lambda store: writing.write_line(store, night, "memory", f"Saved as number {number}.", frame.desk.clock),
        lambda _: saved.append((time.perf_counter() - begun) * 1000),
    )
