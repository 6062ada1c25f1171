"""Someone's thread: how it went, and every line that names them."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.actions.themes.people_named import PersonNamed, person_named
from keeper.errors import KeeperError
from keeper.window.desk.desk import Desk
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.errand import Errand
from keeper.window.parts.low_window import LowWindow
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import breakable, in_the_middle, label, quiet_button, row
from keeper.window.themes import wording as theme_wording
from keeper.window.themes.course import CourseView
from keeper.window.themes.lines import ThemeLines


class SomeonePage(BasicPage, AsksAgain, LowWindow):
    """One of those marked; ``left`` comes when the person goes back, ``narrowed`` with the nights shown."""

    left = Signal()
    narrowed = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk, self.person_id = desk, ""
        self._errand = Errand(desk.reader)
        self.back = quiet_button("\u2039 all people", self.left.emit, "Back to all people")
        self.heading, self.course = label("", "head"), CourseView(desk.look)
        self.facts, self.change = label("", "quiet"), label("", "quiet")
        self.lines = ThemeLines(desk.look, lambda: None)
        self.lines.setAccessibleName("Lines that name them")
        self._lay_out()
        self.lead_with(self.lines)
        self.lines.activated.connect(lambda index: self._open(index.row()))
        desk.changed.connect(self.refresh)
        desk.dressed.connect(self.dress)

    def _lay_out(self) -> None:
        px = self.desk.look.px
        self.column = QWidget()
        body = QVBoxLayout(self.column)
        body.setSpacing(px(0.25))
        body.addWidget(self.back, 0, Qt.AlignmentFlag.AlignLeft)
        head = row(self.heading, self.course, gap=px(1.5))
        head.setStretch(0, 3)
        head.setStretch(1, 2)
        body.addLayout(head)
        for part in (self.facts, self.change):
            body.addWidget(part)
        body.addWidget(self.lines, 1)
        self.within.setLayout(in_the_middle(self.column))
        self.dress()

    def dress(self) -> None:
        """Take up the palette and sizes in force."""
        px = self.desk.look.px
        self.column.setMaximumWidth(px(56))
        self.column.layout().setContentsMargins(px(1.5), px(1.0), px(1.5), 0)
        self.lines.setMinimumHeight(px(12))
        self.lines.rows.layoutChanged.emit()

    def show_person(self, person_id: str) -> None:
        """Show someone's thread."""
        if person_id != self.person_id:
            self.person_id = person_id
            self.heading.setText("")
            self.lines.rows.show((), "", False)
        self.ask()

    def ask(self) -> None:
        """Ask for the thread and its lines."""
        person_id = self.person_id
        if person_id:
            self._errand.anew(lambda store, task: person_named(store, person_id), self._show, self._gone)

    def _gone(self, error: KeeperError) -> None:
        self.desk.said.emit(str(error))
        self.left.emit()

    def _show(self, found: PersonNamed) -> None:
        thread = found.thread
        self.heading.setText(breakable(thread.name))
        self.course.show_course(thread.course)
        facts = f"{theme_wording.facts(thread, self.desk.tonight())} \u00b7 {theme_wording.share(thread)}"
        self.facts.setText(breakable(facts))
        self.change.setText(theme_wording.changed(thread.change))
        self.change.setVisible(thread.change is not None)
        self.lines.show_lines(found.lines, False, True)
        self.narrowed.emit(frozenset(one.line.night for one in found.lines))

    def _open(self, at: int) -> None:
        self.desk.go("night", self.lines.rows.at(at).line.night)
