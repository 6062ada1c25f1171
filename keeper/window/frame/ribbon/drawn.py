"""How the ribbon's year is drawn: a tick for each night, stays and months, what tints them."""

from collections.abc import Callable, Mapping
from datetime import date, timedelta
from math import floor
from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QFont, QPainter, QPaintEvent, QPen, QPixmap
from PySide6.QtWidgets import QWidget

from keeper.days import nights
from keeper.model import Tick
from keeper.window.desk import wording
from keeper.window.desk.look import Look
from keeper.window.desk.palette import mixed
from keeper.window.parts.places.mark import HATCHINGS

if TYPE_CHECKING:
    from keeper.actions.months.tinting import Tint

NAME_MAY_REACH = 1.6
"""How far, in lengths of its stay, a place's name may run on below the ribbon."""


class YearDrawn(QWidget):
    """A year of nights, as it is seen; which year, and what is known of it, is told by whoever is one."""

    def __init__(self, look: Look, tonight: date) -> None:
        super().__init__()
        self._look = look
        self.tonight = self.latest = tonight
        self.year = tonight.year
        self.night = self.cursor_night = tonight
        self._from: date | None = None
        self._ticks: dict[date, Tick] = {}
        self._marks: Mapping[str, int] = {}
        self._only: frozenset[date] | None = None
        self._drawn: QPixmap | None = None
        self.tint: Tint | None = None
        self._by = ""

    def sizeHint(self) -> QSize:
        return QSize(800, self._look.px(5))

    def dress(self) -> None:
        """Take up the palette and text size in force."""
        self.updateGeometry()
        self._draw_anew()

    # where things are

    def _band(self) -> QRectF:
        side = self._look.px(4.4)
        return QRectF(side, self._look.px(1.5), self.width() - side - self._look.px(1.2), self._look.px(1.8))

    def _days(self) -> int:
        return (date(self.year + 1, 1, 1) - date(self.year, 1, 1)).days

    def _x(self, night: date) -> float:
        return self._across()(night)

    def _across(self) -> Callable[[date], float]:
        """Where each night lies, from the left; asked for once where there are many."""
        band, days, first = self._band(), self._days(), date(self.year, 1, 1).toordinal()
        left, wide = band.left(), band.width()
        return lambda night: left + wide * (night.toordinal() - first) / days

    # drawing

    def paintEvent(self, event: QPaintEvent) -> None:
        drawn = self._as_drawn()
        painter = QPainter(self)
        self._paint_span(painter)
        painter.drawPixmap(0, 0, drawn)
        self._paint_marks(painter)
        painter.end()

    def _draw_anew(self) -> None:
        self._drawn = None
        self.update()

    def _as_drawn(self) -> QPixmap:
        """The year with its ticks: kept, since whatever opens over the ribbon and closes again has it painted."""
        ratio = self.devicePixelRatioF()
        size = self.size() * ratio
        if self._drawn is None or self._drawn.size() != size:
            self._drawn = QPixmap(size)
            self._drawn.setDevicePixelRatio(ratio)
            self._drawn.fill(QColor(0, 0, 0, 0))
            painter = QPainter(self._drawn)
            for paint in (self._paint_year, self._paint_months, self._paint_stays, self._paint_ticks):
                paint(painter)
            painter.end()
        return self._drawn

    def _paint_year(self, painter: QPainter) -> None:
        colours, band = self._look.palette, self._band()
        painter.setPen(QColor(colours.faint))
        painter.drawLine(0, 0, self.width(), 0)
        painter.setPen(QColor(colours.ink))
        painter.setFont(self._look.serif(1.1))
        left = QRectF(self._look.px(1.2), band.top(), self._look.px(3.2), band.height())
        painter.drawText(left, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, str(self.year))
        painter.setPen(QColor(colours.quiet))
        painter.setFont(self._small())
        by = painter.fontMetrics().elidedText(self._by, Qt.TextElideMode.ElideRight, int(self._by_room().width()))
        painter.drawText(self._by_room(), Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft, by)

    def _by_room(self) -> QRectF:
        """Where it is told what tints the ribbon; a click there chooses."""
        return QRectF(self._look.px(1.2), self._band().bottom() + 1, self._look.px(3.2), self._look.px(1.3))

    def _paint_months(self, painter: QPainter) -> None:
        band, colours, across = self._band(), self._look.palette, self._across()
        painter.setFont(self._small())
        for month in range(1, 13):
            left = across(date(self.year, month, 1))
            painter.setPen(QColor(colours.faint))
            painter.drawLine(int(left), int(band.top()), int(left), int(band.bottom()))
            painter.setPen(QColor(colours.quiet))
            painter.drawText(int(left) + 2, int(band.top()) - 5, wording.month_letter(month))

    def _small(self) -> QFont:
        return self._look.sans(0.78)

    def _paint_ticks(self, painter: QPainter) -> None:
        # All of one colour at a time: there are hundreds, and they are drawn anew at each night that is typed up.
        band, colours = self._band(), self._look.palette
        step, by_colour = band.width() / self._days(), {}
        width, x = max(1.0, step * 0.62), band.left() - step
        ground, tall = band.bottom(), band.height() - 4
        for night in nights(date(self.year, 1, 1), min(date(self.year, 12, 31), self.latest)):
            x, tick = x + step, self._ticks.get(night)
            if tick is None or not (tick.lines or tick.photos):
                top, under, colour = ground - 2, ground - 1, colours.line
            else:
                weight = min(tick.lines, 3) + min(tick.photos, 1)
                top, under = ground - tall * (0.34 + 0.165 * weight), ground
                held_back = self._only is not None and night not in self._only
                colour = colours.faint if held_back else self._colour(tick)
            left, high = floor(x + 0.5), floor(top + 0.5)
            by_colour.setdefault(colour, []).append(QRect(left, high, floor(x + width + 0.5) - left, floor(under + 0.5) - high))
        painter.setPen(Qt.PenStyle.NoPen)
        for colour, ticks in by_colour.items():
            painter.setBrush(QColor(colour))
            painter.drawRects(ticks)

    def _colour(self, tick: Tick) -> str:
        return self._tint(tick.place_id) if self.tint is None else self._shade(tick.night)

    def _shade(self, night: date) -> str:
        """The ink, the paler the less; paler than the least where nothing was noted."""
        colours, share = self._look.palette, self.tint.shares.get(night)
        return colours.faint if share is None else mixed(colours.line, colours.ink, share)

    def _tint(self, place_id: str | None) -> str:
        colours = self._look.palette
        if place_id is None or place_id not in self._marks:
            return colours.ink
        return colours.tints[self._marks[place_id] % len(colours.tints)]

    def _paint_stays(self, painter: QPainter) -> None:
        band, colours = self._band(), self._look.palette
        height, across, step = self._look.px(0.26), self._across(), band.width() / self._days()
        if self.tint is not None:
            self._paint_readings(painter, QRectF(band.left(), band.bottom() + 2, band.width(), height))
            return
        for first, last, tick in self._stays(within=1):
            left, right = across(first), across(last) + step
            hatching = HATCHINGS[self._marks.get(tick.place_id, 0) // len(colours.tints) % len(HATCHINGS)]
            strip = QRectF(left, band.bottom() + 2, right - left - 1, height)
            painter.fillRect(strip, QBrush(QColor(self._tint(tick.place_id)), hatching))
        self._paint_names(painter, band.bottom() + 2 + height)

    def _paint_readings(self, painter: QPainter, along: QRectF) -> None:
        # Under the nights, so that the shade is seen of those without a line too; a gap where nothing was noted.
        wide = max(1.0, along.width() / self._days())
        across = self._across()
        for night in self.tint.shares:
            if night.year == self.year:
                painter.fillRect(QRectF(across(night), along.top(), wide, along.height()), QColor(self._shade(night)))
        painter.setFont(self._small())
        painter.setPen(QColor(self._look.palette.quiet))
        low, high = wording.shortest(self.tint.low), wording.shortest(self.tint.high)
        ends = "pale no, dark yes" if self.tint.tracker.form == "mark" else f"pale {low}, dark {high}"
        told = f"{self.tint.tracker.name}: {ends}; a gap where it was not noted"
        room = along.translated(0, along.height())
        room.setHeight(self._look.px(1.3))
        painter.drawText(room, painter.fontMetrics().elidedText(told, Qt.TextElideMode.ElideRight, int(room.width())))

    def _paint_names(self, painter: QPainter, top: float) -> None:
        # A name may stand under a stay with a night or two left open in it.
        painter.setFont(self._small())
        painter.setPen(QColor(self._look.palette.quiet))
        metrics, across, end_of_last = painter.fontMetrics(), self._across(), -1.0
        for first, last, tick in self._stays(within=4):
            left, right = across(first), across(last + timedelta(days=1))
            if left < end_of_last:
                continue
            room = metrics.horizontalAdvance(tick.place_name) + 4
            if room <= (right - left) * NAME_MAY_REACH:
                painter.drawText(QRectF(left, top, room, metrics.height()), tick.place_name)
                end_of_last = left + room + 2

    def _stays(self, within: int) -> list[tuple[date, date, Tick]]:
        """Runs of nights at one place, as (first, last, a tick of it).

        Nights of a run lie at most ``within`` days apart.
        """
        runs: list[tuple[date, date, Tick]] = []
        for night in sorted(self._ticks):
            tick = self._ticks[night]
            if tick.place_id is None:
                continue
            if runs and runs[-1][2].place_id == tick.place_id and (night - runs[-1][1]).days <= within:
                runs[-1] = (runs[-1][0], night, tick)
            else:
                runs.append((night, night, tick))
        return runs

    def _paint_span(self, painter: QPainter) -> None:
        if self._from is None:
            return
        first, last = sorted((self._from, self.cursor_night))
        band, step = self._band(), self._band().width() / self._days()
        left, right = max(self._x(first), band.left()), min(self._x(last) + step, band.right())
        painter.fillRect(QRectF(left, band.top() - 2, right - left, band.height() + 4), QColor(self._look.palette.wash))

    def _paint_marks(self, painter: QPainter) -> None:
        band, colours = self._band(), self._look.palette
        if self.night.year == self.year:
            middle = self._x(self.night) + band.width() / self._days() / 2
            painter.setPen(QPen(QColor(colours.ink), 1))
            painter.drawLine(int(middle), int(band.top() - 3), int(middle), int(band.bottom() + 2))
        if self.hasFocus() and self.cursor_night.year == self.year:
            left = self._x(self.cursor_night) - 2
            painter.setPen(QPen(QColor(colours.ink), 1.5))
            painter.drawRect(QRectF(left, band.top() - 2, band.width() / self._days() + 4, band.height() + 4))
