"""Go to a date: typed, or picked in a calendar."""

from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QIcon, QTextCharFormat
from PySide6.QtWidgets import QCalendarWidget, QDialog, QLineEdit, QToolButton, QVBoxLayout, QWidget

from keeper.days import FIRST_NIGHT, read_date
from keeper.errors import UnreadableDate
from keeper.window import wording
from keeper.window.desk import Desk
from keeper.window.look import weekday_that_begins
from keeper.window.parts import label, plain_button, row


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
        self.typed = QLineEdit(night.isoformat())
        self.typed.setAccessibleName("Date, as year-month-day")
        self.typed.setProperty("sought", True)
        self.typed.selectAll()
        self.typed.returnPressed.connect(self._take)
        self.typed.textEdited.connect(self._follow)
        self.told = label("Year-month-day, or pick it below.", "quiet")
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
        made.setDateRange(wording.qdate(FIRST_NIGHT), wording.qdate(self._desk.tonight()))
        made.setSelectedDate(wording.qdate(night))
        self._in_one_ink(made)
        made.clicked.connect(lambda day: self.typed.setText(day.toPython().isoformat()))
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
        return row(None, plain_button("Leave", self.reject), plain_button("Go", self._take))

    def _follow(self, typed: str) -> None:
        try:
            self.calendar.setSelectedDate(wording.qdate(read_date(typed, self._desk.tonight())))
        except UnreadableDate:
            return

    def _take(self) -> None:
        tonight = self._desk.tonight()
        try:
            night = read_date(self.typed.text(), tonight)
        except UnreadableDate as error:
            self.told.setText(str(error))
            return
        if night > tonight:
            self.told.setText("That night is still to come.")
            return
        self.night = night
        self.accept()
