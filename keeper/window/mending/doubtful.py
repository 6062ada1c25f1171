"""Lines of which it is not sure that they are what was written: each shown, none taken unless the person says so."""

from collections.abc import Sequence

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QCheckBox, QVBoxLayout, QWidget

from keeper.actions.damage import telling
from keeper.actions.damage.mending import Carved, Survey
from keeper.window.desk import wording
from keeper.window.desk.look import Look
from keeper.window.parts.piecemeal import Piecemeal, few_at_a_time
from keeper.window.parts.small import breakable, emptied, label, quiet_button, row

AT_A_TIME, AT_MOST = 8, 200
LONGEST = 1200
"""Letters of a line that are shown."""


class DoubtfulRow(QWidget):
    """One line with its night, its words as they stand in the file, and what it would take the place of."""

    def __init__(self, look: Look, one: Carved, instead: str) -> None:
        super().__init__()
        self.one = one
        when = telling.key_told(*one.key)
        self.take = QCheckBox(when)
        self.take.setAccessibleName(f"Take the line of {when}")
        self.take.setEnabled(telling.can_be_taken(one))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, look.px(0.5))
        layout.setSpacing(look.px(0.15))
        layout.addLayout(row(self.take, None))
        words = label(breakable(_shown(one.text)), "spoken")
        self.take.setAccessibleDescription(words.text())
        layout.addWidget(words)
        if instead:
            layout.addWidget(label(f"It would take the place of: {breakable(_shown(instead))}", "quiet"))
        if not self.take.isEnabled():
            layout.addWidget(label("It cannot be told to which night it belongs. Its words can be copied from here.", "quiet"))

    def fit(self) -> None:
        """Be as high as the words need at this width."""
        self.layout().invalidate()
        self.setFixedHeight(self.layout().heightForWidth(self.width()))

    def hasHeightForWidth(self) -> bool:
        # Asked at every level above for every row, hundreds of them take seconds; each knows for itself.
        return False

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.fit()


def _shown(text: str) -> str:
    plain = "".join(letter if letter.isprintable() or letter == "\n" else "\ufffd" for letter in text)
    return plain if len(plain) <= LONGEST else f"{plain[:LONGEST]}\u2026"


class DoubtfulBox(QWidget):
    """A heading, what the lines are, a way to take all of them, and the lines."""

    def __init__(self, look: Look, heading: str, told: str) -> None:
        super().__init__()
        self._look = look
        self._lines: tuple[Carved, ...] = ()
        self._more: tuple[Carved, ...] = ()
        self._coming = Piecemeal(self)
        self.rows: list[DoubtfulRow] = []
        self.all = quiet_button("Take all", self.turn_all, f"Take all: {heading.lower()}")
        self.rest = label("", "quiet")
        body = QVBoxLayout(self)
        body.setContentsMargins(0, look.px(0.8), 0, 0)
        body.setSpacing(look.px(0.3))
        body.addLayout(row(label(heading, "words", wrap=False), None, self.all))
        body.addWidget(label(told, "quiet"))
        self._list = QVBoxLayout()
        self._list.setSpacing(0)
        body.addLayout(self._list)
        body.addWidget(self.rest)
        self.hide()

    def show_lines(self, survey: Survey, lines: Sequence[Carved]) -> None:
        """Show these; of very many only the first, the others go with them all or not at all."""
        emptied(self._list)
        self.rows, self._lines, self._more = [], tuple(lines), tuple(lines[AT_MOST:])
        self.setVisible(bool(lines))
        self.rest.setText(f"{wording.counted(len(self._more), 'line')} more; they are taken with all." if self._more else "")
        self.rest.setVisible(bool(self._more))
        self.all.setVisible(len(lines) > 1)
        self._coming.begin(few_at_a_time(AT_A_TIME, lambda one: self._add(survey, one), lines[:AT_MOST]), 1)
        self._coming.add([self._settle])

    def _add(self, survey: Survey, one: Carved) -> None:
        made = DoubtfulRow(self._look, one, telling.in_place_of(survey, one))
        self._list.addWidget(made)
        before = self.rows[-1].take if self.rows else self.all
        self.rows.append(made)
        self.setTabOrder(before, made.take)

    def _settle(self) -> None:
        # How high the rows are was reckoned before their letters were known.
        for shown in self.rows:
            shown.fit()

    def taken(self) -> tuple[Carved, ...]:
        """The lines that the person wants."""
        chosen = tuple(shown.one for shown in self.rows if shown.take.isChecked())
        return chosen + (self._more if self.all_taken() else ())

    def all_taken(self) -> bool:
        """Whether all that can be are taken."""
        able = [shown for shown in self.rows if shown.take.isEnabled()]
        return bool(able) and all(shown.take.isChecked() for shown in able)

    def turn_all(self) -> None:
        """Take all, or none."""
        wanted = not self.all_taken()
        for shown in self.rows:
            shown.take.setChecked(wanted and shown.take.isEnabled())
        self.all.setText("Take none" if wanted else "Take all")
