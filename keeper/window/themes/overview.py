"""All threads as quiet rows, and how matters stand with them."""

from types import ModuleType

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QPushButton, QVBoxLayout, QWidget

from keeper.actions import reading
from keeper.review.themes import ThemesView, Thread
from keeper.study.themes.nouns import ENOUGH
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.errand import Errand
from keeper.window.parts.low_window import LowWindow
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import breakable, headed, in_the_middle, label, quiet_button, row
from keeper.window.themes import wording as theme_wording
from keeper.window.themes.rows import ThreadsList
from keeper.window.themes.work import ThemeWork


class _Narrow(QLineEdit):
    """Down and Enter go to the threads."""

    def __init__(self, list_: ThreadsList) -> None:
        super().__init__()
        self.leads_to = list_

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Down, Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.leads_to.setFocus()
        elif event.key() == Qt.Key.Key_Escape and self.text():
            self.clear()
        else:
            super().keyPressEvent(event)


class ThemesOverview(BasicPage, AsksAgain, LowWindow):
    """The threads; ``loose_wanted`` comes when the loose lines are to be seen, ``begin_wanted`` to begin a theme."""

    loose_wanted = Signal()
    begin_wanted = Signal()

    def __init__(self, desk: Desk, work: ThemeWork) -> None:
        super().__init__()
        self.desk = desk
        self.work = work
        self.view: ThemesView | None = None
        self.named: tuple[Thread, ...] = ()
        self._errand = Errand(desk.reader)
        self.heading = label("Themes", "head", wrap=False)
        self.order = QPushButton("Most lines first")
        self.order.setCheckable(True)
        self.order.setProperty("quiet", True)
        self.again = quiet_button("Look again", lambda: work.look(anew=True), "Look for the themes again")
        self.begin = quiet_button("Begin a theme", self.begin_wanted.emit, "Begin a theme by a few lines or words")
        self.list = ThreadsList(desk.look, desk.tonight())
        self.people = ThreadsList(desk.look, desk.tonight(), "People")
        self.of_people = QPushButton("People")
        self.of_people.setCheckable(True)
        self.of_people.setProperty("quiet", True)
        self.of_people.setAccessibleName("The people you marked, beside the themes")
        self.typed = _Narrow(self.list)
        self.typed.setPlaceholderText("Type to narrow")
        self.typed.setAccessibleName("Type to narrow the themes")
        self.nothing = label("No theme has that name or that word.", "quiet")
        self.nothing.hide()
        self.told, self.doing = label("", "quiet"), label("", "quiet", wrap=False)
        self.stop = quiet_button("Stop", work.stop, "Stop looking for themes")
        self.decided = label("", "quiet")
        self.undo = quiet_button("Undo", self._undo, "Undo the last decision")
        self.earlier = quiet_button("Another\u2026", self._undo_another, "Undo another decision")
        self.left_out = label("", "quiet")
        self.let_in = quiet_button("Let back in", self._let_in, "Let a word that was left out count again")
        self.loose = quiet_button("", self.loose_wanted.emit, "Show the loose lines")
        for part in (self.loose, self.undo, self.earlier, self.let_in, self.again, self.order, self.begin, self.people, self.of_people):
            part.hide()
        self._lay_out()
        self._connect()
        self.lead_with(self.list)
        self._show_work(*work.at)

    def _lay_out(self) -> None:
        px = self.desk.look.px
        self.column = QWidget()
        self.column.setMaximumWidth(px(56))
        body = QVBoxLayout(self.column)
        body.setContentsMargins(px(1.5), px(1.4), px(1.5), px(0.4))
        body.setSpacing(px(0.4))
        body.addLayout(headed(self.heading, self.of_people, self.order, self.begin, self.again))
        body.addWidget(self.told)
        body.addLayout(row(self.doing, self.stop, None, gap=px(1)))
        body.addWidget(self.typed)
        body.addWidget(self.nothing)
        body.addWidget(self.list, 1)
        body.addWidget(self.people, 1)
        self.blank = QWidget()
        self.blank.hide()
        body.addWidget(self.blank, 1)
        self.foot = QWidget()
        below = QVBoxLayout(self.foot)
        below.setContentsMargins(0, 0, 0, 0)
        below.setSpacing(0)
        for parts in ((self.left_out, self.let_in), (self.decided, self.undo, self.earlier)):
            line = row(*parts, gap=px(1))
            line.setStretch(0, 1)
            below.addLayout(line)
        below.addLayout(row(self.loose, None))
        body.addWidget(self.foot)
        self.within.setLayout(in_the_middle(self.column))
        for one in (self.list, self.people):
            one.setMinimumHeight(px(11))

    def _connect(self) -> None:
        self.typed.textChanged.connect(lambda _: self._fill())
        self.order.toggled.connect(self._on_order)
        self.of_people.toggled.connect(self._on_people)
        for one in (self.list, self.people):
            one.typed.connect(self._on_letters)
        self.work.moved.connect(self._show_work)
        self.desk.changed.connect(self.refresh)
        self.desk.dressed.connect(self.dress)

    def dress(self) -> None:
        """Take up the palette and sizes in force."""
        self.column.setMaximumWidth(self.desk.look.px(56))
        for one in (self.list, self.people):
            one.setMinimumHeight(self.desk.look.px(11))
            one.rows.layoutChanged.emit()

    # asking

    def open(self) -> None:
        """Show the threads as they are, and look again where that is due."""
        self.ask()
        if not self.work.running:
            self.desk.reader.run(lambda store, task: _themes().themes_due(store), self._on_due)

    def _on_due(self, due: str) -> None:
        if due and not self.work.running:
            self.work.look()

    def ask(self) -> None:
        """Ask for the threads."""
        self._errand.anew(lambda store, task: _themes().themes_view(store), self._show)
        self._errand.also(lambda store, task: _people().people_named(store), self._show_people)

    def _show(self, view: ThemesView) -> None:
        if view == self.view:
            return
        appear = bool(view.threads) and not (self.view and self.view.threads)
        self.view = view
        self._tell()
        self._fill()
        if appear and self.isVisible() and not self.typed.hasFocus():
            self.list.setFocus()

    def _show_people(self, threads: tuple[Thread, ...]) -> None:
        self.named = threads
        self.of_people.setVisible(bool(threads))
        if not threads:
            self.of_people.setChecked(False)
        self._fill()

    # telling

    def _tell(self) -> None:
        view = self.view
        first_look = self.work.running and not view.looked
        self.told.setText("" if first_look else theme_wording.how_matters_stand(view))
        self.told.setVisible(not first_look)
        self.loose.setText(theme_wording.loose(view) + " \u203a")
        self.loose.setAccessibleName(f"{theme_wording.loose(view)} Show them")
        self.loose.setVisible(bool(view.loose and view.threads))
        for part, button, words in (
            (self.decided, self.undo, f"Last decision: {view.undo}." if view.undo else ""),
            (self.left_out, self.let_in, f"Words left out: {', '.join(view.left_out)}." if view.left_out else ""),
        ):
            part.setText(breakable(words))
            part.setVisible(bool(words))
            button.setVisible(bool(words))
        self.earlier.setVisible(bool(view.undo))
        people = self.of_people.isChecked()
        some = people or bool(view.threads)
        for part in (self.typed, self.order):
            part.setVisible(some)
        self.list.setVisible(some and not people)
        self.people.setVisible(people)
        self.blank.setVisible(not some)
        if people:
            self.told.setText("Every line that names someone you marked. Themes keep their lines.")
        for part in (self.foot,):
            part.setVisible(not people)
        self.again.setVisible(view.kept >= ENOUGH)
        self.begin.setVisible(bool(view.kept))
        self.lead_with(self.people if people else self.list if some else self.begin)

    def _fill(self) -> None:
        if self.view is None:
            return
        wanted, seen = reading.same_letters(self.typed.text().strip()), []
        for list_, threads in ((self.list, self.view.threads), (self.people, self.named)):
            shown = [one for one in threads if not wanted or _answers(one, wanted)]
            if self.order.isChecked():
                shown.sort(key=lambda one: one.last, reverse=True)
            list_.rows.tonight = self.desk.tonight()
            list_.show_threads(shown)
            seen.append(bool(shown))
        self.nothing.setVisible(bool(wanted) and not seen[self.of_people.isChecked()])

    def _show_work(self, what: str, share: float) -> None:
        told = f"Looking: {what}, {wording.percent(share)}." if what and what != "waiting" else "Looking\u2026"
        self.doing.setText(told if what else "")
        self.doing.setVisible(bool(what))
        self.stop.setVisible(bool(what))
        self.again.setEnabled(not what)
        if self.view:
            self._tell()

    # doing

    def _on_order(self, latest: bool) -> None:
        self.order.setText("Latest first" if latest else "Most lines first")
        self._fill()

    def _on_people(self, people: bool) -> None:
        self.heading.setText("People" if people else "Themes")
        self.of_people.setText("Themes" if people else "People")
        self.of_people.setAccessibleName("The themes" if people else "The people you marked, beside the themes")
        self.typed.leads_to = self.people if people else self.list
        self._tell()
        self._fill()
        if self.isVisible():
            self.setFocus()

    def _on_letters(self, letters: str) -> None:
        self.typed.setFocus()
        self.typed.insert(letters)

    def _undo(self) -> None:
        self.work.decide(lambda store: _themes().undo_last(store, self.desk.clock), self.desk.said.emit)

    def _undo_another(self) -> None:
        from keeper.window.themes.dialogs import DecisionDialog

        clock = self.desk.clock
        dialog = DecisionDialog(self.desk, _themes().decisions(self.desk.store, clock), self)
        if dialog.exec() and dialog.decision:
            self.work.decide(lambda store: _themes().undo(store, dialog.decision, clock), self.desk.said.emit)

    def _let_in(self) -> None:
        from keeper.window.themes.dialogs import WordDialog

        dialog = WordDialog(self.desk, "Let a word back in", "Let back in", self.view.left_out, self)
        if dialog.exec() and dialog.word:
            self.work.decide(lambda store: _themes().let_word_in(store, dialog.word, self.desk.clock))


def _answers(thread: Thread, wanted: str) -> bool:
    return any(wanted in reading.same_letters(word) for word in (thread.name, *thread.words))


def _people() -> ModuleType:
    from keeper.actions.themes import people_named

    return people_named


def _themes() -> ModuleType:
    # It brings in all that looks for themes: on the lane that asks first, not while the page is made.
    from keeper.actions.themes import asking

    return asking
