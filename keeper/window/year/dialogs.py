"""Choosing another line, or another photo, to stand for a month."""

from collections.abc import Collection, Mapping, Sequence
from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QGridLayout, QScrollArea, QVBoxLayout, QWidget

from keeper.actions.years import shown as years
from keeper.model import Found, Line, Photo
from keeper.window.desk.desk import Desk
from keeper.window.parts.choice import Choice
from keeper.window.parts.found_list import FoundList, FoundModel
from keeper.window.parts.photos.thumbnail import Thumbnail
from keeper.window.parts.small import label, plain_button, row
from keeper.window.year import wording as year_wording

PHOTOS_SHOWN = 120
"""Photos of a month that can be chosen from, oldest first."""


class _Choosing(QDialog):
    """A dialog of one question, with a way to leave it as it is."""

    def __init__(self, desk: Desk, title: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk = desk
        self.setWindowTitle(title)
        self.resize(desk.look.px(46), desk.look.px(34))
        self.body = QVBoxLayout(self)
        self.body.setContentsMargins(*[desk.look.px(1.2)] * 4)
        self.body.setSpacing(desk.look.px(0.5))


class LineDialog(_Choosing):
    """The lines awake of a month; ``chosen`` is the one taken.

    With ``months`` to choose from, lines of the whole year can be taken.
    """

    def __init__(self, desk: Desk, year: int, month: int, months: Sequence[int], shown: Collection[str],
                 place_names: Mapping[date, str], parent: QWidget) -> None:  # fmt: skip
        super().__init__(desk, "Another line", parent)
        self.chosen: Line | None = None
        self._year, self._shown, self._place_names = year, shown, place_names
        self.months = Choice(desk.look, "Month")
        for number in months:
            self.months.addItem(year_wording.MONTHS[number - 1], number)
        self.months.setCurrentIndex(max(0, self.months.findData(month)))
        self.model = FoundModel(lambda: None)
        self.list = FoundList(desk.look, self.model, "Lines to choose from")
        self.list.activated.connect(lambda _: self._take())
        self.take = plain_button("Take this one", self._take, by_enter=True)
        self.take.setEnabled(False)
        self.body.addLayout(row(self.months, None))
        self.months.setVisible(len(months) > 1)
        self.body.addWidget(self.list, 1)
        self.body.addLayout(row(None, plain_button("Cancel", self.reject, by_enter=True), self.take))
        self.months.currentIndexChanged.connect(lambda _: self._ask())
        self.list.setFocus()
        self._ask()

    def _ask(self) -> None:
        year, month = self._year, self.months.currentData()
        self.desk.reader.run(lambda store, task: years.lines_to_choose(store, year, month), self._show)

    def _show(self, lines: tuple[Line, ...]) -> None:
        others = [line for line in lines if line.id not in self._shown]
        found = tuple(Found(line, self._place_names.get(line.night, "")) for line in others)
        self.model.show(found, "", False)
        self.take.setEnabled(bool(found))
        if found:
            self.list.setCurrentIndex(self.model.index(0, 0))

    def _take(self) -> None:
        index = self.list.currentIndex()
        if index.isValid():
            self.chosen = self.model.at(index.row()).line
            self.accept()


class PhotoDialog(_Choosing):
    """The photos awake of a month; ``chosen`` is the one taken."""

    def __init__(self, desk: Desk, photos: Sequence[Photo], parent: QWidget) -> None:
        super().__init__(desk, "Another photo", parent)
        self.chosen: Photo | None = None
        within = QWidget()
        self.grid = QGridLayout(within)
        self.grid.setSpacing(desk.look.px(0.5))
        for place, photo in enumerate(photos[:PHOTOS_SHOWN]):
            self.grid.addWidget(self._made(photo), place // 4, place % 4, Qt.AlignmentFlag.AlignBottom)
        self.grid.setRowStretch(self.grid.rowCount(), 1)
        area = QScrollArea()
        area.setWidgetResizable(True)
        area.setWidget(within)
        self.body.addWidget(area, 1)
        if len(photos) > PHOTOS_SHOWN:
            self.body.addWidget(label(f"The first {PHOTOS_SHOWN} of {len(photos)}.", "quiet"))
        self.body.addLayout(row(None, plain_button("Cancel", self.reject, by_enter=True)))

    def _made(self, photo: Photo) -> Thumbnail:
        made = Thumbnail(self.desk, photo, 6.0)
        made.clicked.connect(lambda: self._take(photo))
        return made

    def _take(self, photo: Photo) -> None:
        self.chosen = photo
        self.accept()
