"""One kind of line, as a row of the settings."""

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QCheckBox, QLineEdit, QVBoxLayout, QWidget

from keeper.model import LineKind
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.flow import Flow
from keeper.window.parts.small import label, quiet_button, row
from keeper.window.parts.tips import plain_tip
from keeper.window.parts.typing.date_edit import DateEdit
from keeper.window.parts.typing.put_by import PutBy


class _Edit(QLineEdit):
    """A field of a row; Alt with an arrow moves the whole row."""

    moved = Signal(int)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        by = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}.get(Qt.Key(event.key()))
        if by and event.modifiers() & Qt.KeyboardModifier.AltModifier:
            self.moved.emit(by)
        else:
            super().keyPressEvent(event)


class KindRow(QWidget):
    """A kind's name and prompt, its place among the others, and, when unfolded, its dates and whether it is in themes.

    ``moved`` comes with -1 or 1.
    """

    moved = Signal(int)

    def __init__(self, desk: Desk, kind: LineKind, tell: Callable[[str], None]) -> None:
        super().__init__()
        self._desk, self.kind = desk, kind
        self.name, self.prompt = _Edit(), _Edit()
        self.name.setProperty("words", True)
        self.prompt.setProperty("caption", True)
        self.words = PutBy(desk, self.name, "kind name", tell=tell)
        self.prompt_words = PutBy(desk, self.prompt, "kind prompt", tell=tell)
        self.state = label("", "quiet", wrap=False)
        self.up = quiet_button("\u2191", lambda: self.moved.emit(-1))
        self.down = quiet_button("\u2193", lambda: self.moved.emit(1))
        self.more = quiet_button("More", self._turn)
        self.out = quiet_button("Stop asking", lambda: None)
        self.themes = QCheckBox("In themes")
        self.first, self.last = DateEdit(desk, "From"), DateEdit(desk, "Until")
        for edit in (self.name, self.prompt):
            edit.moved.connect(self.moved)
        self._lay_out()
        self.tell(kind)
        self.fit()

    def _lay_out(self) -> None:
        px = self._desk.look.px
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(px(0.2))
        beside = row(self.name, self.prompt, self.state, self.up, self.down, self.more, gap=px(0.6))
        beside.setStretch(1, 1)
        column.addLayout(beside)
        dates = (label("Asked from", "quiet", wrap=False), self.first, label("until", "quiet", wrap=False), self.last)
        self.folded = Flow(self._desk.look, *dates, self.themes, self.out, gap=0.6)
        self.folded.hide()
        column.addWidget(self.folded)

    def fit(self) -> None:
        """Take up the text size in force."""
        for edit in (self.first, self.last):
            edit.setFixedWidth(self._desk.look.px(7))
        self.name.setFixedWidth(self._desk.look.px(11))
        # "Less" is narrower, and nothing is to move when it comes.
        self.more.setMinimumWidth(self._desk.look.px(2.6))

    def tell(self, kind: LineKind) -> None:
        """Show the kind as it is kept; what is being typed stays."""
        self.kind, tonight = kind, self._desk.tonight()
        self.words.show(kind.key, kind.title)
        self.prompt_words.show(kind.key, kind.prompt)
        self.prompt.setPlaceholderText(wording.prompt(kind) or "What it asks")
        self._name_parts(kind.title)
        self.name.setToolTip(plain_tip(kind.title))
        for edit, night in ((self.first, kind.began), (self.last, kind.ended)):
            if not edit.hasFocus():
                edit.setText(night.isoformat() if night else "")
        self.first.setPlaceholderText("the beginning")
        self.last.setPlaceholderText("no end")
        self.themes.setChecked(kind.in_themes)
        self.state.setText(_state(kind, tonight))
        self.state.setVisible(bool(self.state.text()))
        self.out.setText("Ask again" if self.is_out(tonight) else "Stop asking")

    def is_out(self, tonight: date) -> bool:
        """Whether it is asked for no more."""
        return self.kind.ended is not None and self.kind.ended < tonight

    def _name_parts(self, title: str) -> None:
        told = {self.name: f"Name of {title}", self.prompt: f"What {title} asks", self.up: f"{title} earlier",
                self.down: f"{title} later", self.themes: f"{title} in themes", self.first: f"{title}, asked from",
                self.last: f"{title}, asked until", self.more: f"More of {title}",
                self.out: f"{'Ask again' if self.is_out(self._desk.tonight()) else 'Stop asking'} for {title}"}  # fmt: skip
        for part, name in told.items():
            part.setAccessibleName(name)

    def _turn(self) -> None:
        self.unfold(self.folded.isHidden())

    def unfold(self, unfolded: bool) -> None:
        """Show the rest of it, or not."""
        self.folded.setVisible(unfolded)
        self.more.setText("Less" if unfolded else "More")

    def parts(self) -> list[QWidget]:
        """Everything in it that takes the focus, in the order of Tab."""
        return [self.name, self.prompt, self.up, self.down, self.more, self.first, self.last, self.themes, self.out]


def _state(kind: LineKind, tonight: date) -> str:
    if kind.ended and kind.ended < tonight:
        return "not asked for"
    if kind.began and tonight < kind.began:
        return f"from {wording.short_date(kind.began)}"
    return f"until {wording.short_date(kind.ended)}" if kind.ended else ""
