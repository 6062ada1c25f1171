"""The ribbon: one year as a thin band along the bottom, a tick for each night."""

from collections.abc import Mapping
from datetime import date, timedelta
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QPoint, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QBrush,
    QColor,
    QContextMenuEvent,
    QFont,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from keeper.days import FIRST_NIGHT, nights
from keeper.model import Tick
from keeper.window.desk import wording
from keeper.window.desk.look import Look
from keeper.window.desk.palette import mixed
from keeper.window.parts.places.mark import HATCHINGS
from keeper.window.parts.tips import plain_tip

if TYPE_CHECKING:
    from keeper.actions.months.tinting import Tint

NAME_MAY_REACH = 1.6
"""How far, in lengths of its stay, a place's name may run on below the ribbon."""


class Ribbon(QWidget):
    """A year of nights; ``picked`` comes with the night clicked or entered.

    ``span_picked`` comes with the first and last of several nights, chosen with
    Shift held down: by a click, or by arrows and Enter. ``year_wanted`` comes when a year is shown whose ticks are not yet given.
    ``tint_wanted`` comes, with a spot of the screen, when another tint is to be chosen.
    """

    picked = Signal(object)
    span_picked = Signal(object, object)
    year_wanted = Signal(int)
    tint_wanted = Signal(QPoint)

    def __init__(self, look: Look, tonight: date) -> None:
        super().__init__()
        self._look = look
        self.tonight = self.latest = tonight
        self.year = tonight.year
        self.night = tonight
        self.cursor_night = tonight
        self._from: date | None = None
        self._ticks: dict[date, Tick] = {}
        self._marks: Mapping[str, int] = {}
        self._wheel = 0
        self._only: frozenset[date] | None = None
        self._drawn: QPixmap | None = None
        self.tint: Tint | None = None
        self._by = ""
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Ribbon of the year")
        self._describe()

    def sizeHint(self) -> QSize:
        return QSize(800, self._look.px(5))

    def show_night(self, night: date) -> None:
        """Mark the night that the page shows, and its year."""
        self.night = self.cursor_night = night
        self._from = None
        self.show_year(night.year)

    def show_year(self, year: int) -> None:
        """Show another year."""
        year = min(max(year, FIRST_NIGHT.year), self.latest.year)
        if year != self.year:
            self.year = year
            self._ticks = {}
            if self.cursor_night.year != year:
                self.cursor_night = min(date(year, self.cursor_night.month, 1), self.latest)
        self.year_wanted.emit(year)
        self._describe()
        self._draw_anew()

    def give(self, year: int, ticks: tuple[Tick, ...], marks: Mapping[str, int]) -> None:
        """The ticks of a year, and each place's mark."""
        given = {tick.night: tick for tick in ticks}
        # Each reading noted asks again: a year of ticks is drawn anew only when one of them is another.
        if year == self.year and (given, marks) != (self._ticks, self._marks):
            self._ticks = given
            self._marks = marks
            self._describe()
            self._draw_anew()

    def tint_by(self, tint: "Tint | None", by: str) -> None:
        """Tint the nights by a reading, or by place; ``by`` says which, and is "" where there is no choice."""
        if (tint, by) != (self.tint, self._by):
            self.tint, self._by = tint, by
            self._describe()
            self._draw_anew()

    def narrow(self, only: frozenset[date] | None) -> None:
        """Let only these nights stand out; None lets all."""
        if only != self._only:
            self._only = only
            self._draw_anew()

    def turn(self, tonight: date, latest: date) -> None:
        """Take up which night is being lived, and the latest that can be opened: one ahead is kept after the date line."""
        if (tonight, latest) != (self.tonight, self.latest):
            self.tonight, self.latest = tonight, latest
            self._draw_anew()

    def dress(self) -> None:
        """Take up the palette and text size in force."""
        self.updateGeometry()
        self._draw_anew()

    # telling

    def told(self, night: date) -> str:
        """What a night holds, in words."""
        tick = self._ticks.get(night)
        parts = [wording.short_date(night)]
        parts += ["still to come here"] if night > self.tonight else []
        if tick is None or not (tick.lines or tick.photos or tick.place_name):
            parts.append("tonight" if night == self.tonight else "open")
        else:
            parts += [tick.place_name] if tick.place_name else []
            parts.append(wording.counted(tick.lines, "line") if tick.lines else "open")
            parts += [wording.counted(tick.photos, "photo")] if tick.photos else []
        return " \u00b7 ".join([*parts, *self._reading_told(night)])

    def _reading_told(self, night: date) -> list[str]:
        if self.tint is None or not (self.tint.tracker.in_force(night) or night in self.tint.told):
            return []
        return [self.tint.told.get(night, f"{self.tint.tracker.name}, not noted")]

    def _tint_told(self) -> str:
        if self.tint is None:
            return ""
        name = self.tint.tracker.name
        return f" Tinted by {name}: the darker, the more {name}. T chooses another tint."

    def _describe(self) -> None:
        kept = sum(1 for tick in self._ticks.values() if tick.lines)
        self.setAccessibleDescription(
            f"{self.year}: {wording.counted(kept, 'night')} kept. {self.told(self.cursor_night)}. "
            "Left and right choose a night, up and down a year, Enter opens. With Shift several nights, to say where you were."
            f"{self._tint_told()}"
        )

    # where things are

    def _band(self) -> QRectF:
        side = self._look.px(4.4)
        return QRectF(side, self._look.px(1.5), self.width() - side - self._look.px(1.2), self._look.px(1.8))

    def _days(self) -> int:
        return (date(self.year + 1, 1, 1) - date(self.year, 1, 1)).days

    def _x(self, night: date) -> float:
        band = self._band()
        return band.left() + band.width() * ((night - date(self.year, 1, 1)).days) / self._days()

    def night_at(self, spot: QPoint) -> date | None:
        """The night under a point, or None."""
        band = self._band()
        share = (spot.x() - band.left()) / max(1.0, band.width())
        if not 0 <= share < 1:
            return None
        night = date(self.year, 1, 1) + timedelta(days=int(share * self._days()))
        return night if night <= self.latest else None

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
        band, colours = self._band(), self._look.palette
        painter.setFont(self._small())
        for month in range(1, 13):
            left = self._x(date(self.year, month, 1))
            painter.setPen(QColor(colours.faint))
            painter.drawLine(int(left), int(band.top()), int(left), int(band.bottom()))
            painter.setPen(QColor(colours.quiet))
            painter.drawText(int(left) + 2, int(band.top()) - 5, wording.month_letter(month))

    def _small(self) -> QFont:
        return self._look.sans(0.78)

    def _paint_ticks(self, painter: QPainter) -> None:
        band, colours = self._band(), self._look.palette
        step = band.width() / self._days()
        width, x = max(1.0, step * 0.62), band.left() - step
        open_ink, pale = QColor(colours.line), QColor(colours.faint)
        for night in nights(date(self.year, 1, 1), min(date(self.year, 12, 31), self.latest)):
            x, tick = x + step, self._ticks.get(night)
            if tick is None or not (tick.lines or tick.photos):
                painter.fillRect(QRectF(x, band.bottom() - 2, width, 1), open_ink)
                continue
            weight = min(tick.lines, 3) + min(tick.photos, 1)
            height = (band.height() - 4) * (0.34 + 0.165 * weight)
            held_back = self._only is not None and night not in self._only
            colour = pale if held_back else self._colour(tick)
            painter.fillRect(QRectF(x, band.bottom() - height, width, height), colour)

    def _colour(self, tick: Tick) -> QColor:
        return self._tint(tick.place_id) if self.tint is None else self._shade(tick.night)

    def _shade(self, night: date) -> QColor:
        """The ink, the paler the less; paler than the least where nothing was noted."""
        colours, share = self._look.palette, self.tint.shares.get(night)
        return QColor(colours.faint) if share is None else QColor(mixed(colours.line, colours.ink, share))

    def _tint(self, place_id: str | None) -> QColor:
        colours = self._look.palette
        if place_id is None or place_id not in self._marks:
            return QColor(colours.ink)
        return QColor(colours.tints[self._marks[place_id] % len(colours.tints)])

    def _paint_stays(self, painter: QPainter) -> None:
        band, colours = self._band(), self._look.palette
        height = self._look.px(0.26)
        if self.tint is not None:
            self._paint_readings(painter, QRectF(band.left(), band.bottom() + 2, band.width(), height))
            return
        for first, last, tick in self._stays(within=1):
            left, right = self._x(first), self._x(last) + band.width() / self._days()
            hatching = HATCHINGS[self._marks.get(tick.place_id, 0) // len(colours.tints) % len(HATCHINGS)]
            strip = QRectF(left, band.bottom() + 2, right - left - 1, height)
            painter.fillRect(strip, QBrush(self._tint(tick.place_id), hatching))
        self._paint_names(painter, band.bottom() + 2 + height)

    def _paint_readings(self, painter: QPainter, along: QRectF) -> None:
        # Under the nights, so that the shade is seen of those without a line too; a gap where nothing was noted.
        wide = max(1.0, along.width() / self._days())
        for night in self.tint.shares:
            if night.year == self.year:
                painter.fillRect(QRectF(self._x(night), along.top(), wide, along.height()), self._shade(night))
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
        metrics, end_of_last = painter.fontMetrics(), -1.0
        for first, last, tick in self._stays(within=4):
            left, right = self._x(first), self._x(last + timedelta(days=1))
            room = metrics.horizontalAdvance(tick.place_name) + 4
            if left >= end_of_last and room <= (right - left) * NAME_MAY_REACH:
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

    # moving

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1, Qt.Key.Key_PageUp: -30, Qt.Key.Key_PageDown: 30}
        years = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}
        if event.key() in steps:
            held = event.modifiers() & Qt.KeyboardModifier.ShiftModifier
            self._from = (self._from or self.cursor_night) if held else None
            self._point_at(self.cursor_night + timedelta(days=steps[event.key()]))
        elif event.key() in years:
            self.show_year(self.year + years[event.key()])
        elif event.key() == Qt.Key.Key_Escape and self._from:
            self._from = None
            self.update()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            self._pick(self.cursor_night)
        elif event.key() == Qt.Key.Key_T and self._by:
            self._want_tint()
        else:
            super().keyPressEvent(event)

    def _want_tint(self) -> None:
        self.tint_wanted.emit(self.mapToGlobal(self._by_room().topLeft().toPoint()))

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        if self._by:
            self._want_tint()

    def _point_at(self, night: date) -> None:
        self.cursor_night = min(max(night, FIRST_NIGHT), self.latest)
        if self.cursor_night.year != self.year:
            self.show_year(self.cursor_night.year)
        self._describe()
        spot = QPoint(int(self._x(self.cursor_night)), int(self._band().top()) - self._look.px(3))
        QToolTip.showText(self.mapToGlobal(spot), plain_tip(self.told(self.cursor_night)), self)
        self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        night = self.night_at(event.position().toPoint())
        pressed = night or (self._by and self._by_room().contains(event.position()))
        self.setCursor(Qt.CursorShape.PointingHandCursor if pressed else Qt.CursorShape.ArrowCursor)
        if night:
            QToolTip.showText(event.globalPosition().toPoint(), plain_tip(self.told(night)), self)
        else:
            QToolTip.hideText()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        night = self.night_at(event.position().toPoint())
        if self._by and self._by_room().contains(event.position()) and event.button() == Qt.MouseButton.LeftButton:
            self._want_tint()
        elif night and event.button() == Qt.MouseButton.LeftButton:
            held = event.modifiers() & Qt.KeyboardModifier.ShiftModifier
            self._from = (self._from or self.night) if held else None
            self._pick(night)

    def _pick(self, night: date) -> None:
        if self._from is None or self._from == night:
            self._from = None
            self.picked.emit(night)
            return
        self.cursor_night = night
        self.update()
        self.span_picked.emit(*sorted((self._from, night)))

    def let_span_go(self) -> None:
        """Choose one night again, not several."""
        self._from = None
        self.update()

    def place_of(self, night: date) -> str | None:
        """The id of the place of a night of the year shown, if it is known."""
        tick = self._ticks.get(night)
        return tick.place_id if tick else None

    def wheelEvent(self, event: QWheelEvent) -> None:
        # One notch is 120; touchpads send less at a time.
        self._wheel += event.angleDelta().y() or -event.angleDelta().x()
        years, self._wheel = int(self._wheel / 120), self._wheel - int(self._wheel / 120) * 120
        if years:
            self.show_year(self.year - years)
        event.accept()

    def focusInEvent(self, event) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event) -> None:
        super().focusOutEvent(event)
        QToolTip.hideText()
        self.update()

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ToolTip:
            return True
        return super().event(event)
