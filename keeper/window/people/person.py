"""A person's own page: who they are, their days, when and where they were named, with whom, and the lines."""

from itertools import pairwise

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from keeper.actions import people
from keeper.actions.finding import Sought
from keeper.actions.one_person import days, page
from keeper.actions.one_person.page import PersonAround, PersonPage
from keeper.errors import KeeperError
from keeper.model import Found, Person
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.errand import Errand
from keeper.window.parts.flow import Flow
from keeper.window.parts.found_list import FoundList, FoundModel
from keeper.window.parts.page import BasicPage
from keeper.window.parts.photos.links import PhotoLinks
from keeper.window.parts.photos.where_room import PhotosWhereRoom
from keeper.window.parts.small import breakable, emptied, in_the_middle, label, plainly, quiet_button, row
from keeper.window.parts.tips import plain_tip
from keeper.window.parts.typing.put_by import PutBy
from keeper.window.people import wording as people_wording
from keeper.window.people.days import DaysBox
from keeper.window.people.months_strip import MonthsStrip

AT_ONCE, PHOTOS = 50, 6
_LONGEST = 40

# A name that runs from the right stands where the page begins.
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignAbsolute | Qt.AlignmentFlag.AlignVCenter


class PersonLeaf(BasicPage, AsksAgain, PhotosWhereRoom):
    """One person.

    ``left`` comes when one goes back to everybody, ``person_wanted`` with the
    id of another to be shown, ``narrowed`` with the nights of the lines.
    """

    left = Signal()
    person_wanted = Signal(str)
    narrowed = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self.person_id = ""
        self.view: PersonPage | None = None
        self.around = PersonAround()
        self._ways: list[QWidget] = []
        self._errand = Errand(desk.reader)
        self.back = quiet_button("\u2039 all people", self.left.emit, "Back to all people")
        self.heading, self.facts = label("", "head"), label("", "quiet")
        self.about = _edit("Who this is, in a line", "Who this is")
        self.about.setProperty("words", True)
        self.about_words = PutBy(desk, self.about, "about a person", at_once=days.describe)
        self.spellings = _edit("Spellings of the name, with commas between", "Spellings of the name")
        self.name_words = PutBy(desk, self.spellings, "name", tell=self._tell)
        self.told = label("", "quiet")
        self.told.hide()
        self.days = DaysBox(desk)
        self.months = MonthsStrip(desk.look)
        self.places, self.together = QVBoxLayout(), QVBoxLayout()
        self.photos = PhotoLinks(desk, 5)
        self.rest = quiet_button("Let rest", self._rest_or_wake)
        self.find = quiet_button("In Find", self._find, "Look for this name in Find")
        self.send = quiet_button("Send\u2026", self._send, "Make this person into a page to send")
        self.out = quiet_button("No longer marked", self._take_out, "Mark this name no longer; lines stay as they are")
        self.model = FoundModel(self._more)
        self.lines = FoundList(desk.look, self.model, "Lines with this name")
        self._lay_out()
        self._connect()
        self.heading.setAlignment(_LEFT)

    def _lay_out(self) -> None:
        self.column = QWidget()
        self.body = body = QVBoxLayout(self.column)
        body.addLayout(row(self.back, None))
        for part in (self.heading, self.about, self.facts, self.months):
            body.addWidget(part)
        for part in (self.places, self.together, self.photos):
            body.addLayout(part)
        body.addWidget(self.days)
        spelt = label("Spellings:", "quiet", wrap=False)
        body.addWidget(Flow(self.desk.look, spelt, self.spellings, self.rest, self.find, self.send, self.out, gap=0.9))
        body.addWidget(self.told)
        body.addWidget(self.lines, 1)
        body.addStretch(0)
        self.within.setLayout(in_the_middle(self.column))
        self.dress()

    def _connect(self) -> None:
        self.lines.clicked.connect(self._open)
        self.lines.activated.connect(self._open)
        self.months.picked.connect(lambda month: self.desk.go("month", month))
        self.spellings.editingFinished.connect(self._rename)
        self.name_words.kept.connect(lambda *_: self.told.hide())
        self.desk.changed.connect(self.refresh)
        self.desk.dressed.connect(self.dress)

    def dress(self) -> None:
        """Take up the palette and sizes in force."""
        px = self.desk.look.px
        self.column.setMaximumWidth(px(52))
        self.body.setContentsMargins(px(1.5), px(1.0), px(1.5), 0)
        self.body.setSpacing(px(0.35))
        self.lines.setMinimumHeight(px(14))
        self.days.fit()
        self.spellings.setFixedSize(px(16), self.days.calendar.sizeHint().height())
        self.months.updateGeometry()
        self.model.layoutChanged.emit()

    def setFocus(self, *why: object) -> None:
        (self.about if self.view and not self.view.numbers else self.lines).setFocus()

    # asking

    def show_person(self, person_id: str) -> None:
        """Show somebody."""
        if person_id != self.person_id:
            self._rename()
            self.person_id, self.view, self.around = person_id, None, PersonAround()
            self.model.show((), "", False)
            self.photos.stop()
            self._ways = []
            for part in (self.photos, self.places, self.together):
                emptied(part)
            # What is told of another is not to be taken for this one's.
            for part in (self.heading, self.facts):
                part.clear()
            for part in (self.months, self.days):
                part.hide()
            self.verticalScrollBar().setValue(0)
            # Until it is known whether there are any, the keys have somewhere to be.
            self.lines.show()
        self.ask()

    def ask(self) -> None:
        """Ask for what is known of them, then for their lines and photos, where they were and with whom."""
        person_id = self.person_id
        self._errand.anew(lambda store, task: page.person_page(store, person_id), self._show, self._gone)
        self._errand.also(lambda store, task: page.photos_of(store, person_id, PHOTOS), self._show_photos)
        self._errand.also(lambda store, task: page.around(store, person_id), self._show_around, lambda error: None)

    def _gone(self, error: KeeperError) -> None:
        if self.isVisible():
            self.desk.said.emit(str(error))
            self.left.emit()

    def _show(self, view: PersonPage) -> None:
        self.view, person = view, view.person
        tonight = self.desk.tonight()
        self.heading.setText(breakable(person.names[0] if person.names else person.name))
        self.about_words.show(person.id, view.about)
        self.about.setToolTip(plain_tip(view.about))
        self.name_words.show(person.id, person.name)
        resting = " \u00b7 resting" if person.resting else ""
        self.facts.setText(people_wording.named(view, tonight) + resting)
        self.months.show_months(view.months, tonight, people_wording.months(view))
        self.days.show_days(person.id, view.days)
        self.days.show()
        self.rest.setText("Wake" if person.resting else "Let rest")
        self.rest.setAccessibleName("Let this person be brought up again" if person.resting else "Let this person rest")
        for way in (self.find, self.send):
            way.setVisible(bool(view.numbers))
        self._order_tabs()
        self._show_lines(view)
        self.narrowed.emit(frozenset(view.nights))

    def _show_around(self, around: PersonAround) -> None:
        # Made anew only if they are others: one of them may have the focus.
        if around != self.around:
            self.around = around
            self._show_ways(around)
            self._order_tabs()

    def _show_ways(self, around: PersonAround) -> None:
        places = [self._way(name, nights, f"{name}, {wording.counted(nights, 'night')}", lambda its=its: self.desk.go("places", None, its))
                  for its, name, nights in around.places]  # fmt: skip
        others = [self._way(one.names[0], lines, f"{one.names[0]}, together in {wording.counted(lines, 'line')}",
                            lambda one=one: self.person_wanted.emit(one.id)) for one, lines in around.together]  # fmt: skip
        _fill(self.desk, self.places, "At", places)
        _fill(self.desk, self.together, "With", others)
        self._ways = [*places, *others]

    def _order_tabs(self) -> None:
        # Made later than what comes after them, they would be reached last.
        parts = [self.months, *self._ways, *self.photos.shown(), *self.days.buttons(), self.days.what]
        for before, after in pairwise(parts):
            self.setTabOrder(before, after)

    def _way(self, name: str, many: int, told: str, go) -> QWidget:
        short = name if len(name) <= _LONGEST else name[: _LONGEST - 1].rstrip() + "\u2026"
        return quiet_button(plainly(f"{short} \u00b7 {many}"), go, told)

    # lines

    def _show_lines(self, view: PersonPage) -> None:
        had = self.lines.hasFocus()
        self.lines.setVisible(bool(view.numbers))
        # Else the rest of the page would be drawn apart.
        self.body.setStretch(self.body.count() - 1, 0 if view.numbers else 1)
        if had and not view.numbers:
            self.about.setFocus()
        shown = view.numbers[: max(AT_ONCE, self.model.rowCount())]
        self._errand.also(lambda store, task: page.lines_of(store, shown), lambda found: self._put_lines(found, view))

    def _put_lines(self, found: tuple[Found, ...], view: PersonPage) -> None:
        at, scrolled = self.lines.currentIndex().row(), self.lines.verticalScrollBar().value()
        self.model.show(found, _sought(view.person), len(found) < len(view.numbers))
        if 0 <= at < self.model.rowCount():
            self.lines.setCurrentIndex(self.model.index(at, 0))
        self.lines.verticalScrollBar().setValue(scrolled)

    def _more(self) -> None:
        view, shown = self.view, self.model.rowCount()
        if view is None:
            return
        numbers = view.numbers[shown : shown + AT_ONCE]
        self._errand.also(
            lambda store, task: page.lines_of(store, numbers),
            lambda found: self.model.append(found, shown + len(numbers) < len(view.numbers)),
        )

    def _open(self, index) -> None:
        self.desk.go("night", self.model.at(index.row()).line.night)

    # what is decided

    def _tell(self, sentence: str) -> None:
        self.told.setText(breakable(sentence))
        self.told.show()

    def keep(self) -> None:
        """The name half written is kept as it stands."""
        self._rename()

    def _rename(self) -> None:
        if self.view is None:
            return
        name, person = self.spellings.text(), self.view.person
        if not name.strip():
            self.name_words.put(person.name)
            self.name_words.forget()
        elif name != person.name:
            self.name_words.write(lambda store, name: people.rename(store, person.id, name))

    def _find(self) -> None:
        if self.view:
            self.desk.go("find", None, Sought(typed=f'"{self.view.person.names[0]}"'))

    def _send(self) -> None:
        if self.view:
            self.desk.go("printing", None, ("person", self.view.person.names[0]))

    def _rest_or_wake(self) -> None:
        if self.view:
            person = self.view.person
            said = (f"Awake: {person.names[0]}." if person.resting else
                    f"Resting: {person.names[0]}. What speaks of them will not be brought up again; you can still find it.")  # fmt: skip
            self._write(lambda store: (people.wake if person.resting else people.rest)(store, person.id), said)

    def _take_out(self) -> None:
        if self.view:
            person = self.view.person
            self._write(lambda store: people.take_out(store, person.id), f"No longer marked: {person.names[0]}.", self.left.emit)

    def _write(self, work, said: str, then=lambda: None) -> None:
        def done(_: object) -> None:
            self.desk.said.emit(said)
            then()
            self.desk.changed.emit()

        self.desk.write(work, done)


def _edit(placeholder: str, name: str) -> QLineEdit:
    made = QLineEdit()
    made.setPlaceholderText(placeholder)
    made.setAccessibleName(name)
    return made


def _fill(desk: Desk, into: QVBoxLayout, word: str, ways: list[QWidget]) -> None:
    emptied(into)
    if ways:
        into.addWidget(Flow(desk.look, label(word, "quiet", wrap=False), *ways, gap=0.8))


def _sought(person: Person) -> str:
    return " ".join(f'"{name}"' for name in person.names)
