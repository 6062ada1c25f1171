"""Find: lines by their words, narrowed by controls, answered while typing."""

from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QListView, QPushButton, QVBoxLayout, QWidget

from keeper.actions import finding, reading
from keeper.actions.finding import Like, Sought
from keeper.days import last_of_month
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.timers import once_after
from keeper.window.find.beneath import Beneath
from keeper.window.find.besides import Besides
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.choice import Choice
from keeper.window.parts.errand import Errand
from keeper.window.parts.flow import Flow
from keeper.window.parts.found_list import FoundList, FoundModel
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import headed, in_the_middle, label, quiet_button
from keeper.window.parts.typing.date_edit import DateEdit, span_told

AT_ONCE = 50


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


class FindPage(BasicPage, AsksAgain, QWidget):
    """Words to look for, controls that narrow, answers below."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self._errand = Errand(desk.reader)
        self._beneath = Beneath(desk, self)
        self.besides = Besides(desk)
        self.like: Like | None = None
        self.model = FoundModel(self._more)
        self.answers = FoundList(desk.look, self.model, "Lines found")
        # A dozen rows are laid out at a time, so that no turn is long.
        self.answers.setLayoutMode(QListView.LayoutMode.Batched)
        self.answers.setBatchSize(12)
        self.answers.clicked.connect(self._open)
        self.answers.activated.connect(self._open)
        self.typed = _SoughtEdit(self.answers)
        self.typed.setPlaceholderText("Words, beginnings of words, \u201cexact words\u201d")
        self.typed.setAccessibleName("Words to find")
        self.typed.setProperty("sought", True)
        self.kind = self._choice("Kind", "any kind", [])
        self.place = self._choice("Place", "any place", [])
        self.theme = self._choice("Theme", "any theme", [])
        self.first = self._date("from")
        self.last = self._date("until")
        self.order = QPushButton("Newest first")
        self.order.setCheckable(True)
        self.order.setProperty("quiet", True)
        self.more_like = quiet_button("More like this", self._show_like, "More like the line chosen, from other years")
        self.more_like.setShortcut("Ctrl+M")
        self.dates_told = label("", "quiet")
        self.dates_told.hide()
        self.told = label("", "quiet")
        self._lay_out()
        self._connect()
        self.lead_with(self.typed)
        self.dress()

    def _lay_out(self) -> None:
        self.column = QWidget()
        self.body = body = QVBoxLayout(self.column)
        body.addWidget(self.typed)
        body.addWidget(Flow(self.desk.look, self.kind, self.place, self.theme, self.first, self.last, gap=1))
        # Until there are any.
        self.theme.hide()
        body.addWidget(self.dates_told)
        body.addWidget(self.besides)
        body.addLayout(headed(self.told, self.more_like, self.order))
        body.addWidget(self.answers, 1)
        self.setLayout(in_the_middle(self.column))

    def _connect(self) -> None:
        self._wait = once_after(self, 30, self._ask_anew)
        self.answers.selectionModel().currentChanged.connect(lambda *_: self._offer_like())
        self.model.modelReset.connect(self._offer_like)
        self._offer_like()
        for edit in (self.first, self.last):
            edit.textChanged.connect(lambda _: self._tell_dates())
        for edit in (self.typed, self.first, self.last):
            edit.textChanged.connect(lambda _: self._wait.start())
        for choice in (self.kind, self.place, self.theme):
            choice.currentIndexChanged.connect(lambda _: self._ask_anew())
        self.order.toggled.connect(self._on_order)
        self.desk.changed.connect(self.refresh)

    def dress(self) -> None:
        """Take up the typefaces and sizes in force."""
        px = self.desk.look.px
        self.column.setMaximumWidth(px(52))
        self.body.setContentsMargins(px(1.5), px(1.6), px(1.5), 0)
        self.body.setSpacing(px(0.6))
        for choice in (self.kind, self.place, self.theme):
            choice.setMaximumWidth(px(14))
        for edit in (self.first, self.last):
            edit.setFixedSize(px(8.5), self.kind.sizeHint().height())
        self.model.layoutChanged.emit()

    def show_night(self, night: date) -> None:
        """Bring the controls up to date and be ready to type."""
        self._fill_kinds()
        self._fill_places()
        self._fill_themes()
        self.typed.selectAll()
        self.ask()

    def show_thing(self, thing: Sought | Like) -> None:
        """Look for this, or for what is like a line."""
        if isinstance(thing, Like):
            self.look_for(Sought())
            self._look_like(thing)
        else:
            self.look_for(thing)

    def sought(self) -> Sought:
        """What is asked for; a date that is none narrows nothing."""
        first, last = self.first.meant_or_none(), self.last.meant_or_none()
        return Sought(
            typed=self.typed.text(),
            kind=self.kind.currentData() or "",
            place_id=self.place.currentData() or "",
            theme=self.theme.currentData() or None,
            first=first.first if first else None,
            last=last.last if last else None,
            best_first=self.order.isChecked(),
        )

    def look_for(self, sought: Sought) -> None:
        """Set words and controls to what is sought, and look for it."""
        self.like = None
        parts = (self.typed, self.kind, self.place, self.theme, self.first, self.last, self.order)
        for part in parts:
            part.blockSignals(True)
        self.typed.setText(sought.typed)
        for choice, value in ((self.kind, sought.kind), (self.place, sought.place_id), (self.theme, sought.theme)):
            choice.setCurrentIndex(max(0, choice.findData(value)))
        self.first.setText(_begin(sought.first))
        self.last.setText(_end(sought.last))
        self.order.setChecked(sought.best_first)
        for part in parts:
            part.blockSignals(False)
        self._wait.stop()
        self._tell_dates()
        self._on_order(sought.best_first)

    def ask(self) -> None:
        """Break off what is being looked for and look for this."""
        self._errand.stop()
        self._beneath.stop()
        self.besides.ask("" if self.like else self.typed.text())
        if self.like:
            self._beneath.ask_like(self.like, self._show_lines_like)
            return
        sought = self.sought()
        if not sought.typed.strip() and sought == Sought(typed=sought.typed, best_first=sought.best_first):
            self.model.show((), "", False)
            self.told.setText("")
            return
        self._errand.also(lambda store, task: finding.with_every_word(store, sought, AT_ONCE), lambda found: self._show(sought, found))
        self._errand.also(lambda store, task: finding.count_found(store, sought), self._tell)

    def _ask_anew(self) -> None:
        self.like = None
        self.ask()

    def _show(self, sought: Sought, found: tuple) -> None:
        self.model.show(found, sought.typed, len(found) == AT_ONCE)
        self.answers.scrollToTop()
        if not found:
            self.told.setText("Nothing found.")
        self._beneath.ask(sought, found, lambda near: self._show_nearest(found, near))

    def _show_nearest(self, found: tuple, near: tuple) -> None:
        self.model.append(near, False)
        if near and not found:
            self.told.setText("No line has every word." if len(self.typed.text().split()) > 1 else "No line has the word.")

    def _tell(self, number: int) -> None:
        if number:
            self.told.setText(wording.counted(number, "line"))

    def _look_like(self, like: Like) -> None:
        self.like = like
        self.ask()
        self.answers.setFocus()

    def _show_like(self) -> None:
        at = self.answers.currentIndex()
        if at.isValid():
            self._look_like(Like(self.model.at(at.row()).line))

    def _show_lines_like(self, found: tuple) -> None:
        self.model.show(found, "", False)
        self.answers.scrollToTop()
        told = f"the {self.like.line.kind} of {wording.long_date(self.like.line.night)}"
        self.told.setText(f"Like {told}, in other years" if found else f"Nothing in other years is like {told}.")

    def _offer_like(self) -> None:
        self.more_like.setVisible(self.answers.currentIndex().isValid())

    def _more(self) -> None:
        sought, shown = self.sought(), self.model.rowCount()
        self._errand.also(
            lambda store, task: finding.with_every_word(store, sought, AT_ONCE, shown),
            lambda found: self.model.append(found, len(found) == AT_ONCE),
        )

    def _open(self, index) -> None:
        self.desk.go("night", self.model.at(index.row()).line.night)

    def _on_order(self, best: bool) -> None:
        self.order.setText("Best match first" if best else "Newest first")
        self.ask()

    def _choice(self, name: str, anything: str, choices: list) -> Choice:
        made = Choice(self.desk.look, name)
        made.addItem(anything, "")
        for text, value in choices:
            made.addItem(text, value)
        return made

    def _date(self, word: str) -> DateEdit:
        made = DateEdit(self.desk, word.capitalize())
        made.setPlaceholderText(f"{word} a date")
        return made

    def _tell_dates(self) -> None:
        told = span_told(self.first, self.last, "from", "until")
        self.dates_told.setText(told)
        self.dates_told.setVisible(bool(told))

    def _fill_kinds(self) -> None:
        _fill(self.kind, [(kind.title, kind.key) for kind in reading.every_kind(self.desk.store)])

    def _fill_places(self) -> None:
        _fill(self.place, list(reading.place_names(self.desk.store)))

    def _fill_themes(self) -> None:
        _fill(self.theme, [(name, number) for number, name in finding.themes_and_parts(self.desk.store)])
        self.theme.setVisible(self.theme.count() > 1)


def _begin(day: date | None) -> str:
    """The first day sought as a person types it: a month where it begins one."""
    return "" if day is None else day.isoformat()[: 7 if day.day == 1 else 10]


def _end(day: date | None) -> str:
    return "" if day is None else day.isoformat()[: 7 if day == last_of_month(day) else 10]


def _fill(box: Choice, choices: list) -> None:
    """Offer these after the first, which is anything at all; what was chosen stays chosen."""
    if [(box.itemText(place), box.itemData(place)) for place in range(1, box.count())] == choices:
        return
    chosen = box.currentData()
    box.blockSignals(True)
    while box.count() > 1:
        box.removeItem(1)
    for text, value in choices:
        box.addItem(text, value)
    box.setCurrentIndex(max(0, box.findData(chosen)))
    box.blockSignals(False)
