"""Beginning a theme: a name, and a few words or lines from which the rest is looked for."""

from PySide6.QtCore import QItemSelectionModel, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QListView, QVBoxLayout, QWidget

from keeper.errors import KeeperError
from keeper.model import Found
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.timers import once_after
from keeper.window.parts.errand import Errand
from keeper.window.parts.found_list import FoundList, FoundModel
from keeper.window.parts.low_window import LowWindow
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import in_the_middle, label, plain_button, quiet_button, row
from keeper.window.parts.typing.field import DRAFT_AFTER
from keeper.window.parts.typing.put_by import PutBy
from keeper.window.themes.lines import MarksPlace
from keeper.window.themes.work import ThemeWork

TOLD = "What do you write about again and again? A name and three words, or a few lines, are enough; the rest is looked for."
SHOWN = 60
_SELECT = QItemSelectionModel.SelectionFlag.Select


class _Words(QLineEdit):
    """Down goes to the lines that have the words."""

    def __init__(self, list_: QListView) -> None:
        super().__init__()
        self._list = list_

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Down and self._list.model().rowCount():
            self._list.setFocus()
        else:
            super().keyPressEvent(event)


class BeginPage(BasicPage, LowWindow):
    """A theme to begin; ``begun`` comes with its number, ``left`` when the person goes back."""

    left = Signal()
    begun = Signal(int)

    def __init__(self, desk: Desk, work: ThemeWork) -> None:
        super().__init__()
        self.desk, self.work = desk, work
        self._errand = Errand(desk.reader)
        self._before = Errand(desk.reader)
        self._chosen: dict[str, Found] = {}
        self._put_by: tuple[str, ...] = ()
        self._showing, self._found = False, 0
        self.back = quiet_button("\u2039 all themes", self.left.emit, "Back to all themes")
        self.name = self._field("What is it about? Such as: my knees", "The name of the theme", QLineEdit())
        self.name.setMaxLength(80)
        self.list = FoundList(desk.look, FoundModel(lambda: None), "Lines that have any of the words", MarksPlace)
        self.list.setSelectionMode(QListView.SelectionMode.MultiSelection)
        self.list.setAccessibleDescription("Space chooses a line, and lets it go again.")
        self.words = self._field("Words it is told in: knee, stairs, limp", "Words by which the theme begins", _Words(self.list))
        self.told = label("", "quiet")
        self.act = plain_button("Begin", self._begin, by_enter=True)
        self._name_kept, self._words_kept = PutBy(desk, self.name, "theme begun"), PutBy(desk, self.words, "theme begun by")
        self._lay_out()
        self._connect()
        self.lead_with(self.name)

    def _field(self, hint: str, name: str, made: QLineEdit) -> QLineEdit:
        made.setPlaceholderText(hint)
        made.setAccessibleName(name)
        made.setProperty("sought", True)
        return made

    def _lay_out(self) -> None:
        px = self.desk.look.px
        self.column = QWidget()
        self.column.setMaximumWidth(px(52))
        body = QVBoxLayout(self.column)
        body.setContentsMargins(px(1.5), px(1.0), px(1.5), px(0.6))
        body.setSpacing(px(0.5))
        for part in (self.back, label("Begin a theme", "head"), label(TOLD, "quiet"), self.name, self.words):
            body.addWidget(part, 0, Qt.AlignmentFlag.AlignLeft if part is self.back else Qt.AlignmentFlag(0))
        body.addWidget(self.list, 1)
        foot = row(self.told, self.act, gap=px(1))
        foot.setStretch(0, 1)
        body.addLayout(foot)
        self.within.setLayout(in_the_middle(self.column))
        self.list.setMinimumHeight(px(9))

    def _connect(self) -> None:
        self._wait = once_after(self, 60, self._look_for)
        self._pause = once_after(self, DRAFT_AFTER, self._put_chosen_by)
        self.desk.keeping.connect(self._put_chosen_by)
        self.words.textChanged.connect(lambda _: self._wait.start())
        self.name.textChanged.connect(lambda _: self._tell())
        self.name.returnPressed.connect(self.words.setFocus)
        self.words.returnPressed.connect(self._on_enter)
        self.list.selectionModel().selectionChanged.connect(lambda *_: self._on_chosen())
        self.desk.dressed.connect(self.dress)

    def dress(self) -> None:
        """Take up the palette and sizes in force."""
        self.column.setMaximumWidth(self.desk.look.px(52))
        self.list.setMinimumHeight(self.desk.look.px(9))
        self.list.model().layoutChanged.emit()

    def start(self) -> None:
        """Begin with empty fields, or with what was typed and chosen when the window was last killed."""
        for kept in (self._name_kept, self._words_kept):
            kept.show("", "")
        if not self._chosen:
            self._before.anew(lambda store, task: _actions().chosen_before(store), self._choose_again)
        self._look_for()

    def _choose_again(self, found: tuple[Found, ...]) -> None:
        if found and not self._chosen:
            self._chosen = {one.line.id: one for one in found}
            self._put_by = tuple(self._chosen)
            self._look_for()

    # asking

    def _look_for(self) -> None:
        words = _parted(self.words.text())
        if not words:
            self._errand.stop()
            self._show(())
            return
        self._errand.anew(lambda store, task: _actions().lines_having(store, words, SHOWN), self._show)

    def _show(self, found: tuple[Found, ...]) -> None:
        self._showing = True
        self._found = len(found)
        shown = (*self._chosen.values(), *(one for one in found if one.line.id not in self._chosen))
        self.list.model().show(shown, "", False)
        for at in range(len(self._chosen)):
            self.list.selectionModel().select(self.list.model().index(at, 0), _SELECT)
        self._showing = False
        self._tell()

    def _on_chosen(self) -> None:
        if not self._showing:
            at = sorted(index.row() for index in self.list.selectedIndexes())
            self._chosen = {one.line.id: one for one in (self.list.model().at(row) for row in at)}
            self._before.stop()
            self._pause.start()
            self._tell()

    def _put_chosen_by(self) -> None:
        self._pause.stop()
        chosen, clock = tuple(self._chosen), self.desk.clock
        if chosen != self._put_by:
            self._put_by = chosen
            self.desk.write(lambda store: _actions().put_by(store, chosen, clock))

    # telling

    def _tell(self, sentence: str = "") -> None:
        chosen, words = len(self._chosen), _parted(self.words.text())
        if not sentence:
            sentence = self._how_it_stands(chosen, words)
        self.told.setText(sentence)
        self.act.setEnabled(bool(self.name.text().strip()) and bool(chosen or (words and self._found)))

    def _how_it_stands(self, chosen: int, words: tuple[str, ...]) -> str:
        if chosen:
            return f"It begins with the {wording.counted(chosen, 'line')} chosen."
        if not words:
            return "Type a few words, and the lines that have any of them are shown here."
        if not self._found:
            return "No line has any of these words."
        lines = "The latest lines that have" if self._found == SHOWN else f"{wording.counted(self._found, 'line')} with"
        return f"{lines} any of these words. It begins with the words, or with lines that you choose here by Space."

    # doing

    def _on_enter(self) -> None:
        if self.act.isEnabled():
            self._begin()

    def _begin(self) -> None:
        if not self.act.isEnabled():
            return
        name, ids, clock = self.name.text(), tuple(self._chosen), self.desk.clock
        words = () if ids else _parted(self.words.text())
        self.act.setEnabled(False)
        self.work.decide(lambda store: _actions().begin(store, name, ids, words, clock), self._on_begun, self._on_failed)

    def _on_begun(self, number: int) -> None:
        for kept in (self._name_kept, self._words_kept):
            kept.forget()
            kept.put("")
        self._chosen.clear()
        self._put_chosen_by()
        self.begun.emit(number)

    def _on_failed(self, error: KeeperError) -> None:
        self._tell(str(error))
        self.act.setEnabled(True)


def _actions():
    from keeper.actions.themes import begun

    return begun


def _parted(typed: str) -> tuple[str, ...]:
    return _actions().words_typed(typed)
