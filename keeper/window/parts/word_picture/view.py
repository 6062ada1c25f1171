"""The words in their places, each a thing one can go to."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QEnterEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from keeper.actions.word_pictures import WIDTH, Placed, WordPicture
from keeper.window.desk import wording
from keeper.window.desk.look import Look
from keeper.window.parts.tips import plain_tip
from keeper.window.parts.word_picture.painting import UNDER, paint_ribbon, paint_tint, paint_word

_AIR = 3


class WordItem(QAbstractButton):
    """A word of the picture."""

    def __init__(self, look: Look, picture: WordPicture, one: Placed, parent: "WordPictureView") -> None:
        super().__init__(parent)
        self._look, self._view = look, parent
        self.placed = one
        self.home = picture.homes.get(one.word)
        self._over = False
        self.setText(one.word)
        at = f", most at {self.home.name}" if self.home else ""
        about = wording.shorter_date(picture.about(one))
        self.setAccessibleName(f"{one.word}, {wording.counted(one.times, 'time')}, about {about}{at}")
        self.setToolTip(plain_tip(self.accessibleName()))
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def fit(self) -> None:
        """Take one's place in a picture of another size."""
        one, scale = self.placed, self._view.scale()
        self.setGeometry(
            round(one.left * scale) - _AIR, round((one.top - self._view.above()) * scale) - _AIR,
            round(one.width * scale) + 2 * _AIR, round((one.height + UNDER) * scale) + 2 * _AIR,
        )  # fmt: skip

    def sizeHint(self) -> QSize:
        return self.size()

    def enterEvent(self, event: QEnterEvent) -> None:
        self._over = True
        self.update()

    def leaveEvent(self, event) -> None:
        self._over = False
        self.update()

    def keyPressEvent(self, event) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        one, scale, above = self.placed, self._view.scale(), self._view.above()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_word(painter, self._look, one, QPointF(one.x * scale - self.x(), (one.y - above) * scale - self.y()), scale)
        if self._view.tinted and self.home and self.home.mark is not None:
            corner = QPointF(one.left * scale - self.x(), (one.top - above) * scale - self.y())
            paint_tint(painter, self._look, one, self.home.mark, corner, scale)
        if self.hasFocus() or self._over:
            painter.setPen(QPen(QColor(self._look.palette.ink), 2 if self.hasFocus() else 1))
            area = QRectF(self.rect()).adjusted(1, 1, -1, -1)
            painter.drawLine(area.bottomLeft(), area.bottomRight())
        painter.end()


class WordPictureView(QWidget):
    """The words over the ribbon of their nights. ``picked`` comes with the word."""

    picked = Signal(str)

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self.picture: WordPicture | None = None
        self.tinted = False
        self.items: list[WordItem] = []
        self.setAccessibleName("Picture of words")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_picture(self, picture: WordPicture | None) -> None:
        """Show another picture; Tab goes through its words in the order of time."""
        for old in self.items:
            old.hide()
            old.deleteLater()
        self.picture = picture
        placed = sorted(picture.placed, key=lambda one: (one.at, one.left)) if picture else ()
        self.items = [WordItem(self._look, picture, one, self) for one in placed]
        for item in self.items:
            item.clicked.connect(lambda _, item=item: self.picked.emit(item.placed.word))
            item.show()
        self._fit()

    def tint(self, tinted: bool) -> None:
        """Show under each word, and in the ribbon, the tint of its place; or do not."""
        self.tinted = tinted
        self.update()
        for item in self.items:
            item.update()

    def scale(self) -> float:
        """Pixels of the window to one of the picture's own."""
        return self.width() / WIDTH

    def above(self) -> float:
        """What is cut off of the picture at its top."""
        return self.picture.band.above if self.picture else 0.0

    def _fit(self) -> None:
        self.setFixedHeight(max(1, round(self.picture.band.high * self.scale())) if self.picture else 1)
        for item in self.items:
            item.fit()
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(WIDTH // 2, self.height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self._fit()

    def paintEvent(self, event: QPaintEvent) -> None:
        if self.picture is None:
            return
        painter = QPainter(self)
        paint_ribbon(painter, self._look, self.picture, self.scale(), self.above(), self.tinted)
        painter.end()
