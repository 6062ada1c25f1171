"""The keys that work everywhere, and what opens over the pages when one of them, or the person, asks for it."""

from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtGui import QKeySequence, QShortcut

from keeper.actions import reading
from keeper.model import Line, Photo
from keeper.window.desk.keys import EVERYWHERE
from keeper.window.desk.pages import KEY_OF, NIGHT
from keeper.window.frame.undoing import Undoing

if TYPE_CHECKING:
    from keeper.window.frame.window import Frame


class Ways(QObject):
    """Answers the keys, the ribbon, and what pages want by the desk, over a window."""

    def __init__(self, frame: "Frame") -> None:
        super().__init__(frame)
        self._frame, self._desk = frame, frame.desk
        self.undoing = Undoing(frame)
        self._add_keys()
        if frame.ribbon:
            frame.ribbon.span_picked.connect(self._say_where_between)
        self._desk.photos_wanted.connect(self._show_photos)
        self._desk.later_wanted.connect(self._add_later_word)
        self._desk.change_wanted.connect(self._change_later_word)
        self._desk.sheet_wanted.connect(self._print_month)
        self._desk.book_wanted.connect(self._make_book)
        self._desk.moving_wanted.connect(self._move_keeper)

    def _add_keys(self) -> None:
        frame = self._frame
        acts: dict[str, Callable[[], object]] = {f"page:{page}": lambda page=page: frame.go(page) for page in KEY_OF} | {
            "keys": self._show_keys,
            "tonight": lambda: frame.go(NIGHT, self._desk.tonight()),
            "night before": lambda: self._step(-1),
            "night after": lambda: self._step(1),
            "date": self._ask_date,
            "place": self._say_where,
            "undo": lambda: self.undoing.step(-1),
            "redo": lambda: self.undoing.step(1),
            "readings": self._note,
            "in-tray": self._take_in,
            "close": frame.close,
        }
        for pressed, act in (shortcut for key in EVERYWHERE for shortcut in key.shortcuts):
            QShortcut(QKeySequence(pressed), frame).activated.connect(acts[act])

    # going about

    def _step(self, days: int) -> None:
        self._frame.go(self._frame.page_of_nights(), self._desk.shifted(self._frame.night, days))

    def _ask_date(self) -> None:
        from keeper.window.frame.go_to import GoToDialog

        dialog = GoToDialog(self._desk, self._frame.night, self._frame)
        if dialog.exec():
            self._frame.go(self._frame.page_of_nights(), dialog.night)

    def _show_keys(self) -> None:
        from keeper.window.frame.keys_sheet import KeysSheet

        KeysSheet(self._desk, self._frame).exec()

    def _note(self) -> None:
        if self._frame.page_shown() != NIGHT:
            self._frame.go(NIGHT, self._frame.night)
        if readings := self._frame.night_page.readings:
            readings.enter()

    def _take_in(self) -> None:
        if offer := self._frame.rest.tray_offer:
            offer.take()

    # saying where

    def _say_where(self) -> None:
        if self._frame.page_shown() != NIGHT:
            self._frame.go(NIGHT, self._frame.night)
        place = self._frame.night_page.place
        place.setFocus()
        place.selectAll()

    def _say_where_between(self, first: date, last: date) -> None:
        from keeper.window.parts.places.span_dialog import SpanDialog

        ribbon = self._frame.ribbon
        place_id = ribbon.place_of(first) or ribbon.place_of(last)
        known = (place for place in reading.known_places(self._desk.store) if place.id == place_id)
        SpanDialog(self._desk, self._frame, next(known, None), first, last).exec()
        ribbon.let_span_go()

    # what pages want

    def _show_photos(self, photos: Sequence[Photo], place: int, night: date) -> None:
        from keeper.window.photos.full_view import PhotoView

        PhotoView(self._desk, photos, place, night, self._frame).open()

    def _add_later_word(self, lines: Sequence[Line]) -> None:
        from keeper.window.parts.later.dialog import LaterDialog

        if lines and lines[0].night >= self._desk.tonight():
            self._desk.said.emit("A later word goes under a line of an earlier night.")
        elif lines:
            LaterDialog(self._desk, lines, self._frame).exec()

    def _change_later_word(self, line: Line, said_on: date) -> None:
        from keeper.window.parts.later.dialog import LaterDialog

        LaterDialog(self._desk, [line], self._frame, said_on).exec()

    def _print_month(self, month: date) -> None:
        from keeper.window.paper.month_sheet import MonthPrintDialog

        MonthPrintDialog(self._desk, month, self._frame).exec()

    def _make_book(self, year: int) -> None:
        from keeper.window.paper.book import BookDialog

        BookDialog(self._desk, year, self._frame).exec()

    def _move_keeper(self, target: Path) -> None:
        from keeper.window.frame.held.moving import KeeperMoving

        KeeperMoving(self._frame, target).exec()
