"""The photos of a year: twelve small ones on its page, one large in the sitting."""

from collections.abc import Sequence

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QGridLayout, QSizePolicy, QVBoxLayout, QWidget

from keeper.actions.photos import kept as photos
from keeper.errors import KeeperError
from keeper.model import Photo
from keeper.review.year import YearMonth
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand
from keeper.window.parts.photos.thumbnail import Thumbnail
from keeper.window.parts.small import emptied, label, quiet_button
from keeper.window.year import wording as year_wording

_SMALL, _COLUMN, _MOST_COLUMNS = 7.8, 11.2, 4
"""Height of a small photo and width of a column, in times the text's height."""

_LARGE_PIXELS = 960
_LARGE_HIGH = 15.0


class MonthPhotos(QWidget):
    """The months from the first to the last kept, each with its photo."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self._cells: list[QWidget] = []
        self._columns = 0
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setVerticalSpacing(desk.look.px(0.6))

    def show_months(self, months: Sequence[YearMonth]) -> None:
        """Show these months, the earliest first."""
        emptied(self._grid)
        self._cells = [self._cell(one) for one in months]
        self._columns = 0
        self._arrange()

    def _cell(self, one: YearMonth) -> QWidget:
        cell = QWidget()
        layout = QVBoxLayout(cell)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addStretch(1)
        layout.addWidget(self._photo(one.photo, one) if one.photo else self._gap())
        month = one.month
        name = quiet_button(
            year_wording.MONTHS[month.month - 1], lambda: self.desk.go("month", month),
            f"Open {wording.month_and_year(month)}, {wording.counted(one.nights, 'night')} kept",
        )  # fmt: skip
        layout.addWidget(name)
        return cell

    def _photo(self, photo: Photo, one: YearMonth) -> QWidget:
        made = Thumbnail(self.desk, photo, _SMALL)
        made.clicked.connect(lambda: self.desk.go("month", one.month))
        return made

    def _gap(self) -> QWidget:
        made = label("no photo", "quiet")
        made.setFixedHeight(self.desk.look.px(_SMALL))
        made.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom)
        return made

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def _arrange(self) -> None:
        columns = min(max(self.width() // self.desk.look.px(_COLUMN), 1), _MOST_COLUMNS)
        if columns == self._columns:
            return
        self._columns = columns
        for cell in self._cells:
            self._grid.removeWidget(cell)
        for column in range(_MOST_COLUMNS):
            self._grid.setColumnStretch(column, int(column < columns))
        for place, cell in enumerate(self._cells):
            self._grid.addWidget(cell, place // columns, place % columns)


class LargePhoto(QWidget):
    """One photo, as large as the sheet has room for; it comes in the background."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self.photo: Photo | None = None
        self.problem = ""
        self._image: QImage | None = None
        self._errand = Errand(desk.darkroom)
        self.setSizePolicy(QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed))
        self.hide()

    def show_photo(self, photo: Photo | None) -> None:
        """Show a photo, or none."""
        if photo == self.photo:
            return
        self._errand.stop()
        another = photo is None or self.photo is None or _looks(photo) != _looks(self.photo)
        self.photo, self.problem = photo, ""
        self._image = None if another else self._image
        self.setVisible(photo is not None)
        self.setAccessibleName(f"Photo: {photo.caption or 'without a caption'}" if photo else "")
        self.updateGeometry()
        self.update()
        if photo is not None and another:
            self._errand.anew(lambda store, task: _unpacked(store, photo), self._show, self._fail)

    def _show(self, image: QImage) -> None:
        self._image = image
        self.update()

    def _fail(self, error: KeeperError) -> None:
        self.problem = str(error)
        self.update()

    def _room(self) -> QSize:
        photo = self.photo
        whole = QSize((photo and photo.width) or 4, (photo and photo.height) or 3)
        most = QSize(max(self.width(), 100), self.desk.look.px(_LARGE_HIGH))
        return whole.scaled(most, Qt.AspectRatioMode.KeepAspectRatio)

    def sizeHint(self) -> QSize:
        return QSize(self.desk.look.px(26), self._room().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.setFixedHeight(self._room().height())

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        room = QRect(0, 0, self._room().width(), self._room().height())
        if self._image is None or self._image.isNull():
            painter.fillRect(room, QColor(self.desk.look.palette.wash))
            painter.setPen(QColor(self.desk.look.palette.quiet))
            painter.drawText(room, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, self.problem)
        else:
            painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
            painter.drawImage(room, self._image)
        painter.end()


def _looks(photo: Photo) -> tuple[str, int]:
    return photo.sha256, photo.turns


def _unpacked(store, photo: Photo) -> QImage:
    return QImage.fromData(photos.thumbnail_of(store, photo, _LARGE_PIXELS))
