"""Being asked about a theme one began: one line at a time, one key each."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.actions.themes import begun
from keeper.errors import KeeperError
from keeper.model import Found
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.errand import Errand
from keeper.window.parts.low_window import LowWindow
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import breakable, in_the_middle, label, quiet_button, row
from keeper.window.themes.work import ThemeWork

KEYS = {Qt.Key.Key_Y: begun.YES, Qt.Key.Key_N: begun.NO, Qt.Key.Key_S: begun.SKIPPED}
NONE_YET = "No line stands in it so far; lines that you write later may."


class AnsweringPage(BasicPage, AsksAgain, LowWindow):
    """Lines least sure, one after another; each answer is kept at once.

    ``left`` comes when the person goes back, ``lines_wanted`` with the theme's number when they want its lines.
    """

    left = Signal()
    lines_wanted = Signal(int)

    def __init__(self, desk: Desk, work: ThemeWork) -> None:
        super().__init__()
        self.desk, self.work = desk, work
        self.number = 0
        self.asking: begun.StillToAsk | None = None
        self._errand = Errand(desk.reader)
        self._sent: set[str] = set()
        self._over, self._answered = False, False
        self.back = quiet_button("\u2039 all themes", self.left.emit, "Back to all themes")
        self.heading, self.told, self.where = label("", "head"), label("", "quiet"), label("", "quiet")
        self.line = label("", "words")
        self.line.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.answers = {
            begun.YES: quiet_button("Yes (Y)", lambda: self._answer(begun.YES), "Yes, it belongs to the theme"),
            begun.NO: quiet_button("No (N)", lambda: self._answer(begun.NO), "No, it does not belong to the theme"),
            begun.SKIPPED: quiet_button("Skip (S)", lambda: self._answer(begun.SKIPPED), "Skip this line"),
        }
        self.more = quiet_button("Ask about more", self._ask_more)
        self.lines = quiet_button("Its lines \u203a", lambda: self.lines_wanted.emit(self.number), "Show the lines of this theme")
        self._leads: QWidget = self.line
        self._lay_out()
        self.lead_with(self.line)
        work.moved.connect(lambda *_: self._tell())
        desk.changed.connect(self.refresh)
        desk.dressed.connect(self.dress)

    def _lay_out(self) -> None:
        px = self.desk.look.px
        self.column = QWidget()
        body = QVBoxLayout(self.column)
        body.setSpacing(px(0.6))
        body.addLayout(row(self.back, None))
        for part in (self.heading, self.told):
            body.addWidget(part)
        # Above the line: however long that is, they stay where they are.
        body.addLayout(row(*self.answers.values(), self.more, self.lines, None, gap=px(1.6)))
        body.addSpacing(px(1.0))
        for part in (self.where, self.line):
            body.addWidget(part)
        body.addStretch(1)
        self.within.setLayout(in_the_middle(self.column))
        self.dress()

    def dress(self) -> None:
        """Take up the palette and sizes in force."""
        px = self.desk.look.px
        self.column.setMaximumWidth(px(46))
        self.column.layout().setContentsMargins(px(1.5), px(1.0), px(1.5), px(1.0))
        self.line.setFont(self.desk.look.serif(1.5))

    # asking

    def show_theme(self, number: int) -> None:
        """Ask about the lines of this theme."""
        if number != self.number:
            self.asking = None
            self.heading.setText("")
        self.number, self._over, self._answered = number, False, False
        self._sent.clear()
        self._tell()
        self.ask()

    def ask(self) -> None:
        """Ask for the lines, and for what was answered so far."""
        number = self.number
        if number:
            self._errand.anew(lambda store, task: begun.asking(store, number), self._show, self._gone)

    def _show(self, found: begun.StillToAsk) -> None:
        self.asking = found
        self._sent &= {one.line.id for one in found.lines}
        self.heading.setText(breakable(found.name))
        self._tell()

    def _gone(self, error: KeeperError) -> None:
        # An undo may have taken the theme itself back.
        if self.isVisible():
            self.desk.said.emit(str(error))
            self.left.emit()

    def _waiting(self) -> list[Found]:
        return [one for one in self.asking.lines if one.line.id not in self._sent] if self.asking else []

    # telling

    def _tell(self) -> None:
        waiting = self._waiting()
        asked = bool(waiting) and not self._over and not (self.work.running and not self._answered)
        for part in (self.where, self.line, *self.answers.values()):
            part.setVisible(asked)
        self.more.setVisible(not asked and bool(waiting) and not self.work.running)
        self.lines.setVisible(not asked and not self.work.running and self.asking is not None and self.asking.there)
        if asked:
            self._tell_line(waiting[0])
        else:
            self.told.setText(self._why_none())
        parts = (self.line, self.more, self.lines, self.back)
        leads = next(part for part in parts if part.isVisibleTo(self.within))
        if leads is not self._leads:
            # Whoever answers goes on with what comes next, without looking for it.
            self._leads = leads
            self.lead_with(leads)
            if self.isVisible():
                leads.setFocus()

    def _tell_line(self, found: Found) -> None:
        answered = self.asking.answered + len(self._sent)
        place, last = answered % begun.ROUND + 1, answered % begun.ROUND + len(self._waiting())
        self.told.setText(f"Does this belong to it? {place} of {min(begun.ROUND, last)}")
        parts = [wording.long_date(found.line.night), found.place_name, found.line.kind_title]
        self.where.setText(" \u00b7 ".join(part for part in parts if part))
        self.line.setText(breakable(found.line.text))
        self.line.setAccessibleName(f"Does this belong to {self.asking.name}? {found.line.text}")

    def _why_none(self) -> str:
        if self.work.running:
            return "Looking for lines like these\u2026"
        if self.asking is None:
            return ""
        if not self.asking.answered:
            return "There is no line it is unsure of." if self.asking.there else NONE_YET
        told = f"{wording.counted(self.asking.answered + len(self._sent), 'answer')} kept. "
        return told + ("Every later look goes by them." if self._waiting() else "There is no other line it is unsure of.")

    # doing

    def keyPressEvent(self, event: QKeyEvent) -> None:
        says = KEYS.get(Qt.Key(event.key()))
        if says and not event.modifiers() and self.answers[says].isVisible():
            self._answer(says)
        else:
            super().keyPressEvent(event)

    def _answer(self, says: str) -> None:
        waiting, number, clock = self._waiting(), self.number, self.desk.clock
        if not waiting or self._over:
            return
        line_id = waiting[0].line.id
        self._sent.add(line_id)
        self._answered = True
        self._over = (self.asking.answered + len(self._sent)) % begun.ROUND == 0
        self.desk.write(
            lambda store: begun.answer(store, number, line_id, says, clock),
            lambda _: self.desk.changed.emit(), lambda error: self._not_kept(line_id, error),
        )  # fmt: skip
        if self._over or len(waiting) == 1:
            self._lay_over()
        self._tell()

    def _not_kept(self, line_id: str, error: KeeperError) -> None:
        self._sent.discard(line_id)
        self.desk.said.emit(str(error))
        self.ask()

    def _lay_over(self) -> None:
        """Let the themes go by what was answered."""
        self._answered = False
        # Behind the answers: the writing that is queued comes first.
        self.desk.write(lambda store: None, lambda _: self.work.look())

    def _ask_more(self) -> None:
        self._over = False
        self._tell()
        self.setFocus()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        if self._answered and not event.spontaneous():
            self._lay_over()
