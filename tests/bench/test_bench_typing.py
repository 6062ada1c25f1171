"""How long the window's thread is held up, with fifty years in the keeper.

A block is the time one turn of the event loop takes. The aim: at most 16 ms
for a key, 50 ms for anything. Printed beside a bare text field in the same run.
"""

import statistics
import time
from datetime import date

import pytest
from PySide6.QtCore import QEventLoop, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPlainTextEdit

from keeper.actions import opening as keepers
from keeper.window import opening

WORDS = "The wind went round to the west and the stove drew at last. "


class Turns:
    """Listens to every turn of the event loop and remembers the longest."""

    def __init__(self, app: QApplication) -> None:
        self._app = app
        self.blocks: list[float] = []

    def after(self, does, milliseconds: int = 300) -> float:
        """The longest block, in milliseconds, while something is done and comes to rest."""
        loop, longest = QEventLoop(), [0.0]
        last = time.perf_counter()

        def beat() -> None:
            nonlocal last
            now = time.perf_counter()
            longest[0] = max(longest[0], now - last)
            last = now

        timer = QTimer(interval=0)
        timer.timeout.connect(beat)
        timer.start()
        QTimer.singleShot(0, does)
        QTimer.singleShot(milliseconds, loop.quit)
        loop.exec()
        timer.stop()
        return longest[0] * 1000


@pytest.fixture
def frame(fifty, qapp):
    with keepers.open_again(fifty) as store:
        clock = keepers.demo_clock(store)
    opening.application()
    frame = opening.make_frame(QApplication.instance(), fifty, clock)
    frame.show()
    opening._open_page(frame, None)
    frame.load_rest()
    Turns(qapp).after(lambda: None, 1000)
    yield frame
    frame.leave()
    frame.deleteLater()


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
    turns, tonight = Turns(qapp), frame.desk.tonight()
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
    turns = Turns(qapp)
    for typed_so_far in ("t", "th", "the", "the h"):
        longest = turns.after(lambda text=typed_so_far: frame.pages["find"].typed.setText(text), 600)
        print(f"\nfinding {typed_so_far!r}: longest block {longest:.1f} ms", end="")
        assert frame.pages["find"].model.rowCount() > 0
    print()
