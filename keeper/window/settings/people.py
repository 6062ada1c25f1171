"""People whose names the person marked, in the settings: add, rename, let rest, take out."""

from collections.abc import Callable, Sequence

from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QLineEdit, QWidget

from keeper.actions import people
from keeper.actions.people import Named
from keeper.window.desk.desk import Desk
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.piecemeal import Piecemeal, few_at_a_time
from keeper.window.parts.small import label
from keeper.window.parts.typing.put_by import PutBy
from keeper.window.settings.box import begun
from keeper.window.settings.names_offered import NamesOffered
from keeper.window.settings.person_row import PersonRow

TOLD = (
    "Names you mark stay whole in themes, are mentioned in the month they first appear in, and are listed in the book. "
    "Several spellings of one name go with commas between them. A name you write with a capital is found only where it has one."
)
AT_A_TIME = 8


class PeopleBox(AsksAgain, QWidget):
    """The names, a field for another, and names that recur and might be marked.

    Who rests is not among them: they are under what rests. ``after`` is what
    one comes from with Tab.
    """

    def __init__(self, desk: Desk, after: QWidget) -> None:
        super().__init__()
        self._desk, self._after = desk, after
        self.rows: list[PersonRow] = []
        self._coming = Piecemeal(self)
        self.more = QLineEdit()
        self.more.setProperty("words", True)
        self.more.setPlaceholderText("Add a name")
        self.more.setAccessibleName("Add a name")
        self.more.returnPressed.connect(self._add)
        self.told = label("", "quiet")
        self.told.hide()
        self._more_words = PutBy(desk, self.more, "new name", tell=self._tell)
        self._more_words.show("", "")
        self._more_words.kept.connect(lambda *_: self.told.hide())
        self.offered = NamesOffered(desk, self.more)
        self.offered.taken.connect(lambda name: self._write(lambda store: people.add(store, name)))
        self._lay_out()
        desk.changed.connect(self.refresh)

    def _lay_out(self) -> None:
        body, self._list = begun(self, self._desk.look, "People", TOLD, 0.15)
        body.addLayout(self._list)
        body.addWidget(self.more)
        body.addWidget(self.told)
        body.addWidget(self.offered)

    # asking

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.ask()

    def ask(self) -> None:
        """Ask for what is shown."""
        self._desk.reader.run(lambda store, task: people.every(store), self._show)

    def _show(self, found: Sequence[Named]) -> None:
        awake = [one for one in found if not one.person.resting]
        if [row.person for row in self.rows] == [one.person for one in awake] and self._coming.over():
            for row, one in zip(self.rows, awake, strict=True):
                row.tell(one)
            return
        at = next((place for place, row in enumerate(self.rows) if row.has_focus()), None)
        self._clear()
        pieces = few_at_a_time(AT_A_TIME, self._add_row, awake)
        self._coming.begin(pieces, at_once=1 if at is None else len(pieces))
        if at is not None:
            (self.rows[min(at, len(self.rows) - 1)].name if self.rows else self.more).setFocus()

    def _clear(self) -> None:
        for row in self.rows:
            # Taken out of hearing first: a row that goes must not keep itself.
            row.name.blockSignals(True)
            self._list.removeWidget(row)
            row.hide()
            row.deleteLater()
        self.rows = []

    def _add_row(self, named: Named) -> None:
        row = PersonRow(self._desk, named, self._tell)
        row.name.editingFinished.connect(lambda: self._rename(row))
        row.words.kept.connect(lambda *_: self.told.hide())
        row.words.failed.connect(lambda _: row.name.setText(row.person.name))
        row.rest.clicked.connect(lambda _: self._let_rest(row))
        row.out.clicked.connect(lambda _: self._take_out(row))
        self._list.addWidget(row)
        self.setTabOrder(self.rows[-1].out if self.rows else self._after, row.name)
        for part, after in ((row.name, row.rest), (row.rest, row.out), (row.out, self.more)):
            self.setTabOrder(part, after)
        self.rows.append(row)

    # what the person decides

    def _add(self) -> None:
        self._more_words.add(people.add)

    def _tell(self, sentence: str) -> None:
        self.told.setText(sentence)
        self.told.show()

    def _rename(self, row: PersonRow) -> None:
        name, person = row.name.text(), row.person
        if not name.strip():
            row.name.setText(person.name)
        elif name != person.name:
            row.words.write(lambda store, name: people.rename(store, person.id, name))

    def _let_rest(self, row: PersonRow) -> None:
        said = f"Resting: {row.person.names[0]}. What speaks of them will not be brought up again; you can still find it, and wake it below."
        self._write(lambda store: people.rest(store, row.person.id), then=lambda: self._desk.said.emit(said))

    def _take_out(self, row: PersonRow) -> None:
        self._write(lambda store: people.take_out(store, row.person.id))

    def _write(self, work: Callable, then: Callable[[], None] = lambda: None) -> None:
        def done(_: object) -> None:
            self.told.hide()
            then()
            self._desk.changed.emit()

        def failed(error: Exception) -> None:
            self._tell(str(error))

        self._desk.write(work, done, failed)
