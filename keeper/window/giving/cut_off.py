"""That an archive came only in part, the program having ended midway: at the foot of the night, and on the page of giving."""

from collections.abc import Callable
from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.window.desk.desk import Desk
from keeper.window.parts.small import label, quiet_button, row

if TYPE_CHECKING:
    from keeper.actions.history.cut_off import CutOff


def _asked(desk: Desk, show: "Callable[[tuple[CutOff, ...]], None]") -> None:
    """Ask for such archives, and again after every change once there was one: nothing that this program does cuts one off."""
    def of(store, task) -> "tuple[CutOff, ...]":
        from keeper.actions.history import cut_off

        return cut_off.cut_off(store)

    def heard(found: "tuple[CutOff, ...]") -> None:
        if found:
            desk.changed.connect(lambda: desk.reader.run(of, show))
        show(found)

    desk.reader.run(of, heard)


class CutOffOffer:
    """A quiet button for the page of the night, seen while there is one."""

    def __init__(self, desk: Desk) -> None:
        self.button = quiet_button("", lambda: desk.go("giving"))
        self.button.hide()
        _asked(desk, self._show)

    def _show(self, found: "tuple[CutOff, ...]") -> None:
        self.button.setVisible(bool(found))
        if found:
            self.button.setText(f"{found[0].archive} came only in part \u203a")
            self.button.setAccessibleName(f"{found[0].archive} came only in part. See what can be done")


class CutOffTold(QWidget):
    """Each with what can be done, on the page of giving, ``behind`` some other part; hidden where there is none."""

    def __init__(self, desk: Desk, behind: QWidget) -> None:
        super().__init__()
        self._behind = behind
        self._desk = desk
        self.backs: list[QWidget] = []
        self._list = QVBoxLayout(self)
        self._list.setContentsMargins(0, 0, 0, 0)
        self.hide()
        _asked(desk, self._tell)

    def _tell(self, found: "tuple[CutOff, ...]") -> None:
        had = any(back.hasFocus() for back in self.backs)
        while self._list.count():
            self._list.takeAt(0).widget().deleteLater()
        self.backs = []
        for one in found:
            self._list.addWidget(self._of(one))
        for before, after in pairwise((self._behind, *self.backs)):
            # They come last, and stand here.
            self.setTabOrder(before, after)
        self.setVisible(bool(found))
        if had and found:
            self.backs[0].setFocus()

    def _of(self, one: "CutOff") -> QWidget:
        back = quiet_button("Take back what came", lambda: self._desk.turn_wanted.emit(one.act), f"Take back what came of {one.archive.lower()}")
        self.backs.append(back)
        made = QWidget()
        body = QVBoxLayout(made)
        body.setContentsMargins(0, 0, 0, 0)
        body.setSpacing(0)
        body.addWidget(label(one.sentence, "plain"))
        body.addLayout(row(back, None))
        return made
