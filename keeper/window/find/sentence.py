"""What narrows a search, as one sentence of words; each is taken off by a press, as one crosses out a word."""

from dataclasses import replace

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from keeper.actions.finding import Sought, phrases
from keeper.actions.finding.known import KnownNames
from keeper.actions.finding.phrases import Phrase
from keeper.window.desk.desk import Desk
from keeper.window.find.only_edit import OnlyEdit
from keeper.window.parts.flow import Flow
from keeper.window.parts.small import plainly

_LONGEST = 48


class _Word(QPushButton):
    """One phrase. Crossed through while it is pointed at or has the focus: a press, or Delete, takes it off."""

    def __init__(self, text: str, off) -> None:
        short = text if len(text) <= _LONGEST else text[: _LONGEST - 1].rstrip() + "\u2026"
        super().__init__(plainly(short))
        self.setProperty("quiet", True)
        self.setProperty("named", True)
        self.setAutoDefault(True)
        self.setAccessibleName(f"Take off: {text}")
        self._off = off
        self.clicked.connect(lambda: off())

    def event(self, event: QEvent) -> bool:
        kind = event.type()
        if kind in (QEvent.Type.Enter, QEvent.Type.FocusIn):
            self._cross(True)
        elif kind in (QEvent.Type.Leave, QEvent.Type.FocusOut):
            self._cross(kind == QEvent.Type.Leave and self.hasFocus())
        return super().event(event)

    def _cross(self, through: bool) -> None:
        font = self.font()
        font.setStrikeOut(through)
        self.setFont(font)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self._off()
        else:
            super().keyPressEvent(event)


class NarrowingSentence(QWidget):
    """The phrases, a field for more, and what stands behind them. ``changed`` comes with the search when the person adds or takes off one."""

    changed = Signal(object)

    def __init__(self, desk: Desk, *behind: QWidget) -> None:
        super().__init__()
        self.only = OnlyEdit(desk)
        self.sought = Sought()
        self.words: list[QPushButton] = []
        self._behind = behind
        self._flow = Flow(desk.look, self.only, *behind, gap=0.7)
        body = QVBoxLayout(self)
        body.setContentsMargins(0, 0, 0, 0)
        body.addWidget(self._flow)
        self.only.taken.connect(self._add)
        self.only.last_off.connect(self._last_off)

    def know(self, known: KnownNames) -> None:
        """What can be said, and how what is said is called now."""
        self.only.known = known
        self.show_sought(self.sought)

    def show_sought(self, sought: Sought) -> None:
        """Show what narrows this; its words and its nights are shown elsewhere."""
        self.sought = replace(sought, first=None, last=None)
        said = phrases.in_sentence(self._told())
        if [text for _, text in said] != [word.accessibleName().removeprefix("Take off: ") for word in self.words]:
            self.words = [_Word(text, lambda one=one, at=at: self._take_off(one, at)) for at, (one, text) in enumerate(said)]
            self._flow.show_things(*self.words, self.only, *self._behind)
            for first, second in zip([*self.words, self.only], [*self.words, self.only, *self._behind][1:], strict=False):
                QWidget.setTabOrder(first, second)

    def _told(self) -> tuple[Phrase, ...]:
        return self.only.known.phrases(self.sought) if self.only.known else ()

    def _add(self, offer: tuple[Phrase, ...]) -> None:
        sought = self.sought
        for one in offer:
            sought = phrases.with_phrase(sought, one)
        self._change(sought)

    def _take_off(self, phrase: Phrase, at: int) -> None:
        self._change(phrases.without_phrase(self.sought, phrase))
        (self.words[min(at, len(self.words) - 1)] if self.words else self.only).setFocus()

    def _last_off(self) -> None:
        if told := self._told():
            self._change(phrases.without_phrase(self.sought, told[-1]))

    def _change(self, sought: Sought) -> None:
        self.show_sought(sought)
        self.changed.emit(sought)
