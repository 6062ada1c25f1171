"""A page to send: of what, in which form, and what is in it."""

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QGridLayout, QStackedLayout, QWidget

from keeper.actions import reading
from keeper.actions.sending.wanted import SentWanted
from keeper.dates.written import month_and_year
from keeper.errors import KeeperError, UnknownThing, shown_name
from keeper.window.desk.desk import Desk
from keeper.window.desk.lanes import Task
from keeper.window.parts.choice import Choice
from keeper.window.parts.errand import Errand
from keeper.window.parts.flow import Flow
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import Paper, label, quiet_button, row
from keeper.window.parts.typing.date_edit import DateEdit, in_words
from keeper.window.printing import wording
from keeper.window.printing.under_way import UnderWay, ask_where

if TYPE_CHECKING:
    from keeper.actions.sending.making import PageSent

_BOXES = {"photos": "Photos", "positions": "Where you were", "readings": "Readings", "resting": "What rests"}

Names = dict[str, tuple[str, ...]]


def names_to_send(store) -> Names:
    """The names of themes, places and people that can be sent."""
    # Much comes in with these: not on the window's thread.
    from keeper.actions import people
    from keeper.actions.themes import asking as themes

    return {
        "theme": tuple(name for _, name in themes.names(store)),
        "place": tuple(name for name, _ in reading.place_names(store)),
        "person": tuple(one.person.names[0] for one in people.every(store) if one.person.names),
    }


class SendLeaf(BasicPage, Paper):
    """Asks of what a page to send is made, and saves it; ``left`` leads back."""

    left = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look)
        self.desk, self.night = desk, desk.tonight()
        self._names: Names = {}
        self._wished = ""
        self._errand = Errand(desk.reader)
        self.back = quiet_button("\u2039 Back", self.left.emit, "Back to pages to print")
        self.what, self.form = self._choice("What to send", wording.SENT), self._choice("As what", wording.FORMATS)
        self.when, self.name = DateEdit(desk, "Which month or year"), Choice(desk.look, "Which one")
        self.understood = label("", "quiet")
        self.boxes = {part: QCheckBox(words) for part, words in _BOXES.items()}
        self.boxes["photos"].setChecked(True)
        self.save_button = quiet_button("Save\u2026", self.save, "Save the page to send")
        self.under_way = UnderWay(desk, self.save_button)
        self._lay_out()
        self.lead_with(self.what)
        self.setAccessibleName("A page to send")
        self.what.currentIndexChanged.connect(lambda _: self._follow())
        self.when.textEdited.connect(lambda _: self._follow())
        self._follow()

    def _choice(self, name: str, choices: dict[str, str]) -> Choice:
        made = Choice(self.desk.look, name)
        for value, words in choices.items():
            made.addItem(words, value)
        return made

    def _lay_out(self) -> None:
        px = self.desk.look.px
        self._which = QWidget()
        self._stack = QStackedLayout(self._which)
        self._stack.addWidget(self.when)
        self._stack.addWidget(self.name)
        grid = QGridLayout()
        grid.setHorizontalSpacing(px(1.2))
        grid.setVerticalSpacing(px(0.5))
        grid.setColumnStretch(1, 1)
        boxes = Flow(self.desk.look, *self.boxes.values(), gap=1.2)
        rows = (("Send", self.what), ("Which", self._which), ("", self.understood), ("As", self.form), ("With", boxes))
        for number, (words, field) in enumerate(rows):
            if words:
                grid.addWidget(label(words, "quiet", wrap=False), number, 0)
            grid.addWidget(field, number, 1)
        self.body.addLayout(row(self.back, None))
        self.body.addWidget(label("A page to send", "head"))
        self.body.addWidget(label(wording.SENT_TOLD, "quiet"))
        self.body.addLayout(grid)
        self.body.addSpacing(px(0.6))
        self.body.addWidget(self.under_way)
        self.body.addStretch(1)

    # choosing

    def show_night(self, night: date) -> None:
        """Offer the month or the year the window is on, and ask for the names there are."""
        self.night = night
        self.when.setPlaceholderText(month_and_year(night))
        self._errand.anew(lambda store, task: names_to_send(store), self._take_names)

    def choose(self, what: str, name: str) -> None:
        """Offer a certain thing; a month or a year by the night shown."""
        self._wished = name
        self.what.setCurrentIndex(self.what.findData(what))
        self.when.clear()
        self._follow()

    def _take_names(self, names: Names) -> None:
        self._names = names
        self._follow()

    def _follow(self) -> None:
        what = self.what.currentData()
        spans = what in ("month", "year")
        self._stack.setCurrentWidget(self.when if spans else self.name)
        self.boxes["readings"].setEnabled(spans)
        # What stands for a year is chosen among what is awake.
        self.boxes["resting"].setEnabled(what != "year")
        if not spans:
            had = self._wished or self.name.currentText()
            self.name.clear()
            self.name.addItems(self._names.get(what, ()))
            self.name.setCurrentIndex(max(self.name.findText(had), 0))
        self.understood.setText(self._meant() if spans else "" if self.name.count() else "There is none yet.")
        self.understood.setVisible(bool(self.understood.text()))

    def _meant(self) -> str:
        meant = self.when.meant_or_none()
        if meant is None:
            return "Such as June 2019, or 2019." if self.when.text().strip() else ""
        return str(meant.first.year) if self.what.currentData() == "year" else in_words(meant)

    def wanted(self) -> SentWanted:
        """What is asked for. Raises UnreadableDate, UnknownThing."""
        what = self.what.currentData()
        on = {part: box.isChecked() and box.isEnabled() for part, box in self.boxes.items()}
        if what in ("month", "year"):
            meant = self.when.meant()
            return SentWanted(what, meant.first if meant else self.night, **on)
        if not self.name.currentText():
            raise UnknownThing("There is none yet.")
        return SentWanted(what, None, self.name.currentText(), **on)

    # making

    def save(self) -> None:
        """Ask where the page is to lie, and make it."""
        try:
            wanted = self.wanted()
        except KeeperError as error:
            self.under_way.tell(str(error))
            return
        ending = self.form.currentData()
        target = ask_where(self, "Save the page", _file_name(wanted), ending, ending[1:].upper())
        if target is None:
            return

        def work(store, task: Task) -> "PageSent":
            from keeper.actions.sending import making

            return making.make_sent(store, wanted, target, task.progress, task.stopped)

        self.under_way.begin(work, self._saved)

    def _saved(self, made: "PageSent") -> str:
        self.under_way.saved = made.path
        return " ".join((f"Saved as {shown_name(made.path)}.", *made.left_out))


def _file_name(wanted: SentWanted) -> str:
    if wanted.month:
        return f"{wanted.month:%Y-%m}" if wanted.what == "month" else str(wanted.month.year)
    plain = "".join(letter if letter.isalnum() or letter in " -," else " " for letter in wanted.name)
    return Path(" ".join(plain.split())[:60] or "page").name
