"""The ribbon: one year as a thin band along the bottom, a tick for each night."""

from collections.abc import Mapping
from datetime import date, timedelta
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QPoint, Qt, Signal
from PySide6.QtGui import QContextMenuEvent, QKeyEvent, QMouseEvent, QWheelEvent
from PySide6.QtWidgets import QSizePolicy, QToolTip

from keeper.days import FIRST_NIGHT
from keeper.model import Tick
from keeper.window.desk import wording
from keeper.window.desk.look import Look
from keeper.window.desk.timers import once_after
from keeper.window.frame.ribbon.drawn import YearDrawn
from keeper.window.parts.tips import plain_tip

if TYPE_CHECKING:
    from keeper.actions.months.tinting import Tint


_SOON = 30
"""Milliseconds from when other ticks came to when they are drawn."""


class Ribbon(YearDrawn):
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
        super().__init__(look, tonight)
        self._wheel = 0
        self._soon = once_after(self, _SOON, self.update)
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Ribbon of the year")
        self._describe()

    def show_night(self, night: date) -> None:
        """Mark the night that the page shows, and its year."""
        self.night = self.cursor_night = night
        self._from = None
        self.show_year(night.year)

    def show_year(self, year: int) -> None:
        """Show another year."""
        year = min(max(year, FIRST_NIGHT.year), self.latest.year)
        # Which night is marked is drawn over the year.
        self.update()
        if year != self.year:
            self.year = year
            self._ticks = {}
            if self.cursor_night.year != year:
                self.cursor_night = min(date(year, self.cursor_night.month, 1), self.latest)
            self._draw_anew()
        self.year_wanted.emit(year)
        self._describe()

    def give(self, year: int, ticks: tuple[Tick, ...], marks: Mapping[str, int]) -> None:
        """The ticks of a year, and each place's mark."""
        given = {tick.night: tick for tick in ticks}
        # Each reading noted asks again: a year of ticks is drawn anew only when one of them is another.
        if year == self.year and (given, marks) != (self._ticks, self._marks):
            self._ticks = given
            self._marks = marks
            self._describe()
            # In a turn of its own: what is asked with it may have a whole page to draw.
            self._drawn = None
            self._soon.start()

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

    def night_at(self, spot: QPoint) -> date | None:
        """The night under a point, or None."""
        band = self._band()
        share = (spot.x() - band.left()) / max(1.0, band.width())
        if not 0 <= share < 1:
            return None
        night = date(self.year, 1, 1) + timedelta(days=int(share * self._days()))
        return night if night <= self.latest else None

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
