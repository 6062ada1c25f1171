"""Birthdays in from a file: what it would bring is told first, then kept; and out to one."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QStandardPaths, Signal
from PySide6.QtWidgets import QFileDialog, QVBoxLayout, QWidget

from keeper.actions.one_person import cards, cards_looked, cards_told
from keeper.actions.one_person.cards_looked import CardsLooked
from keeper.dates import written
from keeper.errors import KeeperError
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import Paper, breakable, emptied, label, quiet_button, row

_KINDS = "Cards and calendars (*.vcf *.vcard *.ics *.ical);;All files (*)"
_KINDS_OUT = "Cards (*.vcf);;Calendar (*.ics)"
_TROUBLES = 40
"""So many are told; of more it is said how many."""


class CardsLeaf(BasicPage, Paper):
    """A file looked at: sentences, whether those in no line are wanted too, and one press that keeps it."""

    left = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look)
        self.desk = desk
        self.looked: CardsLooked | None = None
        self.everybody = False
        self._errand = Errand(desk.reader)
        self.back = quiet_button("\u2039 all people", self.left.emit, "Back to all people")
        self.heading = label("", "head")
        self.sentences = QVBoxLayout()
        self.all = quiet_button("", self._turn)
        self.keep_it = quiet_button("Keep", self._keep, "Keep what the file would bring")
        self.stop = quiet_button("Stop", self._stop, "Stop looking at the file")
        self.troubles = label("", "quiet")
        self.body.addLayout(row(self.back, None))
        self.body.addWidget(self.heading)
        self.body.addLayout(self.sentences)
        self.body.addLayout(row(self.keep_it, self.all, self.stop, None, gap=desk.look.px(1.2)))
        self.body.addWidget(self.troubles)
        self.body.addStretch(1)
        self.lead_with(self.back)
        desk.dressed.connect(self.dress)

    def show_night(self, night: object) -> None:
        """The same on any night."""

    def look_at(self, path: Path) -> None:
        """Look at a file."""
        self.looked, self.everybody = None, False
        self.heading.setText(breakable(path.name))
        self._say(["Looking\u2026"])
        tonight = self.desk.tonight()
        self._errand.anew(lambda store, task: cards_looked.look(store, path, tonight, task.stopped), self._show, self._fail)
        self._order(looking=True)

    def _show(self, looked: CardsLooked) -> None:
        self.looked = looked
        self._tell()
        self.keep_it.setFocus() if self.keep_it.isVisible() else self.back.setFocus()

    def _tell(self) -> None:
        looked, new = self.looked, len(self.looked.left())
        self._say(cards_told.would_bring(looked, self.everybody))
        told, more = looked.troubles[:_TROUBLES], len(looked.troubles) - _TROUBLES
        self.troubles.setText(breakable("\n".join([*told, *([f"And {written.number(more)} more."] if more > 0 else [])])))
        self.all.setText("Only those named in lines" if self.everybody else f"Also those in no line ({written.number(new)})")
        self.all.setAccessibleName(self.all.text())
        self._order()
        self.all.setVisible(bool(new))
        self.keep_it.setVisible(bool(looked.chosen(self.everybody)))

    def _order(self, looking: bool = False) -> None:
        self.stop.setVisible(looking)
        for part in (self.all, self.keep_it):
            part.hide()
        self.troubles.setVisible(not looking and bool(self.looked and self.looked.troubles))

    def _say(self, sentences) -> None:
        emptied(self.sentences)
        for sentence in sentences:
            self.sentences.addWidget(label(breakable(sentence)))

    def _turn(self) -> None:
        self.everybody = not self.everybody
        self._tell()
        self.all.setFocus()

    def _stop(self) -> None:
        self._errand.stop()
        self.left.emit()

    def leave(self) -> None:
        """Another page comes: what is looked at is let go."""
        self._errand.stop()

    def _keep(self) -> None:
        looked, everybody = self.looked, self.everybody
        self._order()
        self.desk.write(lambda store: cards.keep(store, looked, everybody), self._kept, self._fail)

    def _kept(self, many: int) -> None:
        self.desk.said.emit(f"Kept: days of {written.counted(many, 'person', 'people')}.")
        self.desk.changed.emit()
        self.left.emit()

    def _fail(self, error: KeeperError) -> None:
        self._say([str(error)])
        self._order()
        self.back.setFocus()


def chosen_file(over: QWidget) -> Path | None:
    """The file that the person names to be read in."""
    home = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
    named, _ = QFileDialog.getOpenFileName(over, "A file of cards, or a calendar", home, _KINDS)
    return Path(named) if named else None


def give(desk: Desk, over: QWidget, done: Callable[[str], None]) -> None:
    """Write everybody's days into a file that the person names; ``done`` hears what was done, or why not."""
    home = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
    named, kind = QFileDialog.getSaveFileName(over, "Birthdays out", str(Path(home, "birthdays.vcf")), _KINDS_OUT)
    if not named:
        return
    path, clock = Path(named), desk.clock
    if not path.suffix:
        path = path.with_suffix(".ics" if "ics" in kind else ".vcf")
    desk.reader.run(lambda store, task: cards.give(store, path, clock), done, lambda error: done(str(error)))
