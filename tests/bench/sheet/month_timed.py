"""A month typed up on the sheet, and the processor's time of every turn of the window for each key: KEEPER [WIDTHxHEIGHT] [why].

What counts is the time that the window's own thread computes, so that a busy
machine does not tell: in the turn of a key, painting and all, and in each turn
that comes of it later, until all lanes are at rest. With ``why`` the longest
turns are told with what ran in them (which makes them longer). The keeper is
written to.
"""

import cProfile
import gc
import io
import os
import pstats
import statistics
import sys
import time
from datetime import date
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parents[1]), str(Path(__file__).parents[2]), str(Path(__file__).parents[2] / "support")]
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

NIGHTS, TARGET = 31, 16
LEAST = 0.3
"""Milliseconds: a shorter turn had nothing in it."""


class Timed:
    """The turns of a window, by what began them."""

    def __init__(self, frame, why: bool) -> None:
        self.frame, self._why = frame, why
        self.at_once: dict[str, list[float]] = {}
        self.later: dict[str, list[float]] = {}
        self.longest: list[tuple[float, str, cProfile.Profile | None]] = []

    def does(self, what: str, act, rests: bool = True) -> None:
        """Time what an act takes with the turn after it; then each turn till all is at rest."""
        first = self._turn(what, act)
        self.at_once.setdefault(what, []).append(first)
        later, quiet = [0.0], 0
        while rests and quiet < 4:
            took = self._turn(f"after {what}")
            later.append(took)
            quiet = 0 if took > LEAST or self._under_way() else quiet + 1
            time.sleep(0.002)
        self.later.setdefault(what, []).append(max(later))

    def waits(self, what: str, seconds: float) -> None:
        """Time each turn while nobody does anything."""
        until, turns = time.time() + seconds, [0.0]
        while time.time() < until:
            turns.append(self._turn(what))
            time.sleep(0.002)
        self.later.setdefault(what, []).append(max(turns))

    def _under_way(self) -> bool:
        desk = self.frame.desk
        return any(lane._hearing for lane in (desk.writer, desk.reader, desk.seeker, desk.darkroom))

    def _turn(self, what: str, act=None) -> float:
        from PySide6.QtWidgets import QApplication

        seen = cProfile.Profile(time.thread_time) if self._why else None
        begun = time.thread_time()
        if seen:
            seen.enable()
        if act:
            act()
        QApplication.processEvents()
        if seen:
            seen.disable()
        took = (time.thread_time() - begun) * 1000
        if took > TARGET / 2:
            self.longest.append((took, what, seen))
        return took

    def table(self) -> str:
        """What was timed, a row for each thing done: at once, and the longest turn that came of it."""
        rows = [f"{'milliseconds (target: ' + str(TARGET) + ')':34}{'at once':>18}{'later':>18}{'':>7}", f"{'':34}{'median  longest':>18}{'median  longest':>18}{'times':>7}"]
        for what in dict.fromkeys((*self.at_once, *self.later)):
            told = [f"{statistics.median(of[what]):9.1f}{max(of[what]):9.1f}" if what in of else " " * 18 for of in (self.at_once, self.later)]
            rows.append(f"{what:34}{told[0]}{told[1]}{len(self.later.get(what, ())):7}")
        return "\n".join(rows)

    def reasons(self, most: int = 6) -> str:
        """What ran in the longest turns, one of each kind."""
        told, longest = io.StringIO(), {}
        for took, what, seen in sorted(self.longest, key=lambda one: -one[0]):
            longest.setdefault(what, (took, what, seen))
        for took, what, seen in list(longest.values())[:most]:
            print(f"== {took:.1f} ms: {what}", file=told)
            if seen:
                pstats.Stats(seen, stream=told).sort_stats("cumtime").print_stats(22)
        return told.getvalue()


class Month:
    """Types on the sheet as a person does."""

    def __init__(self, frame, timed: Timed) -> None:
        from keeper.window.frame.quiet import Quiet

        self.frame, self.timed, self.quiet = frame, timed, frame.findChildren(Quiet)

    def type_it(self) -> None:
        """Every night's line, place and readings; then the rest that is done with a sheet."""
        self._go_to_the_sheet()
        for day in range(1, NIGHTS + 1):
            place = {1: "Stralsund", 6: "Gdynia", 11: "Esbj", 16: "Liep", 21: "Cuxh", 26: "Stral"}.get(day % 31, "")
            for text in (f"Night {day}, and the harbour was still.", place, str(day % 9 + 1), str(day % 7), str(day % 5)):
                self._cell(text, rests=day % 3 != 2)
        self._pauses()
        self._goes_about()
        self._many_at_once()
        self._other_nights()

    def _go_to_the_sheet(self) -> None:
        frame = self.frame
        self.timed.does("the sheet for the first time", lambda: frame.go("sheet", date(2024, 3, 1)))
        self.page = frame.pages["sheet"]
        self.grid = self.page.grid
        self.grid.setFocus()
        self._at(0, 0)
        self.timed.waits("it comes to rest", 1.0)

    def _at(self, row: int, column: int) -> None:
        self.grid.setCurrentIndex(self.page.model.index(row, column))

    def _key(self, what: str, key, held=None, rests: bool = True) -> None:
        from PySide6.QtCore import Qt
        from PySide6.QtTest import QTest

        where = self.grid.editing.edit if self.grid.editing.under_way else self.grid
        # A key that is handed to a part of the window does not come by where it is seen that somebody types.
        for quiet in self.quiet:
            quiet._on_stirred()
        self.timed.does(what, lambda: QTest.keyClick(where, key, held or Qt.KeyboardModifier.NoModifier), rests)

    def _cell(self, text: str, rests: bool, key=None) -> None:
        from PySide6.QtCore import Qt

        sort = self.page.model.column(self.grid.currentIndex()).sort
        for number, letter in enumerate(text):
            # One who types fast does not wait for what comes of a letter.
            self._key(f"{sort}: {'a letter' if number else 'first letter'}", letter, rests=sort == "place" or (rests and number < 2))
        empty = "" if text else ", left empty"
        self._key(f"{sort}: on{empty}", key or Qt.Key.Key_Tab, rests=rests)

    def _pauses(self) -> None:
        from PySide6.QtCore import Qt

        self._at(12, 0)
        for letter in "A line half typed":
            self._key("line: a letter", letter, rests=False)
        self.timed.waits("a pause amid a line", 1.6)
        self._key("line: given up", Qt.Key.Key_Escape)

    def _goes_about(self) -> None:
        from PySide6.QtCore import Qt

        keys, shift = Qt.Key, Qt.KeyboardModifier.ShiftModifier
        self._at(0, 0)
        for key in (keys.Key_Down, keys.Key_Right, keys.Key_PageDown, keys.Key_PageUp, keys.Key_End, keys.Key_Home):
            for _ in range(6):
                self._key("a move", key)
        for _ in range(8):
            self._key("cells picked out", keys.Key_Down, shift)
        self._at(0, 0)
        for _ in range(30):
            self._key("down the column", keys.Key_Return)

    def _many_at_once(self) -> None:
        from PySide6.QtCore import Qt
        from PySide6.QtWidgets import QApplication

        control, shift = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
        for column, text in ((0, "Pasted, and the sea went on"), (1, "Wismar"), (3, "")):
            for turn in ("", " again"):
                QApplication.clipboard().setText("\n".join(f"{text}{turn} {day}".strip() if column == 0 else text or str(day % 4) for day in range(31)))
                self._at(0, column)
                self._key(f"a column pasted, {self.page.model.column(self.grid.currentIndex()).sort}", "v", control)
        self._at(3, 3)
        for _ in range(8):
            self._key("cells picked out", Qt.Key.Key_Down, shift)
        self._key("filled down", "d", control)
        self._key("cleared", Qt.Key.Key_Delete)
        # By the frame's own keys, as a person has them.
        for way in ("undo", "redo"):
            for _ in range(5):
                self.timed.does(way, lambda way=way: self._press(way))

    def _press(self, way: str) -> None:
        from PySide6.QtCore import Qt
        from PySide6.QtTest import QTest

        control, shift = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
        QTest.keyClick(self.grid, Qt.Key.Key_Z, control if way == "undo" else control | shift)

    def _other_nights(self) -> None:
        for _ in range(5):
            self.timed.does("the month before", lambda: self.page.step(-1))
        for _ in range(5):
            self.timed.does("the next month", lambda: self.page.step(1))
        for page in ("night", "sheet", "month", "sheet", "night", "sheet"):
            self.timed.does(f"to {'the sheet again' if page == 'sheet' else 'another page'}", lambda page=page: self.frame.go(page))
        self.timed.waits("it is left alone", 2.0)


def ready(folder: Path, size: str = ""):
    """A window on a keeper, at ease, with all there that comes while nobody types; its sheet has a line, a place and three readings."""
    from PySide6.QtCore import QTimer
    from PySide6.QtWidgets import QApplication
    from turns import opened

    from keeper.actions.opening import open_kept
    from keeper.actions.sheet import columns
    from keeper.window.frame import opening
    from keeper.window.frame.start.warming import Warming

    with open_kept(folder) as store:
        readings = [one.key for one in columns.every(store) if one.tracker and one.tracker.form in ("scale", "count", "amount")][:3]
    frame = opened(folder)
    if size:
        frame.resize(*map(int, size.split("x")))
    opening.at_ease(frame)
    while not (frame.rest_is_loaded() and (coming := frame.findChild(Warming)) and not coming.findChild(QTimer).isActive()):
        QApplication.processEvents()
        time.sleep(0.001)
    frame.desk.change_setting(columns.SETTING, columns.as_setting(["line:memory", "place", *readings]))
    return frame


def main(folder: Path, *how: str) -> None:
    """Type the month, and tell the table."""
    # As the command does it (see keeper/start.py).
    gc.disable()
    why = "why" in how
    frame = ready(folder, next((one for one in how if "x" in one), ""))
    timed = Timed(frame, why)
    Month(frame, timed).type_it()
    print(timed.table())
    print(timed.reasons(10 if why else 14))
    sys.stdout.flush()
    frame.leave()


if __name__ == "__main__":
    main(Path(sys.argv[1]), *sys.argv[2:])
