"""The field for a later word under an old line: kept as it is typed, never asked for."""

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from keeper.actions.remembering import later
from keeper.actions.writing import readable
from keeper.dates.written import full_date, shortest
from keeper.errors import KeeperError
from keeper.model import Line
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import emptied, label, quiet_button, row, rule
from keeper.window.parts.typing.field import Field
from keeper.window.parts.typing.put_by import PutBy
from keeper.window.parts.words_shown import line_words

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent

_TOLD = 60
"""So many letters of a line tell which one it is."""


class LaterField(QWidget):
    """What is thought of one line tonight, or was on another night; where a mood was noted on its own, how that looks from there.

    ``field`` has the words, ``looks`` the number. What was said on another
    night can be removed, and be worded again as it was.
    """

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk, self.line, self._night = desk, None, desk.tonight()
        self.under = label("", "quiet")
        self.field = Field()
        self.field.setPlaceholderText("A later word")
        self.field.read_both_ways()
        self.field.left.connect(self.keep)
        self._words = PutBy(desk, self.field, "later word", self._write)
        self._words.kept.connect(lambda *_: self._say_state())
        self.state = label("", "quiet", wrap=False)
        self.noted = label("", "quiet", wrap=False)
        self.looks = QLineEdit()
        self.looks.setFixedWidth(desk.look.px(2.6))
        self._number = PutBy(desk, self.looks, "how it looks", self._look_anew)
        self.looks.editingFinished.connect(self._number.put_by)
        self.remove = quiet_button("Remove", self._remove)
        self.earlier = QVBoxLayout()
        self._earlier: tuple | None = None
        self.field.textChanged.connect(self._say_state)
        self._lay_out()
        desk.changed.connect(self.refresh)
        desk.dressed.connect(self.dress)
        self.dress()

    def _lay_out(self) -> None:
        px = self._desk.look.px
        column = QVBoxLayout(self)
        column.setContentsMargins(0, px(0.9), 0, px(0.5))
        column.setSpacing(px(0.3))
        head = row(self.under, self.state)
        head.setStretch(0, 1)
        head.setAlignment(self.state, Qt.AlignmentFlag.AlignTop)
        column.addLayout(head)
        column.addWidget(self.field)
        column.addWidget(rule())
        column.addLayout(row(None, self.remove))
        self.mood = QWidget()
        self.mood.setLayout(row(self.noted, self.looks, None))
        column.addWidget(self.mood)
        column.addLayout(self.earlier)
        self.hide()

    def dress(self) -> None:
        """Take up the typeface in force."""
        self.field.ensurePolished()
        self.field.document().setDefaultFont(self.field.font())
        self.field.fit()

    def resizeEvent(self, event: "QResizeEvent") -> None:
        super().resizeEvent(event)
        # When the field has its new width, it has other rows.
        QTimer.singleShot(0, self.field, self.field.fit)

    # showing

    @property
    def night(self) -> date:
        """The night for which the words are: tonight, or the one on which they were said."""
        return self._night

    def show_line(self, line: Line | None, said_on: date | None = None) -> None:
        """Be for this line, or for none, and for what was said of it on a night, else for tonight; what was typed for another is kept."""
        night = said_on or self._desk.tonight()
        if line is None or line.night >= self._desk.tonight():
            self.line = None
            self.hide()
            return
        if self.line is not None and (self.line.id, self._night) != (line.id, night):
            self.keep()
        self.line, self._night = line, night
        what = f"What was said on {full_date(night)}" if night != self._desk.tonight() else "A later word"
        told = f"{what} under {line.kind_in_sentence} of {full_date(line.night)}"
        words = " ".join(line.text.split())
        cut = words if len(words) <= _TOLD else f"{words[:_TOLD].rstrip()}\u2026"
        self.under.setText(f"{told}: \u201c{cut}\u201d")
        self.field.setAccessibleName(told)
        self.show()
        self.refresh()

    def refresh(self) -> None:
        """Ask again what is kept; what is being typed stays."""
        if self.line is None:
            return
        try:
            now = later.under(self._desk.store, self.line.id, self._night)
        except KeeperError as error:
            self._desk.said.emit(str(error))
            self.hide()
            return
        ref = f"{self.line.id} {self._night.isoformat()}"
        self._words.show(ref, now.text)
        self._show_earlier(now)
        self.mood.setVisible(now.tracker is not None)
        if now.tracker:
            self.noted.setText(f"{now.tracker.name} {shortest(now.was.value)} that night; from {'here' if self._night == self._desk.tonight() else 'there'}")
            self.looks.setAccessibleName(f"How {now.tracker.name} of that night looks from here")
            self._number.show(ref, "" if now.looks is None else shortest(now.looks))
        self._say_state()

    def _say_state(self) -> None:
        words = self.field.words().strip()
        self.state.setText("" if not words else "\u2026" if self._words.waits() else "kept")

    # writing

    def keep(self) -> None:
        """Keep what is typed."""
        self.field.settle()
        self._words.put_by()
        self._number.put_by()

    def _show_earlier(self, now: later.UnderLine) -> None:
        """What the words said before, each to be had back; and the button, where there is something of another night to remove."""
        other = self._night != self._desk.tonight()
        self.remove.setVisible(other and bool(now.text))
        self.remove.setAccessibleName(f"Remove what was said on {full_date(self._night)}")
        if now.earlier == self._earlier:
            return
        self._earlier = now.earlier
        emptied(self.earlier)
        for one in now.earlier:
            until = full_date(one.replaced_at.astimezone(self._desk.clock.now().tzinfo).date())
            back = quiet_button("Bring back", lambda text=one.text: self._say(text), f"Bring back: {one.text[:200]}")
            head = row(label(f"Until {until} it said:", "quiet"), back)
            head.setStretch(0, 1)
            self.earlier.addLayout(head)
            self.earlier.addWidget(line_words(one.text))

    def _remove(self) -> None:
        self.field.setFocus()
        self._say("")

    def _say(self, words: str) -> None:
        """Let the field say this, and keep it."""
        self.keep()
        self.field.put(words)
        self.keep()

    def _write(self, store, ref: str, words: str) -> None:
        line_id, night = _parted(ref)
        later.write(store, line_id, night, readable(words), self._desk.clock)

    def _look_anew(self, store, ref: str, typed: str) -> None:
        line_id, night = _parted(ref)
        later.look_anew(store, line_id, night, typed, self._desk.clock)


def _parted(ref: str) -> tuple[str, date]:
    line_id, night = ref.split()
    return line_id, date.fromisoformat(night)
