"""The picture of words: every word a thing one can go to, and the picture to keep as SVG or PNG."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QEnterEvent, QFont, QImage, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QFileDialog, QSizePolicy, QWidget

from keeper.actions import word_pictures
from keeper.actions.finding import Sought
from keeper.actions.word_pictures import HEIGHT, WIDTH, Placed, WordPicture
from keeper.days import first_of_month, last_of_month
from keeper.errors import CannotWrite, KeeperError
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.look import SERIF, Look
from keeper.window.desk.palette import mixed
from keeper.window.parts.errand import Errand
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import Paper, breakable, label, quiet_button, row
from keeper.window.parts.tips import plain_tip

_AT_ONCE = 20
_PNG_SCALE = 2

ASK = Callable[[object], WordPicture]
"""Given the store, the picture; asked in the background."""


def ink_of(look: Look, one: Placed) -> str:
    """A word's colour: the ink, paler for the rarer ones, never too pale to read."""
    return mixed(look.palette.quiet, look.palette.ink, min(1.0, 0.25 + one.weight))


def paint_word(painter: QPainter, look: Look, one: Placed, start: QPointF, scale: float) -> None:
    """Draw a word from the beginning of its baseline."""
    font = QFont(SERIF)
    font.setPixelSize(max(1, round(one.size * scale)))
    painter.save()
    painter.setFont(font)
    painter.setPen(QColor(ink_of(look, one)))
    painter.translate(start)
    if one.turned:
        painter.rotate(-90)
    painter.drawText(QPointF(0, 0), one.word)
    painter.restore()


class WordItem(QAbstractButton):
    """A word of the picture."""

    def __init__(self, look: Look, one: Placed, parent: QWidget) -> None:
        super().__init__(parent)
        self._look = look
        self.placed = one
        self._scale = 1.0
        self._over = False
        self.setText(one.word)
        self.setAccessibleName(f"{one.word}, {wording.counted(one.times, 'time')}")
        self.setToolTip(plain_tip(self.accessibleName()))
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def fit(self, scale: float) -> None:
        """Take one's place in a picture of another size."""
        one, self._scale = self.placed, scale
        air = 3
        self.setGeometry(
            round(one.left * scale) - air, round(one.top * scale) - air,
            round(one.width * scale) + 2 * air, round(one.height * scale) + 2 * air,
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
        one, scale = self.placed, self._scale
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_word(painter, self._look, one, QPointF(one.x * scale - self.x(), one.y * scale - self.y()), scale)
        if self.hasFocus() or self._over:
            painter.setPen(QPen(QColor(self._look.palette.ink), 2 if self.hasFocus() else 1))
            area = QRectF(self.rect()).adjusted(1, 1, -1, -1)
            ends = (area.topRight(), area.bottomRight()) if one.turned else (area.bottomLeft(), area.bottomRight())
            painter.drawLine(*ends)
        painter.end()


class WordPictureView(QWidget):
    """The words in their places. ``picked`` comes with the word."""

    picked = Signal(str)

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self.items: list[WordItem] = []
        self.setAccessibleName("Picture of words")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_words(self, placed: tuple[Placed, ...]) -> None:
        """Show another picture; read from the top, as the eye does."""
        for old in self.items:
            old.hide()
            old.deleteLater()
        self.items = [WordItem(self._look, one, self) for one in sorted(placed, key=lambda one: (one.top // 60, one.left))]
        for item in self.items:
            item.clicked.connect(lambda _, item=item: self.picked.emit(item.placed.word))
            item.fit(self._scale())
            item.show()

    def _scale(self) -> float:
        return self.width() / WIDTH

    def sizeHint(self) -> QSize:
        return QSize(WIDTH // 2, HEIGHT // 2)

    def resizeEvent(self, event: QResizeEvent) -> None:
        self.setFixedHeight(round(self.width() * HEIGHT / WIDTH))
        for item in self.items:
            item.fit(self._scale())


class WordPicturePage(BasicPage, Paper):
    """A picture of words with its heading. ``left`` comes when the person goes back."""

    left = Signal()

    def __init__(self, desk: Desk, back_to: str = "the month") -> None:
        super().__init__(desk.look, ems=68)
        self.desk = desk
        self.picture: WordPicture | None = None
        self._within = Sought()
        self._errand = Errand(desk.reader)
        self.back = quiet_button(f"\u2039 {back_to}", self.left.emit, f"Back to {back_to}")
        self.heading, self.told = label("", "head"), label("", "quiet")
        self.view = WordPictureView(desk.look)
        self.view.picked.connect(self._find)
        self.svg = quiet_button("Save as SVG\u2026", lambda: self._save("svg"), "Save the picture as SVG")
        self.png = quiet_button("Save as PNG\u2026", lambda: self._save("png"), "Save the picture as PNG")
        self.body.addLayout(row(self.back, None))
        self.body.addWidget(self.heading)
        self.body.addWidget(self.told)
        self.body.addWidget(self.view)
        self.body.addLayout(row(self.svg, self.png, None, gap=desk.look.px(1.2)))
        self.body.addStretch(1)
        self.lead_with(self.back)
        desk.dressed.connect(self.dress)

    def dress(self) -> None:
        """Take up the palette and sizes in force."""
        self.fit()
        for item in self.view.items:
            item.update()

    def show_picture(self, title: str, ask: ASK, within: Sought) -> None:
        """Ask for a picture and show it; a word's lines are then looked for within this."""
        self._within, self.picture = within, None
        self.heading.setText(breakable(title))
        self.told.setText("Finding a place for each word\u2026")
        self.told.show()
        self._show_words(())
        self._errand.anew(lambda store, task: ask(store), self._take, self._failed)

    def of_month(self, month: date) -> None:
        """Show the words of a month."""
        self.show_picture(
            f"The words of {wording.month_and_year(month)}",
            lambda store: word_pictures.picture_of_month(store, month),
            Sought(first=first_of_month(month), last=last_of_month(month)),
        )  # fmt: skip

    def of_year(self, year: int) -> None:
        """Show the words of a year."""
        self.show_picture(
            f"The words of {year}", lambda store: word_pictures.picture_of_year(store, year),
            Sought(first=date(year, 1, 1), last=date(year, 12, 31)),
        )  # fmt: skip

    def of_place(self, place_id: str, name: str) -> None:
        """Show the words of a place's nights."""
        self.show_picture(
            f"The words of {name}", lambda store: word_pictures.picture_of_place(store, place_id),
            Sought(places=(place_id,)),
        )  # fmt: skip

    def of_theme(self, number: int, name: str) -> None:
        """Show the words of a theme's lines."""
        self.show_picture(
            f"The words of \u201c{name}\u201d", lambda store: word_pictures.picture_of_theme(store, number),
            Sought(themes=(number,)),
        )  # fmt: skip

    def _take(self, picture: WordPicture) -> None:
        self.picture = picture
        self.told.setText("A word leads to its lines." if picture.placed else "There are no words for a picture yet.")
        self._show_words(picture.placed)

    def _show_words(self, placed: tuple[Placed, ...]) -> None:
        self.view.show_words(placed)
        for part in (self.view, self.svg, self.png):
            part.setVisible(bool(placed))

    def _failed(self, error: KeeperError) -> None:
        self.told.setText(str(error))

    def _find(self, word: str) -> None:
        if self.picture:
            sought = self.picture.sought.get(word, word)
            self.desk.go("find", thing=replace(self._within, typed=sought))

    # keeping it elsewhere

    def _save(self, ending: str) -> None:
        name = f"{self.heading.text()}.{ending}"
        path, _ = QFileDialog.getSaveFileName(self, "Save the picture", name, f"{ending.upper()} (*.{ending})")
        if path:
            self.save(Path(path).with_suffix(f".{ending}"))

    def save(self, path: Path) -> None:
        """Write the picture as SVG or PNG, by the file's ending; trouble is said."""
        try:
            if path.suffix == ".svg":
                path.write_text(self.as_svg(), encoding="utf-8")
            elif not self.as_image().save(str(path), "PNG"):
                raise CannotWrite(f"The picture cannot be written to {path}.")
        except OSError as error:
            self.desk.said.emit(f"The picture cannot be written to {path}: {(error.strerror or str(error)).lower()}.")
        except KeeperError as error:
            self.desk.said.emit(str(error))
        else:
            self.desk.said.emit(f"The picture is in {path}.")

    def as_svg(self) -> str:
        """The picture as SVG, in the ink and on the paper of now."""
        look = self.desk.look
        placed = self.picture.placed if self.picture else ()
        return word_pictures.as_svg(placed, lambda one: ink_of(look, one), look.palette.paper, self.heading.text())

    def as_image(self) -> QImage:
        """The same as a bitmap."""
        image = QImage(WIDTH * _PNG_SCALE, HEIGHT * _PNG_SCALE, QImage.Format.Format_RGB32)
        image.fill(QColor(self.desk.look.palette.paper))
        painter = QPainter(image)
        painter.setRenderHint(QPainter.RenderHint.TextAntialiasing)
        for one in self.picture.placed if self.picture else ():
            start = QPointF(one.x * _PNG_SCALE, one.y * _PNG_SCALE)
            paint_word(painter, self.desk.look, one, start, _PNG_SCALE)
        painter.end()
        return image
