"""A place's own page: where it is, when one was there, what was written there."""


from PySide6.QtCore import QPointF, QSize, Signal
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QListView, QPushButton, QVBoxLayout, QWidget

from keeper.actions.places import here
from keeper.actions.places import known as places
from keeper.actions.places import merging as place_merging
from keeper.errors import KeeperError
from keeper.model import Found, Place
from keeper.review.places import PlaceView
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.look import Look
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.errand import Errand
from keeper.window.parts.flow import Flow
from keeper.window.parts.found_list import FoundList, FoundModel
from keeper.window.parts.page import BasicPage
from keeper.window.parts.photos.links import PhotoLinks
from keeper.window.parts.photos.where_room import PhotosWhereRoom
from keeper.window.parts.places import wording as place_wording
from keeper.window.parts.places.mark import paint_mark
from keeper.window.parts.small import emptied, headed, in_the_middle, label, quiet_button, row
from keeper.window.places.merges import PlaceMerges
from keeper.window.places.said import PlaceSaid
from keeper.window.places.themes import PlaceThemes

AT_ONCE = 50
PHOTOS = 6


class Mark(QWidget):
    """A place's mark, as on the map."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._mark: int | None = None

    def show_mark(self, mark: int | None) -> None:
        """Show a place's mark; none for None."""
        self._mark = mark
        self.setVisible(mark is not None)
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(1.4), self._look.px(1.4))

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        middle = QPointF(self.width() / 2, self.height() / 2)
        paint_mark(painter, self._look, middle, self._look.px(0.45), self._mark or 0)
        painter.end()


class PlacePage(BasicPage, AsksAgain, PhotosWhereRoom):
    """One place.

    ``left`` comes when the person goes back to all places, ``words_wanted``
    when they ask for the picture of its words, ``theme_wanted`` when they open
    a theme of it.
    """

    left = Signal()
    words_wanted = Signal()
    theme_wanted = Signal(int)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self.place_id = ""
        self.view: PlaceView | None = None
        self._errand = Errand(desk.reader)
        self.back = quiet_button("\u2039 all places", self.left.emit, "Back to all places")
        self.mark = Mark(desk.look)
        self.heading = label("", "head")
        self.where, self.position = label("", "quiet"), label("", "quiet")
        self.nights, self.visits, self.told = label(""), label("", "quiet"), label("", "quiet")
        self.merges = PlaceMerges(self._take_apart, self._order_tabs)
        self.rename = quiet_button("Rename", self._rename, "Rename this place")
        self.move = quiet_button("Position", self._move, "Say where this place lies")
        self.moves = quiet_button("On the way", self._move_or_stay)
        self.span = quiet_button("Nights here", self._say_nights, "Say for which nights you were here")
        self.merge = quiet_button("Merge", self._merge, "Merge this place with another that is the same")
        self.rest = quiet_button("Let rest", self._rest_or_wake, "Let this place rest")
        self.picture = quiet_button("Picture of words", self.words_wanted.emit, "Picture of the words written here")
        self.send = quiet_button("Send\u2026", self._send, "Make this place into a page to send")
        self.said = PlaceSaid(desk)
        self.order = QPushButton("Latest first")
        self.order.setCheckable(True)
        self.order.setProperty("quiet", True)
        self.order.toggled.connect(self._on_order)
        self.themes = PlaceThemes(desk.look, self.theme_wanted.emit)
        self.photos = PhotoLinks(desk, 5)
        self.lines = self._list()
        self._lay_out()
        self.lead_with(self.lines)
        desk.changed.connect(self.refresh)
        desk.dressed.connect(self.dress)

    def _list(self) -> QListView:
        self.model = FoundModel(self._more)
        made = FoundList(self.desk.look, self.model, "The nights here")
        made.setMinimumHeight(self.desk.look.px(12))
        made.clicked.connect(self._open)
        made.activated.connect(self._open)
        made.later_wanted.connect(self.desk.later_wanted)
        return made

    def _lay_out(self) -> None:
        px = self.desk.look.px
        self.column = QWidget()
        self.column.setMaximumWidth(px(52))
        body = QVBoxLayout(self.column)
        body.setContentsMargins(px(1.5), px(1.0), px(1.5), 0)
        body.setSpacing(px(0.3))
        body.addLayout(row(self.back, None))
        heading = row(self.mark, self.heading, gap=px(0.5))
        heading.setStretch(1, 1)
        body.addLayout(heading)
        for part in (self.where, self.position, self.nights, self.visits):
            body.addWidget(part)
        body.addWidget(self.merges)
        body.addWidget(self.said)
        body.addWidget(Flow(self.desk.look, self.rename, self.move, self.moves, self.span, self.merge, self.rest, self.picture, self.send, gap=1.2))
        body.addLayout(self.photos)
        body.addWidget(self.themes)
        body.addLayout(headed(self.told, self.order))
        body.addWidget(self.lines, 1)
        self.within.setLayout(in_the_middle(self.column))

    def dress(self) -> None:
        """Take up the palette and sizes in force."""
        self.column.setMaximumWidth(self.desk.look.px(52))
        self.lines.setMinimumHeight(self.desk.look.px(12))
        self.said.dress()
        self.model.layoutChanged.emit()
        self.mark.update()

    # asking

    def show_place(self, place_id: str) -> None:
        """Show a place."""
        if place_id != self.place_id:
            self.said.keep()
            self.place_id, self.view = place_id, None
            self.model.show((), "", False)
            emptied(self.photos)
            self.themes.show_themes(())
            self.merges.show_merges(())
        self.ask()

    def ask(self) -> None:
        """Ask for what is known of the place, its lines and its photos."""
        self.photos.stop()
        place_id, shown, ask = self.place_id, max(AT_ONCE, self.model.rowCount()), self._errand
        ask.anew(lambda store, task: places.place_view(store, place_id), self._show, self._gone)
        latest = not self.order.isChecked()
        ask.also(lambda store, task: here.nights_at(store, place_id, latest, shown), lambda found: self._show_lines(found, shown))
        ask.also(lambda store, task: here.photos_here(store, place_id, PHOTOS), self._show_photos)
        ask.also(lambda store, task: places.themes_at(store, place_id), self._show_themes)
        ask.also(lambda store, task: place_merging.merged_into(store, place_id), self.merges.show_merges)

    def _gone(self, error: KeeperError) -> None:
        self.desk.said.emit(str(error))
        self.left.emit()

    def _show(self, view: PlaceView) -> None:
        self.view, place = view, view.kept.place
        self.mark.show_mark(place.mark)
        self.heading.setText(place.name)
        self._say(self.where, place_wording.lies_in(place))
        self._say(self.position, place_wording.position(place))
        self._say(self.nights, place_wording.kept(view.kept))
        self._say(self.visits, place_wording.visits(view.stays))
        self.said.show_said(place.id, view.said, view.photo)
        self._say(self.told, self._counted(view))
        for way in (self.picture, self.send):
            way.setVisible(view.lines > 0)
        self.moves.setText("Not on the way" if place.on_the_way else "On the way")
        self.moves.setAccessibleName(
            "This place stays where it is" if place.on_the_way else "This place is on the way: a ferry, a night train"
        )
        self.moves.setToolTip(self.moves.accessibleName())
        self.rest.setText("Wake" if place.resting else "Let rest")
        self.rest.setAccessibleName("Let this place be brought up again" if place.resting else "Let this place rest")

    def _say(self, part, words: str) -> None:
        part.setText(words)
        part.setVisible(bool(words))

    def _counted(self, view: PlaceView) -> str:
        parts = [wording.counted(view.lines, "line") if view.lines else "No line was written here yet."]
        parts += [wording.counted(view.photos, "photo")] if view.photos else []
        parts += ["resting"] if view.kept.place.resting else []
        return " \u00b7 ".join(parts)

    def _show_themes(self, found: tuple) -> None:
        self.themes.show_themes(found)
        self._order_tabs()

    def _order_tabs(self) -> None:
        # Made later than the lines, what comes above them would be reached after them.
        self._after(self.back, [*self.merges.buttons, *self.said.parts(), self.rename])
        self._after(self.send, [*self.photos.shown(), *self.themes.buttons])

    def _after(self, before: QWidget, parts: list) -> None:
        for part in parts:
            self.setTabOrder(before, part)
            before = part

    # lines

    def _show_lines(self, found: tuple[Found, ...], asked: int) -> None:
        at = self.lines.currentIndex().row()
        self.model.show(found, "", len(found) == asked)
        if 0 <= at < self.model.rowCount():
            self.lines.setCurrentIndex(self.model.index(at, 0))

    def _more(self) -> None:
        place_id, shown, latest = self.place_id, self.model.rowCount(), not self.order.isChecked()
        self._errand.also(
            lambda store, task: here.nights_at(store, place_id, latest, AT_ONCE, shown),
            lambda found: self.model.append(found, len(found) == AT_ONCE),
        )

    def _on_order(self, earliest: bool) -> None:
        self.order.setText("Earliest first" if earliest else "Latest first")
        self.model.show((), "", False)
        self.ask()

    def _open(self, index) -> None:
        self.desk.go("night", self.model.at(index.row()).line.night)

    # mending

    def _send(self) -> None:
        if self.view:
            self.desk.go("printing", None, ("place", self.view.kept.place.name))

    def _rename(self) -> None:
        from keeper.window.places.mending import RenameDialog

        if self.view:
            RenameDialog(self.desk, self.view.kept.place, self).exec()

    def _move(self) -> None:
        from keeper.window.places.mending import PositionDialog

        if self.view:
            PositionDialog(self.desk, self.view.kept.place, self).exec()

    def _say_nights(self) -> None:
        from keeper.window.parts.places.span_dialog import SpanDialog

        if self.view:
            SpanDialog(self.desk, self, self.view.kept.place).exec()

    def _merge(self) -> None:
        from keeper.window.places.mending import MergeDialog

        if self.view:
            MergeDialog(self.desk, self.view.kept, self.show_place, self).exec()

    def _take_apart(self, merge_id: str) -> None:
        # Not twice; and what had the focus goes.
        self.merges.setEnabled(False)
        self.setFocus()
        self.desk.write(lambda store: place_merging.take_apart(store, merge_id), self._on_apart, self._on_not_apart)

    def _on_apart(self, done: tuple[Place, str]) -> None:
        self.desk.said.emit(done[1])
        self.desk.changed.emit()

    def _on_not_apart(self, error: KeeperError) -> None:
        self.desk.said.emit(str(error))
        self.ask()

    def _move_or_stay(self) -> None:
        if self.view:
            place = self.view.kept.place
            self.desk.write(
                lambda store: places.set_on_the_way(store, place.id, not place.on_the_way),
                lambda _: self.desk.changed.emit(),
            )

    def _rest_or_wake(self) -> None:
        if self.view is None:
            return
        place: Place = self.view.kept.place
        act = places.wake_place if place.resting else places.rest_place
        self.desk.write(lambda store: act(store, place.id), lambda _: self.desk.changed.emit())
