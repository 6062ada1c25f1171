"""Deciding about themes: a name, another theme, a word. Each dialog only asks; the page does it."""

from collections.abc import Sequence

from PySide6.QtWidgets import QListWidgetItem, QWidget

from keeper.actions import reading
from keeper.actions.themes.undoing import DecisionTold
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.typing.asking import Asking


class NameDialog(Asking):
    """A theme's name; ``name`` is the answer, "" for the program's own again."""

    def __init__(self, desk: Desk, name: str, parent: QWidget) -> None:
        super().__init__(desk, "Rename a theme", "The theme\u2019s name", "Rename", "", parent)
        self.name = name
        self.typed.setMaxLength(80)
        self.put_by("theme's name", name, name)
        self.told.setText("The name stays, whatever lines join. Leave it empty to name the theme by its words.")

    def take(self) -> None:
        """Take the name typed."""
        self.name = self.typed.text()
        self.accept()


class ThemeDialog(Asking):
    """Another theme; ``number`` is the answer. ``others`` are numbers and names."""

    def __init__(
        self, desk: Desk, title: str, act: str, others: Sequence[tuple[int, str]], told: str, parent: QWidget
    ) -> None:
        super().__init__(desk, title, "Which theme", act, "Themes", parent)
        self.number: int | None = None
        self._others = others
        self._shown: list[tuple[int, str]] = []
        self.typed.textEdited.connect(self._narrow)
        self.list.currentRowChanged.connect(lambda at: self.act.setEnabled(at >= 0))
        self.told.setText(told if others else "There is no other theme.")
        self._narrow("")

    def _narrow(self, typed: str) -> None:
        wanted = reading.same_letters(typed.strip())
        self._shown = [one for one in self._others if wanted in reading.same_letters(one[1])]
        self.list.clear()
        for _, name in self._shown:
            self.list.addItem(QListWidgetItem(name))
        if wanted and self._shown:
            self.list.setCurrentRow(0)
        self.act.setEnabled(self.list.currentRow() >= 0)

    def take(self) -> None:
        """Take the theme chosen, if one is."""
        at = self.list.currentRow()
        if 0 <= at < len(self._shown):
            self.number = self._shown[at][0]
            self.accept()


class DecisionDialog(Asking):
    """One of several decisions, latest first; ``decision`` is the id of the one to undo."""

    def __init__(self, desk: Desk, decisions: Sequence[DecisionTold], parent: QWidget) -> None:
        super().__init__(desk, "Undo a decision about themes", "Type to narrow", "Undo", "Decisions", parent)
        self.decision: str | None = None
        self._all = [(one.id, f"{one.told} \u00b7 {wording.short_date(one.day)}") for one in decisions]
        self._shown: list[str] = []
        self.typed.textEdited.connect(self._narrow)
        self.list.currentRowChanged.connect(lambda at: self.act.setEnabled(at >= 0))
        self.told.setText("The other decisions stay.")
        self._narrow("")

    def _narrow(self, typed: str) -> None:
        wanted = reading.same_letters(typed.strip())
        shown = [one for one in self._all if wanted in reading.same_letters(one[1])]
        self._shown = [decision for decision, _ in shown]
        self.list.clear()
        self.list.addItems([told for _, told in shown])
        self.act.setEnabled(self.list.currentRow() >= 0)

    def take(self) -> None:
        """Take the decision chosen, if one is."""
        at = self.list.currentRow()
        if 0 <= at < len(self._shown):
            self.decision = self._shown[at]
            self.accept()


class WordDialog(Asking):
    """A word, typed or chosen; ``word`` is the answer."""

    def __init__(self, desk: Desk, title: str, act: str, words: Sequence[str], parent: QWidget) -> None:
        super().__init__(desk, title, "Which word", act, "Words", parent)
        self.word = ""
        self.typed.setMaxLength(80)
        for word in words:
            self.list.addItem(QListWidgetItem(word))
        self.list.currentTextChanged.connect(self.typed.setText)
        self.told.setText("Themes are then looked for again.")

    def take(self) -> None:
        """Take the word."""
        self.word = self.typed.text().strip()
        if self.word:
            self.accept()
