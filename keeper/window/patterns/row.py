"""One pattern on the page: its sentence, what can be done with it, and its chart."""

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from keeper.actions.patterns import shown as patterns
from keeper.review.patterns.whole import Shown
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand
from keeper.window.parts.flow import Flow
from keeper.window.parts.small import breakable, label, quiet_button
from keeper.window.patterns.chart import PatternChartView


@dataclass(frozen=True)
class RowAct:
    """Something that can be done with a pattern: what it is called, what it does, its key and how that is named.

    ``when_watched`` is what it is called while an eye is kept on the pattern, if that is another.
    """

    name: str
    does: Callable[[Shown], object]
    key: Qt.Key
    key_name: str
    when_watched: str = ""


class Sentence(QLabel):
    """A sentence that has the focus; ``pressed`` comes with a key."""

    pressed = Signal(object)
    reached = Signal()

    def __init__(self, words: str) -> None:
        super().__init__(breakable(words))
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setWordWrap(True)
        # A label with a border is otherwise given room of its own beside it.
        self.setIndent(0)
        self.setProperty("pattern", True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(words)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        event.ignore()
        if not event.modifiers():
            self.pressed.emit(event)
        if not event.isAccepted():
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.reached.emit()


class PatternRow(QWidget):
    """``reached`` comes when it gets the focus, ``step`` when the one before or after is wanted (-1, 1)."""

    reached = Signal(object)
    step = Signal(object, int)

    def __init__(self, desk: Desk, one: Shown, acts: tuple[RowAct, ...]) -> None:
        super().__init__()
        self.desk, self.one = desk, one
        self._errand = Errand(desk.reader)
        self.chart: PatternChartView | None = None
        self.acts = (RowAct("Chart", lambda _: self.toggle_chart(), Qt.Key.Key_C, "C, Enter"), *acts)
        self.sentence = Sentence(one.sentence)
        self.sentence.pressed.connect(self._on_key)
        self.sentence.reached.connect(lambda: self.reached.emit(self))
        self.small = label(" ".join(filter(None, (one.small, one.watched))), "quiet")
        self.small.setIndent(_inset(desk))
        self.buttons: list[QWidget] = []
        self.below = Flow(desk.look, gap=1.2)
        self.below.hide()
        self.body = QVBoxLayout(self)
        self.body.setContentsMargins(0, 0, 0, desk.look.px(0.7))
        self.body.setSpacing(desk.look.px(0.15))
        self.within = QVBoxLayout()
        self.within.setContentsMargins(_inset(desk), 0, 0, 0)
        self.within.addWidget(self.below)
        self.body.addWidget(self.sentence)
        self.body.addWidget(self.small)
        self.body.addLayout(self.within)

    def _button(self, act: RowAct) -> QWidget:
        name = (self.one.watched and act.when_watched) or act.name
        made = quiet_button(name, lambda: act.does(self.one), f"{name}: {self.one.sentence}")
        made.setToolTip(act.key_name)
        return made

    def mark(self, marked: bool) -> None:
        """Show what can be done with it, or not; made when it is first wanted, since there may be many rows."""
        if marked and not self.buttons:
            self.buttons = [self._button(act) for act in self.acts]
            for button in self.buttons:
                self.below.add(button)
        self.below.setVisible(marked)

    def toggle_chart(self) -> None:
        """Show its chart, or let it go."""
        if self.chart is not None:
            self._errand.stop()
            self.chart.deleteLater()
            self.chart.hide()
            self.chart = None
            return
        self.chart = PatternChartView(self.desk.look)
        self.within.addWidget(self.chart)
        told = self.one.told
        self._errand.anew(lambda store, task: patterns.pattern_chart(store, told), self.chart.show_chart, self._fail)

    def _fail(self, error: Exception) -> None:
        self.toggle_chart()
        self.desk.said.emit(str(error))

    def _on_key(self, event: QKeyEvent) -> None:
        key = event.key()
        if key in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            self.step.emit(self, -1 if key == Qt.Key.Key_Up else 1)
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            self.toggle_chart()
        elif act := next((act for act in self.acts if act.key == key), None):
            act.does(self.one)
        else:
            return
        event.accept()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange and self.chart:
            self.chart.update()


def _inset(desk: Desk) -> int:
    """Dots from the edge to the words of a sentence: its border, and the gap of the style sheet."""
    return 2 + desk.look.px(0.35)
