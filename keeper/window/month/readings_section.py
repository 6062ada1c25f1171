"""The readings of a month on its sheet: their strips, what can be done with them, and the cautions."""

from itertools import combinations

from PySide6.QtCore import Signal

from keeper.review.month import MonthView
from keeper.review.readings.axes import can_share, crossings_told
from keeper.window.desk.desk import Desk
from keeper.window.month import wording as month_wording
from keeper.window.month.reading_strips import ReadingStrips
from keeper.window.month.sections import Section
from keeper.window.month.strip import strips_of
from keeper.window.parts.small import label, quiet_button, row


class ReadingsSection(Section):
    """Hidden while nothing is noted. ``sheet_wanted`` comes when the month is to be filled in."""

    sheet_wanted = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, "Readings")
        self.view: MonthView | None = None
        self.strips = ReadingStrips(desk.look)
        self.strips.opened.connect(lambda night: desk.go("night", night))
        self.fill = quiet_button("Fill in the month", self.sheet_wanted.emit, "Fill in the readings of the month")
        self.axes = quiet_button("On one axis\u2026", self._choose_axes, "Choose which readings share an axis")
        self.caution = label("", "quiet")
        self.body.addWidget(self.strips)
        self.body.addLayout(row(self.fill, self.axes, None, gap=desk.look.px(1.2)))
        self.body.addWidget(self.caution)

    def show_view(self, view: MonthView) -> None:
        """Show the readings of a month."""
        self.view = view
        strips = strips_of(view)
        crossed = [crossings_told(strip.crossed) for strip in strips if strip.crossed]
        told = ". ".join([*(month_wording.series_told(series) for series in view.series), *crossed])
        self.strips.show_strips(strips, told, view.month)
        its = [one.tracker for one in view.series]
        self.axes.setVisible(any(can_share(pair) for pair in combinations(its, 2)))
        self.caution.setText(month_wording.caution(view.series))
        self.setVisible(bool(view.series))

    def dress(self) -> None:
        """Take up the typefaces and sizes in force."""
        self.strips.show_strips(self.strips.strips, self.strips.accessibleDescription(), self.strips.month)

    def _choose_axes(self) -> None:
        from keeper.window.month.axes_dialog import AxesDialog

        if self.view:
            dialog = AxesDialog(self.desk, {one.tracker.id for one in self.view.series}, self)
            dialog.exec()
            dialog.deleteLater()
