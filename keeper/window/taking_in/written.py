"""How a file is written, as it was guessed, for the person to say otherwise."""

from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QVBoxLayout, QWidget

from keeper.actions.taking_in import told
from keeper.exchange.tables.encoding import OFFERED
from keeper.exchange.tables.shape import How
from keeper.window.desk.look import Look
from keeper.window.parts.choice import Choice
from keeper.window.parts.flow import Flow
from keeper.window.parts.small import label, row


class HowWritten(QWidget):
    """A choice for each thing that was guessed, those only that a file of its kind has. ``changed`` brings the new How."""

    changed = Signal(object)

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look, self._how = look, How("table")
        self._silent = False
        self.encoding, self.separator, self.order, self.decimal, self.sheet = (
            Choice(look, name) for name in ("The encoding", "What parts the cells", "The order of dates in numbers",
                                            "The sign before decimals", "The sheet"))  # fmt: skip
        self.headed = QCheckBox("The first row names the columns")
        self._parts = [self._named(name, choice) for name, choice in (
            ("Sheet", self.sheet), ("Parted by", self.separator), ("Dates", self.order), ("Decimals", self.decimal),
            ("Encoding", self.encoding))]  # fmt: skip
        body = QVBoxLayout(self)
        body.setContentsMargins(0, 0, 0, 0)
        self.flow = Flow(look, *self._parts, self.headed, gap=1.4)
        body.addWidget(self.flow)
        for choice in (self.encoding, self.separator, self.order, self.decimal, self.sheet):
            choice.activated.connect(self._tell)
        self.headed.toggled.connect(self._tell)

    def _named(self, name: str, choice: Choice) -> QWidget:
        made = QWidget()
        made.setLayout(row(label(name, "quiet", wrap=False), choice, gap=self._look.px(0.4)))
        return made

    def show_how(self, how: How) -> None:
        """Show how a file is taken to be written."""
        self._silent, self._how = True, how
        table = how.form in ("table", "xlsx", "ods")
        # One the person would have to know by name is offered where it was guessed.
        encodings = {told.encoding_called(name): name for name in (*OFFERED, how.encoding) if name}
        _fill(self.encoding, [(name, called) for called, name in encodings.items()], how.encoding)
        _fill(self.separator, list(told.SEPARATORS.items()), how.separator)
        _fill(self.order, list(told.ORDERS.items()), how.order)
        _fill(self.decimal, list(told.DECIMALS.items()), how.decimal)
        _fill(self.sheet, [(name, name) for name in how.sheets], how.sheet)
        self.headed.setChecked(how.headed)
        seen = (len(how.sheets) > 1, how.form == "table", how.form != "calendar", table or how.form == "list", bool(how.encoding))
        for part, wanted in zip(self._parts, seen, strict=True):
            part.setVisible(wanted)
        self.headed.setVisible(table)
        self._silent = False

    def _tell(self) -> None:
        if self._silent:
            return
        how = self._how
        said = {"order": self.order, "decimal": self.decimal, "encoding": self.encoding, "sheet": self.sheet}
        if how.form == "table":
            said["separator"] = self.separator
        values = {name: choice.currentData() or "" for name, choice in said.items()}
        self.changed.emit(replace(how, headed=self.headed.isChecked() and not self.headed.isHidden(), **values))


def _fill(choice: Choice, offered: Sequence[tuple[str, str]], chosen: str) -> None:
    choice.clear()
    for value, name in offered:
        choice.addItem(name, value)
    choice.setCurrentIndex(max(0, choice.findData(chosen)))
