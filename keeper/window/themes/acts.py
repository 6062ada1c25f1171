"""What one can do with a theme and with lines chosen from it."""

from collections.abc import Callable

from PySide6.QtWidgets import QHBoxLayout, QWidget

from keeper.actions.themes import asking as themes
from keeper.actions.themes.splitting import Halves
from keeper.errors import KeeperError
from keeper.review.themes import ThemeView
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.flow import Flow
from keeper.window.parts.small import label, quiet_button, row
from keeper.window.parts.tips import plain_tip
from keeper.window.themes.lines import ThemeLines
from keeper.window.themes.work import ThemeWork


class ThemeActs:
    """The buttons of a theme's page; ``show_view`` and ``number`` say on which theme they work."""

    def __init__(self, desk: Desk, work: ThemeWork, lines: ThemeLines, parent: QWidget) -> None:
        self.desk, self.work, self.lines, self.parent = desk, work, lines, parent
        self.number: int | None = None
        self.view: ThemeView | None = None
        self.rename = quiet_button("Rename", self._rename, "Rename this theme")
        self.merge = quiet_button("Merge with\u2026", self._merge, "Merge this theme with another")
        self.split = quiet_button("Split\u2026", self._split, "Split this theme in two; both halves are shown first")
        self.pin = quiet_button("Pin", self._pin)
        self.leave_out = quiet_button("Leave a word out", self._leave_out, "Leave a word out of all themes")
        self.undo = quiet_button("Undo", self._undo, "Undo the last decision")
        self.open = quiet_button("Open the night", lambda: self.open_night(lines.currentIndex().row()))
        self.put = quiet_button("Put in", self._put_in)
        self.out = quiet_button("Remove", self._let_out, "Remove the chosen lines from this theme")
        self.move = quiet_button("Move to\u2026", self._move, "Move the chosen lines to another theme")
        self.start = quiet_button("Start a theme", self._start, "Start a theme from the chosen lines")
        self.chosen = label("", "quiet", wrap=False)
        lines.selectionModel().selectionChanged.connect(lambda *_: self.tell_chosen())
        lines.selectionModel().currentChanged.connect(lambda *_: self.tell_chosen())
        lines.put_in.connect(self._put_in)

    def of_theme(self, *beside: QWidget) -> Flow:
        """What is done with the theme, and other things after it, the last at the right."""
        parts = (self.rename, self.merge, self.split, self.pin, self.leave_out, self.undo)
        return Flow(self.desk.look, *parts, *beside, gap=1.1, apart=True)

    def of_lines(self) -> QHBoxLayout:
        """What is done with the lines chosen."""
        return row(self.chosen, self.open, self.put, self.out, self.move, self.start, None, gap=self.desk.look.px(1.1))

    # telling

    def show_view(self, number: int | None, view: ThemeView | None, undo: str) -> None:
        """Work on this theme (None: on the loose lines); ``undo``: the last decision, in words."""
        self.number, self.view = number, view
        for part in (self.rename, self.merge, self.split, self.pin, self.leave_out):
            part.setVisible(view is not None)
        pinned = view is not None and view.thread.pinned
        self.pin.setText("Unpin" if pinned else "Pin")
        self.pin.setAccessibleName("Unpin this theme" if pinned else "Pin this theme: it is then always there")
        self.undo.setVisible(bool(undo))
        self.undo.setAccessibleName(f"Undo the last decision: {undo}")
        self.undo.setToolTip(plain_tip(f"Undo: {undo}"))
        self.tell_chosen()

    def tell_chosen(self) -> None:
        """Say how many lines are chosen, and show what can be done with them."""
        chosen = len(self.lines.chosen())
        told = f"{wording.counted(chosen, 'line')} chosen:" if chosen else "Choose lines to move them or start a theme."
        self.chosen.setText(told)
        for part in (self.open, self.move, self.start):
            part.setVisible(chosen > 0)
        self.out.setVisible(chosen > 0 and self.number is not None)
        self._offer()

    def _offer(self) -> None:
        beside = self.lines.rows.beside
        names = list(dict.fromkeys(beside[one.line.id][1] for one in self.lines.here() if one.line.id in beside))
        self.put.setVisible(self.number is None and bool(names))
        if names:
            self.put.setText("Put in nearest")
            into = f"\u201c{names[0]}\u201d" if len(names) == 1 else "the theme that comes nearest to each"
            self.put.setAccessibleName(f"Put into {into}; the key P")
            self.put.setToolTip(plain_tip(f"Put into {into} (P)"))

    # doing

    def open_night(self, at: int) -> None:
        """Go to the night of the line in a row."""
        if 0 <= at < self.lines.rows.rowCount():
            self.desk.go("night", self.lines.rows.at(at).line.night)

    def _decide(self, act: Callable, done: Callable | None = None) -> None:
        self.work.decide(lambda store: act(store, self.desk.clock), done)

    def _rename(self) -> None:
        from keeper.window.themes.dialogs import NameDialog

        number, name = self.number, self.view.thread.name if self.view else ""
        dialog = NameDialog(self.desk, name, self.parent)
        if dialog.exec():
            self._decide(lambda store, clock: themes.rename(store, number, dialog.name, clock))

    def _merge(self) -> None:
        number, into = self.number, self._other("Merge with another theme", "Merge", "Its lines join this theme.")
        if into is not None:
            self._decide(lambda store, clock: themes.merge(store, number, into, clock))

    def _split(self) -> None:
        number = self.number
        self.split.setEnabled(False)
        self.work.work_out(lambda store: themes.halves_apart(store, number), self._show_halves, self._split_again)

    def _split_again(self) -> None:
        self.split.setEnabled(True)

    def _show_halves(self, found: Halves) -> None:
        self._split_again()
        # Who has gone on meanwhile is not called back.
        if found.number != self.number or self.view is None or not self.parent.isVisible():
            return
        from keeper.window.themes.split import SplitDialog

        if SplitDialog(self.desk, self.view.thread.name, found, self.parent).exec():
            self._decide(
                lambda store, clock: themes.split_so(store, found, clock),
                lambda _: self.desk.said.emit("Split in two; Undo takes it back."),
            )

    def _pin(self) -> None:
        number = self.number
        act = themes.unpin if self.view and self.view.thread.pinned else themes.pin
        self._decide(lambda store, clock: act(store, number, clock))

    def _leave_out(self) -> None:
        from keeper.window.themes.dialogs import WordDialog

        words = self.view.thread.words if self.view else ()
        dialog = WordDialog(self.desk, "Leave a word out of all themes", "Leave it out", words, self.parent)
        if dialog.exec():
            self._decide(lambda store, clock: themes.leave_word_out(store, dialog.word, clock))

    def _undo(self) -> None:
        self._decide(themes.undo_last, self.desk.said.emit)

    def _put_in(self) -> None:
        here, beside = self.lines.here(), self.lines.rows.beside
        ids = tuple(one.line.id for one in here if one.line.id in beside)
        if self.number is not None or not here:
            return
        if not ids:
            self.desk.said.emit("No theme comes near it." if len(here) == 1 else "No theme comes near these lines.")
            return
        names = tuple(dict.fromkeys(beside[one][1] for one in ids))
        # Before it is kept: the key pressed next is for the next line.
        self.lines.let_go(ids)
        self.tell_chosen()
        self.work.decide(
            lambda store: themes.put_in(store, ids, self.desk.clock), lambda put: self._tell_put(put, ids, names),
            lambda error: self._not_put(ids, error),
        )  # fmt: skip

    def _tell_put(self, put: int, ids: tuple[str, ...], names: tuple[str, ...]) -> None:
        self.lines.rows.leaving.difference_update(ids)
        if put:
            told = f"{wording.counted(put, 'line')} put into their nearest themes"
            one = f"Put into \u201c{names[0]}\u201d" if put == 1 else f"{wording.counted(put, 'line')} put into \u201c{names[0]}\u201d"
            self.desk.said.emit(f"{one if len(names) == 1 else told}; Undo takes it back.")

    def _not_put(self, ids: tuple[str, ...], error: KeeperError) -> None:
        self.lines.rows.leaving.difference_update(ids)
        self.desk.said.emit(str(error))
        self.desk.changed.emit()

    def _let_out(self) -> None:
        number, ids = self.number, self.lines.chosen_ids()
        if number is not None:
            self._decide(lambda store, clock: themes.take_out(store, ids, number, clock))

    def _move(self) -> None:
        ids, into = self.lines.chosen_ids(), self._other("Move to another theme", "Move", "They stay in that theme.")
        if into is not None:
            self._decide(lambda store, clock: themes.move(store, ids, into, clock))

    def _start(self) -> None:
        ids = self.lines.chosen_ids()
        self._decide(lambda store, clock: themes.start(store, ids, clock))
        self.desk.said.emit("A theme is being started; lines like these join it.")

    def _other(self, title: str, act: str, told: str) -> int | None:
        from keeper.window.themes.dialogs import ThemeDialog

        others = [one for one in themes.names(self.desk.store) if one[0] != self.number]
        dialog = ThemeDialog(self.desk, title, act, others, told, self.parent)
        return dialog.number if dialog.exec() else None
