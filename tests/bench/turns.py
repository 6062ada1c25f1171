"""Turns of the window's event loop: a block is the time that one takes."""

import time
from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QEventLoop, QTimer

from keeper.actions import opening as keepers
from keeper.window.frame import opening
from keeper.window.frame.window import Frame


class Turns:
    """Listens to every turn of the event loop and remembers the longest."""

    def after(self, does: Callable[[], object], milliseconds: int = 300) -> float:
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


def opened(folder: Path) -> Frame:
    """A window on a keeper, on tonight, so far that one can type."""
    with keepers.open_again(folder) as store:
        clock = keepers.demo_clock(store)
    frame = opening.make_frame(opening.application(), folder, clock)
    frame.show()
    opening._open_page(frame, None)
    return frame
