"""Where one was for a span of nights: asked for, told before it is said, and taken back on the spot."""

from datetime import date

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QCheckBox, QDialog, QGridLayout, QVBoxLayout, QWidget

from keeper.actions import reading, resting
from keeper.actions.history import undoing
from keeper.actions.places import where_between
from keeper.errors import KeeperError
from keeper.model import Place
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.own_spelling import own_spelling
from keeper.window.parts.places import span_wording
from keeper.window.parts.places.field import PlaceField
from keeper.window.parts.places.town_search import TownSearch
from keeper.window.parts.small import label, plain_button, row
from keeper.window.parts.typing.date_edit import SUCH_AS, DateEdit


class SpanDialog(QDialog):
    """Asks for a place and two nights; ``place``, ``first`` and ``last`` are what it begins with."""

    def __init__(
        self, desk: Desk, parent: QWidget, place: Place | None = None, first: date | None = None, last: date | None = None
    ) -> None:
        super().__init__(parent)
        self.desk = desk
        self._chosen: object = place or ""
        self.said: where_between.SpanSaid | None = None
        self._act: int | None = None
        self.setWindowTitle("Where you were")
        self.place = PlaceField(lambda: reading.known_places(desk.store), lambda: TownSearch(desk))
        self.place.setPlaceholderText("The place")
        self.place.setProperty("sought", True)
        self.place.chosen.connect(self._on_chosen)
        self.place.refused.connect(self._tell)
        self.place.settled.connect(lambda: (self.first if not self.first.text() else self.last).setFocus())
        self.first = _date(desk, "From, the first night", first)
        self.last = _date(desk, "Until, the last night", last)
        self.told = label("", "quiet")
        self.over = QCheckBox("These too")
        self.over.setAccessibleName("Change the nights that were said to be elsewhere too")
        self.back = plain_button("Undo", self._take_back)
        self.leave, self.act = plain_button("Cancel", self.reject), plain_button("Set", self.take)
        self._lay_out()
        name = place.name if place else ""
        self.place.show_place(name, name)
        for edit in (self.first, self.last):
            edit.textEdited.connect(lambda _: self._follow())
        self.first.returnPressed.connect(self.last.setFocus)
        self.last.returnPressed.connect(self.take)
        self.over.toggled.connect(lambda _: self._follow())
        self._follow()
        (self.first if place and not first else self.last if place else self.place).setFocus()

    def _lay_out(self) -> None:
        px = self.desk.look.px
        layout = QVBoxLayout(self)
        layout.setContentsMargins(px(1.4), px(1.2), px(1.4), px(1.2))
        layout.setSpacing(px(0.6))
        # One below the other: side by side a date and the example in an empty field were cut.
        grid = QGridLayout()
        grid.setHorizontalSpacing(px(0.6))
        grid.setVerticalSpacing(px(0.4))
        for number, (word, edit) in enumerate((("At", self.place), ("From", self.first), ("Until", self.last))):
            grid.addWidget(label(word, "quiet", wrap=False), number, 0)
            grid.addWidget(edit, number, 1)
        layout.addLayout(grid)
        layout.addWidget(self.told)
        layout.addWidget(self.over)
        layout.addStretch(1)
        layout.addLayout(row(self.back, None, self.leave, self.act))
        self.back.hide()
        # So that the sentence has room, and little moves when it changes.
        self.told.ensurePolished()
        self.told.setMinimumHeight(self.told.fontMetrics().lineSpacing() * 3)
        self.told.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        self.setMinimumWidth(px(30))

    def sizeHint(self) -> QSize:
        wide = self.desk.look.px(34)
        return QSize(wide, max(super().sizeHint().height(), self.layout().totalHeightForWidth(wide)))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        # Enter belongs to the fields: it goes on to the next of them.
        if event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            super().keyPressEvent(event)

    # telling

    def _tell(self, sentence: str) -> None:
        self.told.setText(sentence)
        self._make_room()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._make_room()

    def _make_room(self) -> None:
        layout = self.layout()
        layout.activate()
        needed = layout.totalHeightForWidth(self.width())
        if self.isVisible() and self.height() < needed:
            self.resize(self.width(), needed)

    def _on_chosen(self, chosen: object) -> None:
        self._chosen = chosen
        self._follow()

    def _span(self) -> tuple[date, date]:
        tonight = self.desk.tonight()
        first, last = resting.read_span(self.first.text(), self.last.text(), tonight, own_spelling())
        where_between.check_span(first, last, tonight)
        return first, last

    def _follow(self) -> None:
        self.over.hide()
        try:
            first, last = self._span()
            at = self._chosen.id if isinstance(self._chosen, Place) else ""
            there, carried = (where_between.elsewhere(self.desk.store, first, last, at, way) for way in (False, True))
        except KeeperError as error:
            both = self.first.text().strip() and self.last.text().strip()
            self._tell(str(error) if both else f"The first night and the last, such as {SUCH_AS}.")
            return
        self.over.setVisible(bool(there))
        self._tell(span_wording.asked(first, last, there, carried, self.over.isChecked()))

    # saying and taking back

    def take(self) -> None:
        """Say it, and tell what was done."""
        self.place.settle()
        try:
            first, last = self._span()
        except KeeperError as error:
            self._tell(str(error))
            return
        chosen, over, tonight = self._chosen, self.over.isChecked() and not self.over.isHidden(), self.desk.tonight()
        self.act.setEnabled(False)
        self.desk.write(
            lambda store: (where_between.say_between(store, first, last, chosen, self.desk.clock, tonight, over), undoing.last_noted(store)),
            self._on_said, self._on_failed,
        )  # fmt: skip

    def _on_said(self, done: tuple[where_between.SpanSaid, int | None]) -> None:
        self.said, self._act = said, _ = done
        self.desk.changed.emit()
        self._settle(span_wording.said(said), done=True)
        self.desk.said.emit(span_wording.said(said))

    def _on_failed(self, error: KeeperError) -> None:
        self.act.setEnabled(True)
        self._tell(str(error))

    def _take_back(self) -> None:
        act, self._act = self._act, None
        if act is not None:
            self.desk.write(lambda store: undoing.turn(store, act), self._on_back, self._on_failed)

    def _on_back(self, turned: undoing.Turned) -> None:
        self.desk.changed.emit()
        # A place begun for it is gone again; its name stays in the field.
        self._chosen = " ".join(self.place.text().split())
        self._settle(turned.sentence, done=False)
        self.desk.said.emit(turned.sentence)
        self.last.setFocus()

    def _settle(self, sentence: str, done: bool) -> None:
        self.over.hide()
        for part in (self.place, self.first, self.last):
            part.setEnabled(not done)
        self.act.setEnabled(not done)
        self.act.setVisible(not done)
        self.back.setVisible(done and bool(self.said and self.said.changed))
        self.leave.setText("Close" if done else "Cancel")
        self._tell(sentence)
        if done:
            self.leave.setFocus()


def _date(desk: Desk, name: str, night: date | None) -> DateEdit:
    made = DateEdit(desk, name)
    made.setText(wording.full_date(night) if night else "")
    made.setPlaceholderText(SUCH_AS)
    made.setCursorPosition(0)
    return made
