"""What is done with a line of the night shown, beside writing it: earlier wordings, moving, rest, what is like it."""

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from keeper.actions import reading, writing
from keeper.model import Line
from keeper.window.night.kinds import KindBlock
from keeper.window.night.line_buttons import EARLIER, KEPT, LATER, LIKE, MOVE, REST

if TYPE_CHECKING:
    from keeper.window.night.page import NightPageView


class LineActs(QObject):
    """Does what the buttons of a kind's block and the page's keys ask for."""

    def __init__(self, page: "NightPageView") -> None:
        super().__init__(page)
        self._page, self.desk = page, page.desk

    def connect_block(self, kind: str, block: KindBlock) -> None:
        """Let a block's buttons do it."""
        does = {
            KEPT: self._show_kept, EARLIER: self._show_wordings, MOVE: self.move_line,
            LIKE: self._look_for_like, REST: self._rest_or_wake, LATER: self.add_later_word,
        }  # fmt: skip
        block.buttons.pressed.connect(lambda name: does[name](kind))

    def move_line(self, kind: str) -> None:
        """Ask where the line of a kind belongs."""
        self._page.commit(kind)
        night = self._page.night
        # The line itself is kept first, and written in its order.
        self.desk.write(lambda store: reading.one_night(store, night), lambda kept: self._ask_where(night, kind, kept.line(kind)))

    def add_later_word(self, kind: str) -> None:
        """Ask for a later word under the line of a kind."""
        if line := self._line(kind):
            self.desk.later_wanted.emit([line])

    def _ask_where(self, night: date, kind: str, line: Line | None) -> None:
        from keeper.window.night.move_line import MoveLineDialog

        if line is not None:
            MoveLineDialog(self.desk, night, kind, self._page).exec()

    def _show_kept(self, kind: str) -> None:
        """Have the kept wording back in place of a draft; the draft becomes an earlier wording."""
        page, field = self._page, self._page.fields[kind]
        night, draft, line = page.night, field.words(), self._line(kind)
        if line is None:
            return
        field.setFocus()
        field.put(line.text)
        page.lines.set_aside((night, kind), draft, lambda: field.put(draft) if night == page.night else None)

    def _show_wordings(self, kind: str) -> None:
        from keeper.window.night.earlier_wordings import WordingsDialog

        page = self._page
        # A draft that waits is to be among them.
        page.words.meant((page.night, kind))
        page.commit(kind)
        dialog = WordingsDialog(self.desk, page.night, page.blocks[kind].kind, page)
        if dialog.exec():
            page.fields[kind].put(dialog.chosen)
            page.commit(kind)
            page.fields[kind].setFocus()

    def _rest_or_wake(self, kind: str) -> None:
        if line := self._line(kind):
            act = writing.wake_line if line.resting else writing.rest_line
            self.desk.write(lambda store: act(store, line.id), lambda _: self.desk.changed.emit())

    def _look_for_like(self, kind: str) -> None:
        from keeper.actions.finding import Like

        if line := self._line(kind):
            self.desk.go("find", thing=Like(line))

    def _line(self, kind: str) -> Line | None:
        return self._page.page.night.line(kind) if self._page.page else None
