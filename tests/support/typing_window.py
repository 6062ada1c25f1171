"""A real window in which words are typed without end, for whoever kills it: ``python typing_window.py FOLDER SEED``.

Each word is typed once in all, and says when: "w3n12" is word 12 of seed 3. It
only types on, as a person does; it takes nothing back.
"""

import random
import sys
from datetime import timedelta
from itertools import count
from pathlib import Path

from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest

import keeper.window.frame.opening as opening
from keeper.model import KINDS


class Typist:
    """Does one thing after another, as chance has it."""

    def __init__(self, frame, seed: int) -> None:
        self.frame, self.page, self.seed = frame, frame.pages["night"], seed
        self.chance, self.numbers, self.things = random.Random(seed), count(), count()
        self.next = QTimer(frame)
        self.next.setSingleShot(True)
        self.next.timeout.connect(self.do_one)
        self.next.start(0)

    def do_one(self) -> None:
        """One thing, and soon another."""
        doing = (self.type, self.enter, self.elsewhere, self.away)
        # Whoever opens it again goes on where the words are.
        first = next(self.things) < 3
        (self.type if first else self.chance.choices(doing, (9, 2, 2, 1))[0])()
        print(".", end="", flush=True)
        self.next.start(self.chance.choice((0, 5, 20, 60, 400)))

    def type(self) -> None:
        """A word more in the field one is in."""
        QTest.keyClicks(self.field(), f" w{self.seed}n{next(self.numbers)}")

    def enter(self) -> None:
        """Keep the line and go on."""
        QTest.keyClick(self.field(), Qt.Key.Key_Return)

    def elsewhere(self) -> None:
        """To another field."""
        self.page.fields[self.chance.choice(KINDS)].setFocus()

    def away(self) -> None:
        """To the night before, or back."""
        tonight = self.frame.desk.tonight()
        self.frame.go("night", tonight - timedelta(days=self.page.night == tonight))

    def field(self):
        """The field that has the focus, else the first."""
        return next((field for field in self.page.fields.values() if field.hasFocus()), self.page.fields[KINDS[0]])


def run(folder: Path, seed: int) -> int:
    """Open the window as the program does, and type once it has settled."""
    settle = opening._settle_in

    def typing(app, frame) -> None:
        settle(app, frame)
        frame.typist = Typist(frame, seed)

    opening._settle_in = typing
    return opening.run(folder, None, False)


if __name__ == "__main__":
    sys.exit(run(Path(sys.argv[1]), int(sys.argv[2])))
