"""A real window in whose sheet words are typed without end, for whoever kills it: ``python typing_sheet.py FOLDER SEED``.

Each word is typed once in all, and says when: "w3n12" is word 12 of seed 3.
"""

import random
import sys
from itertools import count
from pathlib import Path

from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest

import keeper.window.frame.opening as opening


class SheetTypist:
    """Types in one cell after another, as chance has it."""

    def __init__(self, frame, seed: int) -> None:
        self.frame, self.seed, self.numbers = frame, seed, count()
        self.chance = random.Random(seed)
        frame.go("sheet", frame.desk.tonight())
        self.page = frame.pages["sheet"]
        self.next = QTimer(frame)
        self.next.setSingleShot(True)
        self.next.timeout.connect(self.do_one)
        self.next.start(50)

    def do_one(self) -> None:
        """A word more, or on to another cell."""
        if self.page.model.columnCount():
            grid = self.page.grid
            if not grid.editing.under_way:
                # A cell of a line that holds nothing yet: what stands is not typed over.
                self.go_to_an_empty_one()
                QTest.keyClick(grid, "w")
                QTest.keyClicks(grid.editing.line, f"{self.seed}n{next(self.numbers)} ")
            elif self.chance.random() < 0.75:
                QTest.keyClicks(grid.editing.line, f"w{self.seed}n{next(self.numbers)} ")
            else:
                QTest.keyClick(grid.editing.line, self.chance.choice((Qt.Key.Key_Return, Qt.Key.Key_Tab)))
            print(".", end="", flush=True)
        self.next.start(self.chance.choice((0, 5, 20, 60, 400)))

    def go_to_an_empty_one(self) -> None:
        """To the first cell of a line, by chance a column, with nothing in it."""
        model = self.page.model
        column = self.chance.randrange(3)
        rows = (model.index(row, column) for row in range(model.rowCount()))
        self.page.grid.setCurrentIndex(next(at for at in rows if not model.text(at)))
        self.page.grid.setFocus()


def run(folder: Path, seed: int) -> int:
    """Open the window as the program does, and type once it has settled."""
    settle = opening._settle_in

    def typing(app, frame) -> None:
        settle(app, frame)
        frame.typist = SheetTypist(frame, seed)

    opening._settle_in = typing
    return opening.run(folder, None, False)


if __name__ == "__main__":
    sys.exit(run(Path(sys.argv[1]), int(sys.argv[2])))
