"""The night's photos, below its lines: a row of small pictures, and how they come and go."""

from datetime import date
from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QMenu, QVBoxLayout, QWidget

from keeper.actions.photos import kept as photos
from keeper.errors import KeeperError
from keeper.model import Photo
from keeper.window.parts.kept_room import ABOVE, GAP
from keeper.window.parts.small import label, quiet_button, row
from keeper.window.photos.acts import PhotoActs
from keeper.window.photos.coming import Arrivals, Source
from keeper.window.photos.intake import Intake
from keeper.window.photos.offers import PhotoOffers
from keeper.window.photos.row import PhotoRow
from keeper.window.photos.taking import Batch

if TYPE_CHECKING:
    from PySide6.QtCore import SignalInstance
    from PySide6.QtGui import QContextMenuEvent, QKeyEvent
    from PySide6.QtWidgets import QAbstractScrollArea

    from keeper.window.desk.desk import Desk

    class OfANight(QAbstractScrollArea):
        """A page on which photos can hang: its night, the fields for its lines, what captions come after, the buttons from first to last."""

        night: date
        night_changed: SignalInstance
        fields: dict[str, QWidget]
        after_lines: QWidget
        first_button: QWidget
        last_button: QWidget

_SHIFT = Qt.KeyboardModifier.ShiftModifier

SHOWN = 24
"""Small pictures in the row; the others are in the full view."""


class PhotoStrip(QWidget):
    """The photos of the night shown on a page. Without any, one quiet row."""

    def __init__(self, desk: "Desk", page: "OfANight") -> None:
        super().__init__(page)
        self.page = page
        self.desk = desk
        self.photos: tuple[Photo, ...] = ()
        self.view = None
        self._shown: tuple[date | None, tuple[str, ...]] = (None, ())
        self._acts = PhotoActs(self.desk)
        self.intake = Intake(self.desk, self)
        self._build()
        self._listen(page)
        self._dress()

    def _build(self) -> None:
        self.row = PhotoRow(self.desk)
        self.row.opened.connect(self.open)
        self.offers = PhotoOffers(self.desk)
        self.offers.answered.connect(self._on_answered)
        self.more = quiet_button("", lambda: self.open(SHOWN))
        self.add = quiet_button("Add a photo", lambda: self.intake.choose(self.page.night), "Add photos to this night")
        self.many = quiet_button(
            "Bring many photos\u2026", self.intake.bring_many, "Bring many photos, each to its own night"
        )
        self.told = label("", "quiet", wrap=False)
        self._below = row(self.more, self.add, self.many, self.told, None)
        layout = QVBoxLayout(self)
        layout.addWidget(self.row)
        layout.addWidget(self.offers)
        layout.addLayout(self._below)

    def _listen(self, page: "OfANight") -> None:
        self._arrivals = Arrivals(page, [block.field for block in page.kinds.every.values()])
        page.kinds.made.connect(lambda block: self._arrivals.watch(block.field))
        self._arrivals.came.connect(self.take)
        self._arrivals.hovering.connect(
            lambda over: self.told.setText("Drop to add to this night" if over else "")
        )
        self.intake.told.connect(self.told.setText)
        self.intake.step.connect(self.refresh)
        self.intake.done.connect(self._on_taken)
        self.offers.anyway.connect(lambda sources, night: self.intake.take(sources, night, anyway=True))
        page.night_changed.connect(self._on_night)
        page.changed_in_sight.connect(self.refresh)
        self.desk.dressed.connect(self._dress)

    def _dress(self) -> None:
        px = self.desk.look.px
        self.layout().setContentsMargins(0, px(ABOVE), 0, 0)
        self.layout().setSpacing(px(GAP))
        self._below.setSpacing(px(1.2))
        self.row.begin_anew()
        self._shown = (None, ())
        self.refresh()

    # showing

    def refresh(self) -> None:
        """Ask again for the night's photos; what is the same stays as it is."""
        night, store = self.page.night, self.desk.store
        try:
            found, chosen = photos.of_night(store, night), photos.photo_of_night(store, night)
        except KeeperError as error:
            self.desk.said.emit(str(error))
            return
        self.photos = tuple(sorted(found, key=lambda photo: photo != chosen))
        shown = (night, tuple(photo.id for photo in self.photos))
        if shown != self._shown:
            self._shown = shown
            self._lay_out()
        self.row.show_photos(self.photos)

    def _lay_out(self) -> None:
        had = self.row.place_with_keyboard()
        self.row.lay_out(self.photos[:SHOWN], marked=len(self.photos) > 1)
        self.more.setText(f"{len(self.photos) - SHOWN} more")
        self.more.setVisible(len(self.photos) > SHOWN)
        self.set_tab_order()
        if had is not None:
            self._focus(had)

    def set_tab_order(self) -> None:
        """Captions after the lines, photos after their buttons."""
        # Qt puts last what is made last. Captions come after the lines, as words do; a letter acts on a
        # photo, so photos come after the lines' buttons.
        captions = [cell.caption for cell in self.row.cells]
        pictures = [cell.thumbnail for cell in self.row.cells]
        after_lines = [self.page.after_lines, *captions, self.page.first_button]
        after_buttons = [self.page.last_button, *pictures, *self.offers.buttons, self.more, self.add, self.many]
        for one, other in (*pairwise(after_lines), *pairwise(after_buttons)):
            QWidget.setTabOrder(one, other)

    def _on_night(self) -> None:
        self.offers.clear()
        self.refresh()

    def _on_answered(self) -> None:
        # A button that goes must not leave the keyboard to whatever comes next.
        self.offers.buttons[0].setFocus() if self.offers.buttons else self._focus(0)

    def _focus(self, place: int) -> None:
        self.row.focus(place) if self.photos else self.add.setFocus(Qt.FocusReason.TabFocusReason)

    # keys and menu

    def keyPressEvent(self, event: "QKeyEvent") -> None:
        place, key = self.row.place_with_keyboard(), event.key()
        held = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        if place is not None and key == Qt.Key.Key_T and held in (Qt.KeyboardModifier.NoModifier, _SHIFT):
            self.turn(place, -1 if held else 1)
            return
        if place is None or held:
            event.ignore()
            return
        moves = {Qt.Key.Key_Left: place - 1, Qt.Key.Key_Right: place + 1,
                 Qt.Key.Key_Home: 0, Qt.Key.Key_End: len(self.row.cells)}  # fmt: skip
        acts = {Qt.Key.Key_Delete: self.take_out, Qt.Key.Key_Backspace: self.take_out, Qt.Key.Key_P: self.choose,
                Qt.Key.Key_R: self.rest, Qt.Key.Key_F2: self.write_caption}  # fmt: skip
        if key in moves:
            self.row.focus(moves[key])
        elif key in acts:
            acts[key](place)
        else:
            event.ignore()

    def contextMenuEvent(self, event: "QContextMenuEvent") -> None:
        place = self.row.place_pointed_at()
        if place is not None:
            self.menu(place).popup(event.globalPos())

    def menu(self, place: int) -> QMenu:
        """What can be done with a photo; the keys it tells are heard by the row."""
        made = QMenu(self)
        made.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        for text, keys, act in (
            ("Open", "Enter", self.open), ("Choose as the photo of the night", "P", self.choose),
            ("Write a caption", "F2", self.write_caption),
            ("Turn right", "T", lambda place: self.turn(place, 1)),
            ("Turn left", "Shift+T", lambda place: self.turn(place, -1)),
            ("Wake" if self.photos[place].resting else "Let rest", "R", self.rest),
            ("Remove from this night", "Delete", self.take_out),
        ):  # fmt: skip
            made.addAction(f"{text}\t{keys}").triggered.connect(lambda _, act=act: act(place))
        return made

    # doing

    def open(self, place: int) -> None:
        """Open the full view on one of the photos."""
        from keeper.window.photos.full_view import PhotoView

        self.keep()
        self.view = PhotoView(self.desk, self.photos, place, self.page.night, self.window())
        self.view.finished.connect(lambda _, view=self.view: self._focus(view.place))
        self.view.open()

    def choose(self, place: int) -> None:
        """Make one the photo of the night."""

        def then() -> None:
            self._focus(0)
            self.desk.said.emit("It is the photo of the night now.")

        self._acts.choose(self.page.night, self.photos[place], then)

    def turn(self, place: int, quarters: int) -> None:
        """Turn one by quarters to the right; its file stays as it is."""
        self._acts.turn(self.photos[place], quarters)

    def rest(self, place: int) -> None:
        """Let one rest, or wake it."""
        self._acts.rest_or_wake(self.photos[place])

    def take_out(self, place: int) -> None:
        """Take one from the night; a button offers to put it back."""
        night, photo = self.page.night, self.photos[place]
        self.keep()

        def then(act: int | None) -> None:
            if night == self.page.night and act is not None:
                self.offers.after_taking_out(act)
                self.set_tab_order()
            self.desk.said.emit("Removed from this night. The photo stays in the keeper, and can be added again.")

        self._acts.take_out(night, photo, then)

    def write_caption(self, place: int) -> None:
        """Put the keyboard into a caption."""
        self.row.cells[place].caption.setFocus()
        self.row.cells[place].caption.selectAll()

    def keep(self) -> None:
        """Keep the captions as they are written."""
        for cell in self.row.cells:
            cell.caption.commit()

    # coming

    def take(self, sources: list[Source]) -> None:
        """Take in what was dropped or pasted, for the night shown."""
        self.intake.take(sources, self.page.night)

    def _on_taken(self, batch: Batch) -> None:
        if batch.night == self.page.night:
            self.offers.after(batch)
            self.set_tab_order()
