"""A theme's own page: how it went, and all its lines."""

from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.actions.themes import asking as themes
from keeper.errors import KeeperError
from keeper.model import Found, Photo
from keeper.review.themes import ThemeView
from keeper.window.desk.desk import Desk
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.errand import Errand
from keeper.window.parts.low_window import LowWindow
from keeper.window.parts.page import BasicPage
from keeper.window.parts.people.named import PeopleNamed
from keeper.window.parts.photos.links import PhotoLinks
from keeper.window.parts.small import breakable, emptied, in_the_middle, label, quiet_button, row
from keeper.window.themes import wording as theme_wording
from keeper.window.themes.acts import ThemeActs
from keeper.window.themes.course import CourseView
from keeper.window.themes.lines import ThemeLines
from keeper.window.themes.work import ThemeWork

AT_ONCE = 50

_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignAbsolute | Qt.AlignmentFlag.AlignVCenter

LOOSE = "Lines that fit nowhere stay loose. A theme can be started from some of them, or one moved to a theme."


class ThemePage(BasicPage, AsksAgain, LowWindow):
    """One theme, or the loose lines.

    ``left`` comes when the person goes back to all themes, ``words_wanted``
    when they ask for the picture of its words; ``narrowed`` with the nights of
    the theme shown.
    """

    left = Signal()
    words_wanted = Signal()
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
        self.order = quiet_button("Newest first", self._turn, "Newest first; press for the most central first")
        self.central_first = False
        self.acts = ThemeActs(desk, work, self.lines, self)
        self.picture = quiet_button("Picture of words", self.words_wanted.emit, "Picture of this theme\u2019s words")
        self.send = quiet_button("Send\u2026", self._send, "Make this theme into a page to send")
        self._lay_out()
        self.lead_with(self.lines)
        self.lines.activated.connect(lambda index: self.acts.open_night(index.row()))
        work.moved.connect(lambda what, _: self.doing.setText("Looking\u2026" if what else ""))
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
        self.named = PeopleNamed(self.desk)
        body.addWidget(self.named)
        body.addLayout(self.photos)
        body.addWidget(self.acts.of_theme(self.picture, self.send, self.order))
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
            self.number, self.view = number, None
            self.lines.rows.show((), "", False)
            self.photos.stop()
            emptied(self.photos)
        self.ask()

    def _send(self) -> None:
        if self.view:
            self.desk.go("printing", None, ("theme", self.view.thread.name))

    def ask(self) -> None:
        """Ask for what is known of the theme, and its lines."""
        number, asked, central = self.number, max(AT_ONCE, self.lines.rows.rowCount()), self.central_first
        if number:
            self._errand.anew(lambda store, task: themes.theme_view(store, number), self._show, self._gone)
        else:
            self._errand.anew(lambda store, task: themes.nights_of(store, None), self._show_loose)
        self._errand.also(
            lambda store, task: themes.lines_of(store, number, asked, 0, central),
            lambda found: self._show_lines(found, len(found) == asked, not central),
        )

    def _show_lines(self, found: tuple[Found, ...], unfinished: bool, by_year: bool) -> None:
        self.lines.show_lines(found, unfinished, by_year)
        self.named.ask([one.line.text for one in found])

    def _more(self) -> None:
        number, shown, central = self.number, self.lines.rows.rowCount(), self.central_first
        self._errand.also(
            lambda store, task: themes.lines_of(store, number, AT_ONCE, shown, central),
            lambda found: self.lines.rows.append(found, len(found) == AT_ONCE),
        )

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
        self.acts.show_view(thread.number, view)
        self.picture.show()
        self.send.show()
        self.narrowed.emit(view.nights)

    def _show_loose(self, nights: frozenset[date]) -> None:
        self.heading.setText("Loose lines")
        self._say(self.facts, LOOSE)
        for part in (self.change, self.more, self.words):
            self._say(part, "")
        self.course.hide()
        self.acts.show_view(None, None)
        self.picture.hide()
        self.send.hide()
        self.narrowed.emit(nights)

    def _say(self, part, words: str) -> None:
        part.setText(breakable(words))
        part.setVisible(bool(words))

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
