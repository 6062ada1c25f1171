"""The sections of a month's page; one that would be empty is not there."""

from collections.abc import Callable, Iterable
from datetime import date

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from keeper.model import Line
from keeper.review.month import MonthTheme, MonthView
from keeper.study.firsts import PERSON, First
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.look import Look
from keeper.window.month import wording as month_wording
from keeper.window.parts.flow import Flow
from keeper.window.parts.places.mark import paint_mark
from keeper.window.parts.small import emptied, label, plainly, quiet_button, row
from keeper.window.parts.tips import plain_tip

ANSWERS_AT_ONCE = 5


class Section(QWidget):
    """A heading and what belongs under it; hidden while there is nothing."""

    def __init__(self, desk: Desk, title: str) -> None:
        super().__init__()
        self.desk = desk
        self.title = label(title, "section")
        self.body = QVBoxLayout()
        self.body.setContentsMargins(0, 0, 0, 0)
        self.body.setSpacing(desk.look.px(0.25))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, desk.look.px(0.9), 0, 0)
        layout.setSpacing(desk.look.px(0.35))
        layout.addWidget(self.title)
        layout.addLayout(self.body)
        self.hide()

    def show_parts(self, parts: list[QWidget | QHBoxLayout | QVBoxLayout]) -> None:
        """Show these and nothing else; none hides the section."""
        emptied(self.body)
        for part in parts:
            self.body.addWidget(part) if isinstance(part, QWidget) else self.body.addLayout(part)
        self.setVisible(bool(parts))


class PlaceMark(QWidget):
    """A place's mark, as on the map and under the ribbon."""

    def __init__(self, look: Look, mark: int) -> None:
        super().__init__()
        self._look, self._mark = look, mark
        self.setFixedSize(look.px(1.1), look.px(1.1))

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_mark(painter, self._look, self.rect().toRectF().center(), self._look.px(0.36), self._mark)
        painter.end()


class ShareRule(QWidget):
    """A rule whose heavy part is a share of its length."""

    def __init__(self, look: Look, share: float) -> None:
        super().__init__()
        self._look, self._share = look, share
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setFixedHeight(max(3, look.px(0.22)))

    def sizeHint(self) -> QSize:
        return QSize(self._look.px(8), self.height())

    def paintEvent(self, event: QPaintEvent) -> None:
        painter, colours = QPainter(self), self._look.palette
        painter.fillRect(0, self.height() - 1, self.width(), 1, QColor(colours.faint))
        painter.fillRect(0, 0, round(self.width() * self._share), self.height(), QColor(colours.line))
        painter.end()


def words_label(text: str, voice: str = "words") -> QWidget:
    """The person's words, to be read and marked."""
    made = label(text, voice)
    made.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return made


def day_button(desk: Desk, night: date) -> QWidget:
    """A night's day of the month; opens it."""
    made = quiet_button(
        str(night.day), lambda: desk.go("night", night), f"Open the night of {wording.long_date(night)}"
    )
    made.setMinimumWidth(desk.look.px(1.8))
    return made


def dated_line(desk: Desk, line: Line) -> QGridLayout:
    """A line with its day before it."""
    grid = QGridLayout()
    grid.setHorizontalSpacing(desk.look.px(0.5))
    grid.setColumnStretch(1, 1)
    grid.addWidget(day_button(desk, line.night), 0, 0, Qt.AlignmentFlag.AlignTop)
    grid.addWidget(words_label(line.text, "spoken"), 0, 1)
    return grid


def places(desk: Desk, view: MonthView) -> list:
    """The places in the order in which one came to them."""
    return [
        row(PlaceMark(desk.look, one.place.mark or 0), label(one.place.name, wrap=False),
            label(month_wording.place_told(one), "quiet", wrap=False), None, gap=desk.look.px(0.5))
        for one in view.places
    ]  # fmt: skip


def theme(desk: Desk, one: MonthTheme, kept: int, opened: Callable[[MonthTheme], None]) -> QVBoxLayout:
    """A theme: its name, its share of the nights kept, two lines that stand for it."""
    column = QVBoxLayout()
    column.setContentsMargins(0, 0, 0, desk.look.px(0.3))
    column.setSpacing(desk.look.px(0.15))
    name = quiet_button(plainly(one.name), lambda: opened(one), f"Lines of the theme {one.name}")
    name.setProperty("named", True)
    column.addLayout(row(name, label(month_wording.theme_told(one, kept), "quiet", wrap=False), None))
    column.addWidget(ShareRule(desk.look, one.share))
    for line in one.standing:
        column.addLayout(dated_line(desk, line))
    return column


def apart(desk: Desk, view: MonthView, found: Callable[[str], None]) -> list:
    """What set the month apart: its words, each leading to its lines, and its themes."""
    parts: list = []
    if view.themes_apart:
        parts.append(label(", ".join(view.themes_apart)))
    if view.words:
        flow = Flow(desk.look)
        for word in view.words:
            button = quiet_button(word.word, lambda word=word: found(word.sought), month_wording.word_told(word))
            button.setProperty("named", True)
            button.setToolTip(plain_tip(month_wording.word_told(word)))
            flow.add(button)
        parts.append(flow)
    return parts


def firsts(desk: Desk, shown: Iterable[First]) -> list:
    """What came for the first time, night by night."""
    parts = []
    for one in shown:
        beside = row(day_button(desk, one.night), _first(desk, one), gap=desk.look.px(0.5))
        beside.setStretch(1, 1)
        parts.append(beside)
    return parts


def _first(desk: Desk, one: First) -> QWidget:
    told = month_wording.first_told(one)
    if one.kind != PERSON:
        return label(told)
    made = quiet_button(plainly(told), lambda: desk.go("people", None, one.name), f"{told}; open their page")
    made.setProperty("named", True)
    return made
