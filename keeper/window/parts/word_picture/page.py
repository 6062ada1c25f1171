"""The picture of words: every word a thing one can go to, and the picture to keep as SVG or PNG."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

from PySide6.QtCore import QPointF, QSize, Signal
from PySide6.QtGui import QColor, QImage, QPainter, QPaintEvent
from PySide6.QtWidgets import QFileDialog, QPushButton, QWidget

from keeper.actions import word_pictures
from keeper.actions.finding import Sought
from keeper.actions.word_pictures import WIDTH, Inks, NightsDrawn, Placed, WordPicture
from keeper.days import first_of_month, last_of_month
from keeper.errors import CannotWrite, KeeperError
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand
from keeper.window.parts.flow import Flow
from keeper.window.parts.page import BasicPage
from keeper.window.parts.places.mark import paint_mark, tint
from keeper.window.parts.small import Paper, breakable, label, quiet_button, row
from keeper.window.parts.word_picture.painting import ink_of, paint_ribbon, paint_tint, paint_word
from keeper.window.parts.word_picture.view import WordPictureView

_PNG_SCALE = 2
_PLACES = 12
"""So many places are named at most."""

_TOLD = "Each word stands over the nights where it was mostly written. A word leads to its lines."

ASK = Callable[[object], WordPicture]
"""Given the store, the picture; asked in the darkroom."""


class _MarkOf(QWidget):
    """A place's mark before its name."""

    def __init__(self, desk: Desk, mark: int) -> None:
        super().__init__()
        self._look, self._mark = desk.look, mark

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(1.0), self._look.px(1.2))

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_mark(painter, self._look, QPointF(self.width() / 2, self.height() / 2), self._look.px(0.34), self._mark)
        painter.end()


class WordPicturePage(BasicPage, Paper):
    """A picture of words with its heading. ``left`` comes when the person goes back."""

    left = Signal()

    def __init__(self, desk: Desk, back_to: str = "the month") -> None:
        super().__init__(desk.look, ems=68)
        self.desk = desk
        self.picture: WordPicture | None = None
        self._within = Sought()
        self._errand = Errand(desk.darkroom)
        self.back = quiet_button(f"\u2039 {back_to}", self.left.emit, f"Back to {back_to}")
        self.heading, self.told = label("", "head"), label("", "quiet")
        self.view = WordPictureView(desk.look)
        self.view.picked.connect(self._find)
        self.by_place = QPushButton("Tint by place")
        self.by_place.setCheckable(True)
        self.by_place.setProperty("quiet", True)
        self.by_place.setAccessibleName("Tint each word by the place where it was written most")
        self.by_place.toggled.connect(self._on_tint)
        self.places: Flow | None = None
        self.svg = quiet_button("Save as SVG\u2026", lambda: self._save("svg"), "Save the picture as SVG")
        self.png = quiet_button("Save as PNG\u2026", lambda: self._save("png"), "Save the picture as PNG")
        self.body.addLayout(row(self.back, None))
        self.body.addWidget(self.heading)
        self.body.addWidget(self.told)
        self.body.addWidget(self.view)
        self.body.addLayout(row(self.by_place, self.svg, self.png, None, gap=desk.look.px(1.2)))
        self.body.addStretch(1)
        self.lead_with(self.back)
        desk.dressed.connect(self.dress)

    def dress(self) -> None:
        """Take up the palette and sizes in force."""
        self.fit()
        self.view.tint(self.by_place.isChecked())

    def show_picture(self, title: str, ask: ASK, within: Sought) -> None:
        """Ask for a picture and show it; a word's lines are then looked for within this."""
        self._within, self.picture = within, None
        self.heading.setText(breakable(title))
        self.told.setText("Finding a place for each word\u2026")
        self.told.show()
        self._show_words(None)
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
        self.told.setText(_TOLD if picture.placed else "There are no words for a picture yet.")
        self._show_words(picture)

    def _show_words(self, picture: WordPicture | None) -> None:
        placed = bool(picture and picture.placed)
        self.view.show_picture(picture if placed else None)
        for part in (self.view, self.svg, self.png):
            part.setVisible(placed)
        self.by_place.setVisible(placed and any(one.mark is not None for one in picture.places))
        self._on_tint(self.by_place.isChecked())

    def _on_tint(self, tinted: bool) -> None:
        self.by_place.setText("In one ink" if tinted else "Tint by place")
        self.view.tint(tinted)
        if self.places is not None:
            self.body.removeWidget(self.places)
            self.places.deleteLater()
            self.places = None
        places = [one for one in self.picture.places if one.mark is not None] if self.picture else []
        if tinted and places:
            self.places = Flow(self.desk.look, *(self._named(one) for one in places[:_PLACES]), gap=1.2)
            self.places.setAccessibleName("What the tints mean")
            self.body.insertWidget(self.body.indexOf(self.view) + 1, self.places)

    def _named(self, place) -> QWidget:
        made = QWidget()
        inside = row(_MarkOf(self.desk, place.mark), label(place.name, "quiet", wrap=False), gap=self.desk.look.px(0.3))
        inside.setContentsMargins(0, 0, 0, 0)
        made.setLayout(inside)
        return made

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

    def _mark_of(self, word: str) -> int | None:
        home = self.picture.homes.get(word) if self.view.tinted else None
        return home.mark if home else None

    def as_svg(self) -> str:
        """The picture as SVG, in the ink and on the paper of now."""
        look = self.desk.look

        named = self._legend()
        order = {name: str(place) for place, (name, _) in enumerate(named, 1)}

        def under(one: Placed) -> tuple[str, str]:
            home = self.picture.homes.get(one.word) if self.view.tinted else None
            return (tint(look, home.mark).name(), order.get(home.name, "")) if home and home.mark is not None else ("", "")

        def night(one: NightsDrawn) -> str:
            return tint(look, one.mark).name() if self.view.tinted and one.mark is not None else ""

        inks = Inks(look.palette.paper, look.palette.quiet, lambda one: ink_of(look, one), under, night, named)
        return word_pictures.as_svg(self.picture.band, inks, self.heading.text()) if self.picture else ""

    def _legend(self) -> tuple[tuple[str, str], ...]:
        """The places whose tints are shown, each with its colour."""
        places = self.picture.places if self.picture and self.view.tinted else ()
        return tuple((one.name, tint(self.desk.look, one.mark).name()) for one in places if one.mark is not None)[:_PLACES]

    def as_image(self) -> QImage:
        """The same as a bitmap."""
        look, scale, picture = self.desk.look, _PNG_SCALE, self.picture
        above = picture.band.above if picture else 0.0
        image = QImage(WIDTH * scale, round(picture.band.high * scale) if picture else 1, QImage.Format.Format_RGB32)
        image.fill(QColor(look.palette.paper))
        painter = QPainter(image)
        painter.setRenderHint(QPainter.RenderHint.TextAntialiasing)
        if picture:
            paint_ribbon(painter, look, picture, scale, above, self.view.tinted)
        for one in picture.placed if picture else ():
            paint_word(painter, look, one, QPointF(one.x * scale, (one.y - above) * scale), scale)
            if (mark := self._mark_of(one.word)) is not None:
                paint_tint(painter, look, one, mark, QPointF(one.left * scale, (one.top - above) * scale), scale)
        painter.end()
        return image
