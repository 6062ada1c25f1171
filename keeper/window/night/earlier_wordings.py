"""Earlier wordings of a line, to look at and bring back."""

from dataclasses import dataclass
from datetime import date

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtWidgets import QDialog, QHBoxLayout, QVBoxLayout, QWidget

from keeper.actions import reading
from keeper.actions.places.clocks import written_at
from keeper.model import LineKind, Place, Wording
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.found_list import FoundDelegate, FoundList, FoundModel
from keeper.window.parts.small import label, plain_button, row


@dataclass(frozen=True, slots=True)
class _Row:
    """A wording where the list of lines has a line."""

    line: Wording
    place: Place | None = None
    near: bool = False


def written(earlier: Wording, place: Place | None = None) -> str:
    """When a wording was written, by the clock of the place where that was; ``place`` is the night's."""
    then = earlier.written.here() if earlier.from_paper else written_at(earlier.written, earlier.night, place)
    came = "From paper, typed" if earlier.from_paper else "Written"
    return f"{came} {wording.short_date(then.date())}, {then:%H:%M}"


def _now(desk: Desk, night: date, kind: LineKind) -> str:
    """Whence the words that stand now came, where they came from paper."""
    line = reading.one_night(desk.store, night).line(kind.key)
    if line is None or kind.key not in reading.from_paper(desk.store, night):
        return ""
    return f". The words that stand came from paper, typed {wording.short_date(line.written.here().date())}."


class _Model(FoundModel):
    def data(self, index: QModelIndex | QPersistentModelIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if role == Qt.ItemDataRole.AccessibleTextRole and index.isValid():
            row = self.at(index.row())
            return f"{written(row.line, row.place)}. {row.line.text}"
        return super().data(index, role)


class _Delegate(FoundDelegate):
    def head(self, found: _Row) -> str:
        return written(found.line, found.place)


class WordingsDialog(QDialog):
    """Lists the earlier wordings; ``chosen`` is the one to bring back."""

    def __init__(self, desk: Desk, night: date, kind: LineKind, parent: QWidget) -> None:
        super().__init__(parent)
        self.chosen = ""
        self.setWindowTitle("Earlier wordings")
        self.setMinimumSize(desk.look.px(36), desk.look.px(20))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(*[desk.look.px(1.2)] * 4)
        layout.addWidget(label(f"{kind.title}, {wording.long_date(night)}{_now(desk, night, kind)}", "quiet"))
        self._rows = _Model(lambda: None)
        place = reading.one_night(desk.store, night).place
        self._rows.show(tuple(_Row(one, place) for one in reading.wordings(desk.store, night, kind.key)), "", False)
        self.list = FoundList(desk.look, self._rows, "Earlier wordings", _Delegate)
        self.list.setCurrentIndex(self._rows.index(0))
        self.list.activated.connect(lambda _: self._bring_back())
        layout.addWidget(self.list)
        layout.addLayout(self._buttons())

    def _buttons(self) -> QHBoxLayout:
        answers = (("Cancel", self.reject), ("Bring back", self._bring_back))
        return row(None, *(plain_button(text, pressed, by_enter=True) for text, pressed in answers))

    def _bring_back(self) -> None:
        at = self.list.currentIndex()
        if at.isValid():
            self.chosen = self._rows.at(at.row()).line.text
            self.accept()
