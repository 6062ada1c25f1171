"""What opens over the pages when one of them asks for it."""

from collections.abc import Sequence
from datetime import date

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from keeper.model import Photo
from keeper.window.desk.desk import Desk


class Ways(QObject):
    """Answers the desk's ``photos_wanted``, ``sheet_wanted`` and ``book_wanted`` over a window."""

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(window)
        self._desk, self._window = desk, window
        desk.photos_wanted.connect(self._show_photos)
        desk.sheet_wanted.connect(self._print_month)
        desk.book_wanted.connect(self._make_book)

    def _show_photos(self, photos: Sequence[Photo], place: int, night: date) -> None:
        from keeper.window.photos.full_view import PhotoView

        PhotoView(self._desk, photos, place, night, self._window).open()

    def _print_month(self, month: date) -> None:
        from keeper.window.paper.month_sheet import MonthPrintDialog

        MonthPrintDialog(self._desk, month, self._window).exec()

    def _make_book(self, year: int) -> None:
        from keeper.window.paper.book import BookDialog

        BookDialog(self._desk, year, self._window).exec()
