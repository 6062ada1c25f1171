"""Go to a date: typed, or picked in a calendar."""

from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QIcon, QTextCharFormat
from PySide6.QtWidgets import QCalendarWidget, QDialog, QToolButton, QVBoxLayout, QWidget

from keeper.days import FIRST_NIGHT
from keeper.errors import UnreadableDate
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.look import weekday_that_begins
from keeper.window.parts.small import label, plain_button, row
from keeper.window.parts.typing.date_edit import SUCH_AS, DateEdit

HOW = f"A date, such as {SUCH_AS}; or pick it below."


class GoToDialog(QDialog):
    """Asks for a night; ``night`` is the answer."""

    def __init__(self, desk: Desk, night: date, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self.night = night
        self.setWindowTitle("Go to a night")
        layout = QVBoxLayout(self)
        px = desk.look.px
        layout.setContentsMargins(px(1.4), px(1.2), px(1.4), px(1.2))
        layout.setSpacing(px(0.6))
        self.typed = DateEdit(desk, "Date")
        self.typed.setText(wording.full_date(night))
        self.typed.setProperty("sought", True)
        self.typed.selectAll()
        self.typed.returnPressed.connect(self._take)
        self.typed.textChanged.connect(self._follow)
        self.told = label(wording.long_date(night), "quiet")
        self.calendar = self._calendar(night)
        layout.addWidget(self.typed)
        layout.addWidget(self.told)
        layout.addWidget(self.calendar)
        layout.addLayout(self._buttons())

    def _calendar(self, night: date) -> QCalendarWidget:
        made = QCalendarWidget()
        made.setFirstDayOfWeek(weekday_that_begins(self._desk.kept))
        made.setVerticalHeaderFormat(QCalendarWidget.VerticalHeaderFormat.NoVerticalHeader)
        made.setHorizontalHeaderFormat(QCalendarWidget.HorizontalHeaderFormat.ShortDayNames)
        made.setDateRange(wording.qdate(FIRST_NIGHT), wording.qdate(self._desk.latest_night()))
        made.setSelectedDate(wording.qdate(night))
        self._in_one_ink(made)
        made.clicked.connect(lambda day: self.typed.setText(wording.full_date(day.toPython())))
        made.activated.connect(lambda _: self._take())
        return made

    def _in_one_ink(self, calendar: QCalendarWidget) -> None:
        plain = QTextCharFormat()
        plain.setForeground(QColor(self._desk.look.palette.ink))
        for day in (Qt.DayOfWeek.Saturday, Qt.DayOfWeek.Sunday):
            calendar.setWeekdayTextFormat(day, plain)
        for name, sign, told in (("prev", "\u2039", "The month before"), ("next", "\u203a", "The month after")):
            button = calendar.findChild(QToolButton, f"qt_calendar_{name}month")
            button.setIcon(QIcon())
            button.setText(sign)
            button.setAccessibleName(told)

    def _buttons(self):
        return row(None, plain_button("Cancel", self.reject), plain_button("Go", self._take))

    def _follow(self) -> None:
        meant = self.typed.meant_or_none()
        if meant is None:
            # While it is being typed a date is none yet; Enter says why.
            self.told.setText(HOW)
            return
        # Of a month or a year it is the first night.
        self.told.setText(wording.long_date(meant.first))
        self.calendar.setSelectedDate(wording.qdate(meant.first))

    def _take(self) -> None:
        tonight = self._desk.tonight()
        try:
            meant = self.typed.meant()
        except UnreadableDate as error:
            self.told.setText(str(error))
            return
        night = meant.first if meant else tonight
        if night > self._desk.latest_night():
            self.told.setText("That night is still to come.")
            return
        self.night = night
        self.accept()
