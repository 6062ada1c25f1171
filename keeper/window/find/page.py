"""Find: lines by their words, narrowed by a sentence, answered while typing."""

from dataclasses import replace
from datetime import date
from itertools import pairwise

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QLineEdit, QListView, QPushButton, QVBoxLayout, QWidget

from keeper.actions.finding import Like, Sought, kept
from keeper.actions.finding.known import known
from keeper.days import last_of_month
from keeper.window.desk.desk import Desk
from keeper.window.desk.timers import once_after
from keeper.window.find.besides import Besides
from keeper.window.find.kept_row import KeptRow
from keeper.window.find.lines import LinesFound
from keeper.window.find.saving import SaveFound
from keeper.window.find.sentence import NarrowingSentence
from keeper.window.find.shown_as import ShownAs
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.errand import Errand
from keeper.window.parts.flow import Flow
from keeper.window.parts.low_window import LowWindow
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import in_the_middle, label, quiet_button
from keeper.window.parts.typing.date_edit import DateEdit, span_told

LOW = 36
"""Below so many heights of a letter a window is low, or its letters are large: lines found come first."""


class _SoughtEdit(QLineEdit):
    """Down goes to the answers."""

    def __init__(self, answers: QListView) -> None:
        super().__init__()
        self._answers = answers

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Down, Qt.Key.Key_Return, Qt.Key.Key_Enter) and self._answers.model().rowCount():
            self._answers.setFocus()
            self._answers.setCurrentIndex(self._answers.model().index(0, 0))
        else:
            super().keyPressEvent(event)


class FindPage(BasicPage, AsksAgain, LowWindow):
    """Words to look for, a sentence that narrows, answers below: as a list, on the map or by month; in the ribbon always."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look.stage)
        self.desk = desk
        self._known_errand = Errand(desk.seeker)
        self.besides = Besides(desk)
        self.like: Like | None = None
        self.lines = LinesFound(desk, self, self._stand_out)
        self.model, self.answers, self.told = self.lines.model, self.lines.list, self.lines.told
        self.answers.clicked.connect(self._open)
        self.answers.activated.connect(self._open)
        self.answers.later_wanted.connect(desk.later_wanted)
        self._low: bool | None = None
        self.shown_as = ShownAs(desk, self.answers)
        self.typed = _SoughtEdit(self.answers)
        self.typed.setPlaceholderText("Words, \u201cexact words\u201d, a sunday in \u2026")
        self.typed.setAccessibleName("Words to find")
        self.typed.setProperty("sought", True)
        self.first = self._date("from")
        self.last = self._date("until")
        self.sentence = NarrowingSentence(desk, self.first, self.last)
        self.kept = KeptRow(desk)
        self.order = QPushButton("Newest first")
        self.order.setCheckable(True)
        self.order.setProperty("quiet", True)
        self.more_like = quiet_button("More like this", self._show_like, "More like the line chosen, from other years")
        self.more_like.setShortcut("Ctrl+M")
        self.save = SaveFound(desk)
        self.earlier = quiet_button("Earlier wordings and what was taken out", self._show_earlier)
        self.dates_told = label("", "quiet")
        self.dates_told.hide()
        self._lay_out()
        self._connect()
        self.lead_with(self.typed)
        self.dress()

    def _lay_out(self) -> None:
        self.column = QWidget()
        self.body = body = QVBoxLayout(self.column)
        body.addWidget(self.typed)
        body.addWidget(self.sentence)
        body.addWidget(self.dates_told)
        body.addWidget(self.besides)
        body.addWidget(self.told)
        self.acts = Flow(self.desk.look, self.shown_as.choice, self.order, self.more_like, *self.kept.acts, self.save, self.earlier, gap=1)
        for part in self._parts():
            body.addWidget(part)
        body.setStretchFactor(self.shown_as, 1)
        self.within.setLayout(in_the_middle(self.column))

    def _parts(self) -> list[QWidget]:
        """What was found and what can be done with it; in a low window that stands beneath."""
        return [self.kept, self.shown_as, self.acts] if self._low else [self.acts, self.kept, self.shown_as]

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self._low != self._is_low():
            self._arrange()

    def _is_low(self) -> bool:
        return self.window().height() < self.desk.look.px(LOW)

    def _arrange(self) -> None:
        px = self.desk.look.px
        self._low = self._is_low()
        self.body.setContentsMargins(px(1.5), px(0.5 if self._low else 1.6), px(1.5), 0)
        self.body.setSpacing(px(0.3 if self._low else 0.6))
        self.besides.be_low(self._low)
        parts = self._parts()
        for part in parts:
            self.body.removeWidget(part)
        for part in parts:
            self.body.addWidget(part, 1 if part is self.shown_as else 0)
        self._order_tabs()

    def _order_tabs(self) -> None:
        earlier = self.shown_as.earlier.list
        reached = {self.kept: self.kept.things, self.acts: self.acts.things,
                   self.shown_as: [self.answers, self.shown_as.months, earlier, earlier.back, earlier.there]}  # fmt: skip
        for before, after in pairwise(widget for part in self._parts() for widget in reached[part]):
            self.setTabOrder(before, after)

    def _connect(self) -> None:
        self._wait = once_after(self, 30, self._ask_anew)
        self.answers.selectionModel().currentChanged.connect(lambda *_: self._offer_like())
        self.model.modelReset.connect(self._offer_like)
        self._offer_like()
        for edit in (self.first, self.last):
            edit.textChanged.connect(lambda _: self._tell_dates())
        for edit in (self.typed, self.first, self.last):
            edit.textChanged.connect(lambda _: self._wait.start())
        self.sentence.changed.connect(self._on_sentence)
        self.shown_as.chosen.connect(lambda: self._offer(True))
        self.kept.picked.connect(self.look_for)
        self.kept.written.connect(self.desk.changed)
        self.shown_as.month_picked.connect(self._narrow_to_month)
        self.shown_as.place_picked.connect(self._narrow_to_place)
        self.order.toggled.connect(self._on_order)
        self.desk.changed.connect(self.refresh)

    def dress(self) -> None:
        """Take up the typefaces and sizes in force."""
        px = self.desk.look.px
        self.column.setMaximumWidth(px(52))
        self._arrange()
        for edit in (self.first, self.last, self.sentence.only):
            edit.setFixedSize(px(8.5), self.shown_as.choice.sizeHint().height())
        self.shown_as.setMinimumHeight(px(12))
        self.kept.dress()
        self.shown_as.dress()
        self.model.layoutChanged.emit()

    def show_night(self, night: date) -> None:
        """Bring what can be said up to date and be ready to type."""
        self._learn()
        self.typed.selectAll()
        self.ask()

    def show_thing(self, thing: Sought | Like) -> None:
        """Look for this, or for what is like a line."""
        if isinstance(thing, Like):
            self.look_for(Sought())
            self._look_like(thing)
        else:
            self.look_for(thing)

    def refresh(self) -> None:
        """Something was written: ask again, for what can be said too."""
        if self.isVisible():
            self._learn()
            self._ask(again=True)

    def _learn(self) -> None:
        self._known_errand.anew(lambda store, task: (known(store), kept.every(store)), self._know)

    def _know(self, told: tuple) -> None:
        self.sentence.know(told[0])
        self.kept.show_kept(told[1])

    def sought(self) -> Sought:
        """What is asked for; a date that is none narrows nothing."""
        first, last = self.first.meant_or_none(), self.last.meant_or_none()
        return replace(
            self.sentence.sought, typed=self.typed.text(), first=first.first if first else None, last=last.last if last else None,
            best_first=self.order.isChecked(),
        )  # fmt: skip

    def look_for(self, sought: Sought) -> None:
        """Set words and phrases to what is sought, and look for it."""
        self.like = None
        parts = (self.typed, self.first, self.last, self.order)
        for part in parts:
            part.blockSignals(True)
        self.typed.setText(sought.typed)
        self.first.setText(_begin(sought.first))
        self.last.setText(_end(sought.last))
        self.order.setChecked(sought.best_first)
        for part in parts:
            part.blockSignals(False)
        self.sentence.show_sought(sought)
        self._wait.stop()
        self._tell_dates()
        self._on_order(sought.best_first)

    def ask(self) -> None:
        """Break off what is being looked for and look for this."""
        self.lines.forget()
        self._ask()

    def _ask(self, again: bool = False) -> None:
        self.lines.stop()
        sought = self.sought()
        self.besides.ask("" if self.like else sought.typed, sought)
        self.kept.show_sought(Sought() if self.like else sought)
        if self.like:
            self.shown_as.show_found(None)
            self.lines.ask_like(self.like, again)
            return
        asked = bool(sought.typed.strip()) or sought.narrowed
        self.save.sought = sought
        self.shown_as.show_found(sought if asked else None)
        self._offer(asked)
        if asked:
            self.lines.ask(sought, again)
        else:
            self.lines.show_none(sought)

    def _offer(self, asked: bool) -> None:
        for part in (self.shown_as.choice, self.save, self.earlier):
            part.setVisible(asked)
        self.order.setVisible(asked and self.shown_as.of_lines)

    def _on_sentence(self, sought: Sought) -> None:
        if sought.first or sought.last:
            # Nights have fields of their own.
            self.look_for(replace(sought, typed=self.typed.text(), best_first=self.order.isChecked()))
        else:
            self._ask_anew()

    def _ask_anew(self) -> None:
        self.like = None
        self.ask()

    def _stand_out(self, nights: frozenset[date] | None) -> None:
        if nights != self.only:
            self.only = nights
            self.desk.narrowed.emit()

    def _look_like(self, like: Like) -> None:
        self.like = like
        self.ask()
        self.answers.setFocus()

    def _show_like(self) -> None:
        at = self.answers.currentIndex()
        if at.isValid():
            self._look_like(Like(self.model.at(at.row()).line))

    def _offer_like(self) -> None:
        self.more_like.setVisible(self.answers.currentIndex().isValid() and self.shown_as.of_lines)

    def _show_earlier(self) -> None:
        self.more_like.hide()
        self.shown_as.show_earlier(self.typed.text())

    def _narrow_to_month(self, month: date) -> None:
        self.look_for(replace(self.sought(), first=month, last=last_of_month(month)))
        self.answers.setFocus()

    def _narrow_to_place(self, place_id: str) -> None:
        self.look_for(replace(self.sought(), places=(place_id,)))

    def _open(self, index) -> None:
        self.desk.go("night", self.model.at(index.row()).line.night)

    def _on_order(self, best: bool) -> None:
        self.order.setText("Best match first" if best else "Newest first")
        self.ask()

    def _date(self, word: str) -> DateEdit:
        made = DateEdit(self.desk, word.capitalize())
        made.setPlaceholderText(f"{word} a date")
        return made

    def _tell_dates(self) -> None:
        told = span_told(self.first, self.last, "from", "until")
        self.dates_told.setText(told)
        self.dates_told.setVisible(bool(told))


def _begin(day: date | None) -> str:
    """The first day sought as a person types it: a month where it begins one."""
    return "" if day is None else day.isoformat()[: 7 if day.day == 1 else 10]


def _end(day: date | None) -> str:
    return "" if day is None else day.isoformat()[: 7 if day == last_of_month(day) else 10]
