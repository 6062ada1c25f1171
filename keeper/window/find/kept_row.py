"""Searches kept under a name: those there are, and keeping, renaming or forgetting the one that is shown."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QPushButton

from keeper.actions.finding import Sought, kept
from keeper.actions.finding.kept import KeptSearch
from keeper.window.desk.desk import Desk
from keeper.window.parts.flow import Flow
from keeper.window.parts.small import label, plainly, quiet_button
from keeper.window.parts.typing.put_by import PutBy


class _NameEdit(QLineEdit):
    """Escape leaves it."""

    left = Signal()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)


class KeptRow(Flow):
    """The names; ``acts`` are buttons for the search that is shown, to be laid where they belong.

    ``picked`` comes with a search to be shown, ``written`` when a search was kept, renamed or forgotten.
    """

    picked = Signal(object)
    written = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look, gap=0.8)
        self._desk = desk
        self.there: tuple[KeptSearch, ...] = ()
        self.sought = Sought()
        self._renaming: KeptSearch | None = None
        self.heading = label("", "quiet", wrap=False)
        self.keep = quiet_button("Keep this search\u2026", lambda: self._ask_name(None), "Keep this search under a name")
        self.rename = quiet_button("Rename\u2026", lambda: self._ask_name(self.shown()), "Give this search another name")
        self.forget = quiet_button("Forget", self._forget, "Forget this search")
        self.name = _NameEdit()
        self.name.setPlaceholderText("a name for it")
        self.name.setAccessibleName("Name of the search")
        self.name.setMaxLength(kept.LONGEST)
        self._words = PutBy(desk, self.name, "search's name")
        self._words.kept.connect(lambda *_: self._on_kept())
        self.name.returnPressed.connect(self._keep)
        self.name.left.connect(self._leave_name)
        self.names: list[QPushButton] = []
        self.acts = (self.keep, self.rename, self.forget)
        self.show_things(self.heading, self.name)
        # The row shows whatever is put into it.
        self.name.hide()
        self.show_sought(Sought())

    def dress(self) -> None:
        """Take up the sizes in force."""
        self.name.setFixedWidth(self._desk.look.px(14))

    def show_kept(self, there: tuple[KeptSearch, ...]) -> None:
        """What is kept now."""
        self.there = there
        self.show_sought(self.sought)

    def show_sought(self, sought: Sought) -> None:
        """What is looked for now: with nothing, all that are kept are offered."""
        self.sought = sought
        one, empty = self.shown(), not sought.typed.strip() and not sought.narrowed
        names = self.there if empty else ()
        if [button.accessibleName() for button in self.names] != [f"Find again: {kept.name}" for kept in names]:
            self.names = [self._button(kept) for kept in names]
            self.show_things(self.heading, *self.names, self.name)
        self.heading.setText("Kept searches" if names else f"Kept as \u201c{one.name}\u201d" if one else "")
        naming = not self.name.isHidden()
        self.heading.setVisible(bool(self.heading.text()) and not naming)
        self.keep.setVisible(not empty and one is None and not naming)
        for button in (self.rename, self.forget):
            button.setVisible(one is not None and not naming)
        self.setVisible(bool(self.heading.text()) or naming)
        # What was shown while the row was not seen has no room yet.
        self.show_things(*self.things)

    def shown(self) -> KeptSearch | None:
        """The kept search that is looked for now, if it is one."""
        return next((one for one in self.there if one.sought == self.sought), None)

    def _button(self, one: KeptSearch) -> QPushButton:
        made = quiet_button(plainly(one.name), lambda: self.picked.emit(one.sought), f"Find again: {one.name}")
        made.setProperty("named", True)
        return made

    def _ask_name(self, one: KeptSearch | None) -> None:
        self._renaming = one
        # What was typed when the window was last killed is there again.
        self._words.show(one.id if one else "", one.name if one else "")
        self._show_name(True)
        self.name.setFocus()
        self.name.selectAll()

    def _leave_name(self) -> None:
        self._give_up()
        self._show_name(False)
        (self.rename if self.shown() else self.keep).setFocus()

    def _keep(self) -> None:
        sought, one = self.sought, self._renaming
        work = (lambda store, name: kept.rename(store, one, name)) if one else (lambda store, name: kept.keep(store, name, sought))
        self._words.write(work, anyway=True)

    def _show_name(self, shown: bool) -> None:
        self.name.setVisible(shown)
        self.show_sought(self.sought)

    def _on_kept(self) -> None:
        self._give_up()
        self._show_name(False)

    def _give_up(self) -> None:
        self._words.forget()
        # The next search begins without a name.
        self._words.show(self._words.key[1], "")
        self._words.put("")

    def _forget(self) -> None:
        one = self.shown()
        if one:
            self._desk.write(lambda store: kept.forget(store, one), lambda _: self.written.emit())
