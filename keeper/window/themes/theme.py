"""A theme's own page: how it went, and all its lines."""

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from keeper.actions.themes import asking as themes
from keeper.errors import KeeperError
from keeper.model import Found, Photo
from keeper.review.themes import ThemeView
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.errand import Errand
from keeper.window.parts.flow import Flow
from keeper.window.parts.low_window import LowWindow
from keeper.window.parts.page import BasicPage
from keeper.window.parts.people.named import PeopleNamed
from keeper.window.parts.photos.links import PhotoLinks
from keeper.window.parts.small import breakable, emptied, in_the_middle, label, plainly, quiet_button, row
from keeper.window.themes import wording as theme_wording
from keeper.window.themes.acts import ThemeActs
from keeper.window.themes.course import CourseView
from keeper.window.themes.lines import ThemeLines
from keeper.window.themes.work import ThemeWork

AT_ONCE = 50

_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignAbsolute | Qt.AlignmentFlag.AlignVCenter

LOOSE = (
    "Lines that fit nowhere stay loose. Beside each stands the theme that comes nearest: P puts it in there. "
    "A theme can be started from some of them, too."
)
NONE_LOOSE = "Every line is in a theme."


class ThemePage(BasicPage, AsksAgain, LowWindow):
    """One theme, or the loose lines.

    ``left`` comes when the person goes back to all themes, ``words_wanted``
    when they ask for the picture of its words; ``narrowed`` with the nights of
    the theme shown.
    """

    left = Signal()
    words_wanted = Signal()
    asking_wanted = Signal(int)
    narrowed = Signal(object)

    def __init__(self, desk: Desk, work: ThemeWork) -> None:
        super().__init__()
        self.desk, self.work = desk, work
        self.number: int | None = None
        self.view: ThemeView | None = None
        self._errand = Errand(desk.reader)
        self.back = quiet_button("\u2039 all themes", self.left.emit, "Back to all themes")
        self.doing = label("", "quiet", wrap=False)
        self.heading, self.course = label("", "head"), CourseView(desk.look)
        # A name that runs from the right stands where the page begins, as in the list of threads.
        self.heading.setAlignment(_LEFT)
        self.facts, self.change, self.more, self.words = (label("", "quiet") for _ in range(4))
        self.photos = PhotoLinks(desk, 4.4)
        self.lines = ThemeLines(desk.look, self._more)
        self.lines.later_wanted.connect(desk.later_wanted)
        self.order = quiet_button("Newest first", self._turn, "Newest first; press for the most central first")
        self.central_first = False
        self.acts = ThemeActs(desk, work, self.lines, self)
        self.picture = quiet_button("Picture of words", self.words_wanted.emit, "Picture of this theme\u2019s words")
        self.send = quiet_button("Send\u2026", self._send, "Make this theme into a page to send")
        self.asked = quiet_button("Ask me", self._ask_me, "Be asked about lines that this theme is unsure of")
        self.asked.hide()
        self.part: int | None = None
        self.parts, self.parts_told = QVBoxLayout(), ()
        self.own = quiet_button("Make it a theme", self._make_theme, "Make the part shown a theme of its own")
        self.own.hide()
        self._lay_out()
        self.lead_with(self.lines)
        self.lines.activated.connect(lambda index: self.acts.open_night(index.row()))
        work.moved.connect(self._show_work)
        self._show_work(*work.at)
        desk.changed.connect(self.refresh)
        desk.dressed.connect(self.dress)

    def _lay_out(self) -> None:
        px = self.desk.look.px
        self.column = QWidget()
        self.column.setMaximumWidth(px(56))
        body = QVBoxLayout(self.column)
        body.setContentsMargins(px(1.5), px(1.0), px(1.5), 0)
        body.setSpacing(px(0.25))
        body.addLayout(row(self.back, None, self.doing))
        head = row(self.heading, self.course, gap=px(1.5))
        head.setStretch(0, 3)
        head.setStretch(1, 2)
        body.addLayout(head)
        for part in (self.facts, self.change, self.more, self.words):
            body.addWidget(part)
        body.addLayout(self.parts)
        self.named = PeopleNamed(self.desk)
        body.addWidget(self.named)
        body.addLayout(self.photos)
        body.addWidget(self.acts.of_theme(self.asked, self.picture, self.send, self.order))
        body.addWidget(self.lines, 1)
        body.addLayout(self.acts.of_lines())
        self.within.setLayout(in_the_middle(self.column))
        self.lines.setMinimumHeight(px(12))

    def dress(self) -> None:
        """Take up the palette and sizes in force."""
        self.column.setMaximumWidth(self.desk.look.px(56))
        self.lines.rows.layoutChanged.emit()
        self.course.updateGeometry()
        self.lines.setMinimumHeight(self.desk.look.px(12))

    # asking

    def show_theme(self, number: int | None) -> None:
        """Show a theme, or the loose lines (None)."""
        if number != self.number or self.view is None:
            self.number, self.view, self.part = number, None, None
            self.lines.rows.show((), "", False)
            self.photos.stop()
            emptied(self.photos)
        self.ask()

    def _send(self) -> None:
        if self.view:
            self.desk.go("printing", None, ("theme", self.view.thread.name))

    def _ask_me(self) -> None:
        self.asking_wanted.emit(self.number)

    def ask(self) -> None:
        """Ask for what is known of the theme, and its lines."""
        number, asked = self.number, max(AT_ONCE, self.lines.rows.rowCount())
        lines, central = self._lines_asked(), self._central
        if number:
            self._errand.anew(lambda store, task: themes.theme_view(store, number), self._show, self._gone)
        else:
            self._errand.anew(lambda store, task: (themes.nights_of(store, None), themes.last_decision(store)), lambda answer: self._show_loose(*answer))
        self._errand.also(
            lambda store, task: lines(store, asked, 0),
            lambda answer: self._show_lines(*answer, asked, central),
        )

    def _more(self) -> None:
        lines, shown = self._lines_asked(), self.lines.rows.rowCount()
        self._errand.also(
            lambda store, task: lines(store, AT_ONCE, shown),
            lambda answer: self._add_lines(*answer),
        )

    @property
    def _central(self) -> bool:
        # The loose have no middle to be near to.
        return self.central_first and self.number is not None

    def _lines_asked(self) -> Callable:
        """Asks for the lines of the theme with what else they stand in, or for those of the part of it that is shown."""
        number, part, central = self.number, self.part, self._central
        if part is not None:
            return lambda store, limit, skip: (themes.lines_within(store, part, limit, skip, central), {})
        return lambda store, limit, skip: themes.lines_beside(store, number, limit, skip, central)

    def _show_lines(self, found: tuple[Found, ...], beside: dict[str, tuple[int, str]], asked: int, central: bool) -> None:
        self.lines.rows.beside, self.lines.rows.loose = beside, self.number is None
        self.lines.show_lines(found, len(found) == asked, not central)
        self.named.ask([one.line.text for one in found])
        self.acts.tell_chosen()

    def _add_lines(self, found: tuple[Found, ...], beside: dict[str, tuple[int, str]]) -> None:
        self.lines.rows.beside |= beside
        self.lines.rows.append(found, len(found) == AT_ONCE)

    def _gone(self, error: KeeperError) -> None:
        self.desk.said.emit(str(error))
        self.left.emit()

    # telling

    def _show(self, view: ThemeView) -> None:
        if self.view is None or view.photos != self.view.photos:
            self._show_photos(view.photos)
        self.view, thread = view, view.thread
        self.heading.setText(breakable(thread.name))
        self.course.show_course(thread.course)
        self.course.show()
        self._say(
            self.facts, f"{theme_wording.facts(thread, self.desk.tonight())} \u00b7 {theme_wording.share(thread)}"
        )
        self._say(self.change, theme_wording.changed(thread.change))
        self._say(self.more, " ".join(filter(None, (theme_wording.strongest(view), theme_wording.places(view)))))
        self._say(self.words, f"Words: {', '.join(thread.words)}." if thread.words else "")
        self._show_parts(view.parts)
        self.acts.show_view(thread.number, view, view.undo)
        self.asked.setVisible(thread.begun)
        for part in (self.picture, self.send, self.order):
            part.show()
        self.narrowed.emit(view.nights)

    def _show_loose(self, nights: frozenset[date], undo: str) -> None:
        self.heading.setText("Loose lines")
        self._say(self.facts, LOOSE if nights else NONE_LOOSE)
        for part in (self.change, self.more, self.words):
            self._say(part, "")
        self.course.hide()
        self._show_parts(())
        self.acts.show_view(None, None, undo)
        for part in (self.asked, self.picture, self.send, self.order):
            part.hide()
        self.narrowed.emit(nights)

    def _show_work(self, what: str, share: float) -> None:
        self.doing.setText("Looking\u2026" if what else "")

    def _say(self, part, words: str) -> None:
        part.setText(breakable(words))
        part.setVisible(bool(words))

    # what lies within it

    def _show_parts(self, parts: tuple[tuple[int, str, int], ...]) -> None:
        if self.part is not None and self.part not in {number for number, _, _ in parts}:
            self.part = None
            self.ask()
        if parts != self.parts_told:
            self.parts_told = parts
            self.own.setParent(self)
            emptied(self.parts)
            if parts:
                buttons = [self._part_button(*one) for one in parts]
                self.parts.addWidget(Flow(self.desk.look, label("Within it:", "quiet", wrap=False), *buttons, self.own, gap=1.1))
        self.own.setVisible(self.part is not None)

    def _part_button(self, number: int, name: str, lines: int) -> QPushButton:
        made = quiet_button(f"{plainly(name)} ({wording.number(lines)})", lambda: self._open_part(number, made))
        made.setProperty("quiet", False)
        made.setProperty("turn", True)
        made.setCheckable(True)
        made.setChecked(number == self.part)
        made.setAccessibleName(f"Within it: {name}, {wording.counted(lines, 'line')}; shows only these, and all again")
        return made

    def _open_part(self, number: int, pressed: QPushButton) -> None:
        self.part = None if self.part == number else number
        for button in self.findChildren(QPushButton):
            if button.isCheckable() and button is not pressed:
                button.setChecked(False)
        pressed.setChecked(self.part == number)
        self.own.setVisible(self.part is not None)
        self.lines.rows.show((), "", False)
        self.ask()

    def _make_theme(self) -> None:
        part, clock = self.part, self.desk.clock
        self.work.decide(lambda store: themes.make_theme(store, part, clock), lambda _: self.desk.said.emit("A theme of its own is made of it; Undo takes it back."))

    # photos

    def _show_photos(self, found: tuple[tuple[Photo, date], ...]) -> None:
        self.photos.show_photos(found)
        self._make_room()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._make_room()

    def _make_room(self) -> None:
        # On a low window the words come first.
        self.photos.show_all(self.height() >= self.desk.look.px(46))

    # doing

    def _turn(self) -> None:
        self.central_first = not self.central_first
        self.order.setText("Most central first" if self.central_first else "Newest first")
        other = "the newest" if self.central_first else "the most central"
        self.order.setAccessibleName(f"{self.order.text()}; press for {other} first")
        self.lines.rows.show((), "", False)
        self.ask()
