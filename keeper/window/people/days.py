"""Somebody's days to remember: each with what can be done with it, and fields for one more."""

from collections.abc import Callable, Sequence

from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from keeper.actions.one_person import days
from keeper.dates.calendars import GREGORIAN, OTHERS
from keeper.model import DayToRemember
from keeper.window.desk.desk import Desk
from keeper.window.desk.own_spelling import own_spelling
from keeper.window.parts.choice import Choice
from keeper.window.parts.errand import Errand
from keeper.window.parts.flow import Flow
from keeper.window.parts.small import breakable, emptied, label, quiet_button
from keeper.window.parts.typing.put_by import PutBy
from keeper.window.people import wording as people_wording

_OF_THE_YEAR = "A day of the year, such as 12 March or 12 March 1958. Enter keeps it."


class DaysBox(QWidget):
    """The days, and a line to type another in: what it is, the date, the calendar it is said in."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._person_id = ""
        self._shown: tuple[DayToRemember, ...] | None = None
        self._errand = Errand(desk.reader)
        self.rows: list[DayRow] = []
        self.what = QLineEdit()
        self.what.setPlaceholderText("birthday")
        self.what.setAccessibleName("What day it is")
        self.what.setAccessibleDescription("Left empty it is the birthday.")
        self.when = QLineEdit()
        self.when.setPlaceholderText("12 March 1958")
        self.when.setAccessibleName("Date of the day")
        self.when.setAccessibleDescription(_OF_THE_YEAR)
        self.calendar = Choice(desk.look, "Calendar")
        for name in (GREGORIAN, *OTHERS):
            self.calendar.addItem(name, name)
        self.add = quiet_button("Remember", self._add, "Remember this day")
        self.told = label("", "quiet")
        self.told.hide()
        self.words = PutBy(desk, self.when, "day to remember", tell=self._tell)
        self._lay_out()
        for edit in (self.what, self.when):
            edit.returnPressed.connect(self._add)
        self.when.textChanged.connect(lambda _: self._understand())
        self.calendar.currentIndexChanged.connect(lambda _: self._understand())
        self.words.kept.connect(self._on_kept)

    def _lay_out(self) -> None:
        body = QVBoxLayout(self)
        body.setContentsMargins(0, 0, 0, 0)
        body.setSpacing(self._desk.look.px(0.15))
        self._list = QVBoxLayout()
        self._list.setSpacing(0)
        body.addLayout(self._list)
        body.addWidget(Flow(self._desk.look, label("A day to remember:", "quiet", wrap=False), self.what, self.when, self.calendar, self.add, gap=0.6))
        body.addWidget(self.told)
        self.fit()

    def fit(self) -> None:
        """Take up the text size in force."""
        px = self._desk.look.px
        high = self.calendar.sizeHint().height()
        self.what.setFixedSize(px(8), high)
        self.when.setFixedSize(px(12), high)
        self.calendar.setMaximumWidth(px(10))

    def show_days(self, person_id: str, shown: tuple[DayToRemember, ...]) -> None:
        """Show the days of somebody."""
        if person_id != self._person_id:
            self._person_id = person_id
            self.what.clear()
            self.calendar.setCurrentIndex(0)
            self.told.hide()
            self.words.show(person_id, "")
        elif shown == self._shown:
            return
        self._shown = shown
        at = next(((place, name) for place, row in enumerate(self.rows) for name in row.has_focus()), None)
        emptied(self._list)
        self.rows = [DayRow(self._desk, one) for one in shown]
        for row in self.rows:
            self._list.addWidget(row)
        if at is not None:
            (self.rows[min(at[0], len(self.rows) - 1)].part(at[1]) if self.rows else self.what).setFocus()

    def buttons(self) -> list[QWidget]:
        """What can be done with the days, in its order."""
        return [part for row in self.rows for part in row.buttons()]

    # typing

    def _understand(self) -> None:
        self._errand.stop()
        typed = self.when.text().strip()
        if not typed:
            self.told.hide()
            return
        tonight, spelling, calendar = self._desk.tonight(), own_spelling(), self.calendar.currentData()
        # Other calendars are brought in when first asked for, which takes a while.
        self._errand.anew(
            lambda store, task: days.meant(typed, tonight, spelling, calendar), self._tell, lambda error: self._tell(str(error))
        )

    def _tell(self, sentence: str) -> None:
        self.told.setText(breakable(sentence))
        self.told.setVisible(bool(sentence))

    def _add(self) -> None:
        if not self.when.text().strip():
            self.when.setFocus()
            return
        self._errand.stop()
        person_id, what, calendar = self._person_id, self.what.text(), self.calendar.currentData()
        tonight, spelling = self._desk.tonight(), own_spelling()
        self.words.add(lambda store, typed: days.remember(store, person_id, what, typed, tonight, spelling, calendar))

    def _on_kept(self, *_: object) -> None:
        self._tell("")
        self.what.clear()
        self.calendar.setCurrentIndex(0)


class DayRow(Flow):
    """One day: what and when it is, whether it is told on Tonight, and out with it."""

    def __init__(self, desk: Desk, one: DayToRemember) -> None:
        self._desk, self.one = desk, one
        called = people_wording.of_day(one)
        self.told = label(f"{called}: {people_wording.day(one)}", wrap=False)
        self.told.setToolTip("")
        self.tell = quiet_button(
            "Told on Tonight" if one.told else "Tell on Tonight", self._tell_or_not,
            f"No longer tell {called} on Tonight" if one.told else f"Tell {called} on Tonight, that morning and the week before",
        )  # fmt: skip
        self.tell.setToolTip("That morning, and the week before." if not one.told else "Press to tell it no longer.")
        other = "28 February" if one.after else "1 March"
        self.leap = quiet_button(people_wording.in_other_years(one), self._fall, f"{called} on {other} in other years")
        self.leap.setToolTip(f"Press for {other}.")
        self.out = quiet_button("Remove", self._take_out, f"Remove {called}")
        super().__init__(desk.look, self.told, self.tell, self.leap, self.out, gap=1.0)
        self.leap.setVisible(one.is_leap_day)

    def buttons(self) -> Sequence[QWidget]:
        """What can be pressed, in its order."""
        return (self.tell, self.leap, self.out)

    def has_focus(self) -> list[int]:
        """Which of these has the focus, if any."""
        return [place for place, part in enumerate(self.buttons()) if part.hasFocus()]

    def part(self, place: int) -> QWidget:
        """The one in this place, or the first where it is not seen."""
        found = self.buttons()[place]
        return self.tell if found.isHidden() else found

    def _tell_or_not(self) -> None:
        self._write(lambda store: days.tell(store, self.one.id, not self.one.told))

    def _fall(self) -> None:
        self._write(lambda store: days.fall_after(store, self.one.id, not self.one.after))

    def _take_out(self) -> None:
        self._write(lambda store: days.take_out(store, self.one.id))

    def _write(self, work: Callable) -> None:
        desk = self._desk
        desk.write(work, lambda _: desk.changed.emit())
