"""The lines found, as they come: those with every word, then what is read otherwise, and the nearest."""

from collections.abc import Callable
from datetime import date
from typing import NamedTuple

from PySide6.QtWidgets import QListView, QWidget

from keeper.actions import finding
from keeper.actions.finding import AsRead, Like, Sought
from keeper.model import Found
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.find.beneath import Beneath
from keeper.window.find.staying import Staying
from keeper.window.parts.errand import Errand
from keeper.window.parts.found_list import FoundList, FoundModel
from keeper.window.parts.small import label

AT_ONCE = 50
_NOTHING = "Nothing found."


class _Whole(NamedTuple):
    """The lines with every word of what was sought; without it, the lines like one."""

    of: Sought | None = None
    found: tuple[Found, ...] = ()


class LinesFound:
    """Fills a list of lines, and says above it how many they are.

    ``stand_out`` is called with the nights that answer, all of them. What is
    asked ``again`` is the same, of which as many lines are shown as before,
    and one stays where one is.
    """

    def __init__(self, desk: Desk, parent: QWidget, stand_out: Callable[[frozenset[date] | None], None]) -> None:
        self._errand, self.beneath = Errand(desk.reader), Beneath(desk, parent)
        self._stand_out = stand_out
        self.model = FoundModel(self._more)
        self.list = FoundList(desk.look, self.model, "Lines found")
        # A dozen rows are laid out at a time, so that no turn is long.
        self.list.setLayoutMode(QListView.LayoutMode.Batched)
        self.list.setBatchSize(12)
        self.told = label("", "quiet")
        self._staying = Staying(self.list)
        self._reach, self._whole = AT_ONCE, _Whole()

    def forget(self) -> None:
        """Others are asked for: begin with the first of them, at the top."""
        self._staying.forget()
        self._reach = AT_ONCE

    def stop(self) -> None:
        """Break off whatever is asked for."""
        self._errand.stop()
        self.beneath.stop()

    def ask(self, sought: Sought, again: bool) -> None:
        """Ask for what answers to this."""
        reach = self._reach
        self._errand.also(
            lambda store, task: finding.with_every_word(store, sought, reach), lambda found: self._show(_Whole(sought, found), again)
        )
        self._errand.also(lambda store, task: finding.count_found(store, sought), self._tell)

    def ask_like(self, like: Like, again: bool) -> None:
        """Ask for what is like a line."""
        self.beneath.ask_like(like, lambda found: self._show_like(like, found, again))

    def show_none(self, sought: Sought) -> None:
        """Show nothing: there is nothing in this to look for."""
        self._whole = _Whole(sought)
        self.model.show((), "", False)
        self.told.setText("")
        self._stand_out(None)

    def _show(self, whole: _Whole, again: bool) -> None:
        # Something was written before the first answer was there: it is no answer to what is shown.
        again = again and whole.of == self._whole.of
        same = again and whole == self._whole
        self._whole, found = whole, whole.found
        if not same:
            self._show_whole(again)
        if not found and not same:
            self.told.setText(self._none_has())

        def read(told: AsRead | None) -> None:
            if same and self.model.rowCount() > len(found):
                # What is beneath may be other: only now, so that it is not gone in between.
                self._show_whole(again)
            self._show_read(told)

        self.beneath.ask(whole.of, found, read, self._show_nearest, self._stand_out)

    def _show_whole(self, again: bool) -> None:
        if again:
            self._staying.note()
        sought, found = self._whole
        self.model.show(found, sought.typed if sought else "", sought is not None and len(found) == self._reach)
        if again:
            self._staying.come_back()
        else:
            self.list.scrollToTop()

    def _show_read(self, read: AsRead | None) -> None:
        if read:
            heading = wording.capitalised(f"{read.told} ({wording.number(read.lines)})")
            self.model.append_group(self._not_there(read.found), heading, read.sought.typed)
            self._staying.come_back()

    def _show_nearest(self, near: tuple[Found, ...]) -> None:
        self.model.append(self._not_there(near), False)
        self._staying.come_back()
        if not self._whole.found:
            self.told.setText(self._none_has() if self.model.rowCount() else _NOTHING)

    def _not_there(self, found: tuple[Found, ...]) -> tuple[Found, ...]:
        there = {one.line.id for one in self._rows()}
        return tuple(one for one in found if one.line.id not in there)

    def _rows(self) -> tuple[Found, ...]:
        return tuple(map(self.model.at, range(self.model.rowCount())))

    def _none_has(self) -> str:
        """What is said until what is nearest is known, and above it."""
        words = len(self._whole.of.typed.split())
        return "No line has every word." if words > 1 else "No line has the word." if words else _NOTHING

    def _tell(self, number: int) -> None:
        if number:
            self.told.setText(wording.counted(number, "line"))

    def _show_like(self, like: Like, found: tuple[Found, ...], again: bool) -> None:
        self._whole = _Whole(None, found)
        if not again or found != self._rows():
            self._show_whole(again)
        told = f"the {like.line.kind} of {wording.long_date(like.line.night)}"
        self.told.setText(f"Like {told}, in other years" if found else f"Nothing in other years is like {told}.")

    def _more(self) -> None:
        sought, shown = self._whole.of, self.model.rowCount()
        self._reach = shown + AT_ONCE
        self._errand.also(lambda store, task: finding.with_every_word(store, sought, AT_ONCE, shown), self._append)

    def _append(self, found: tuple[Found, ...]) -> None:
        self._whole = self._whole._replace(found=self._whole.found + found)
        self.model.append(found, len(found) == AT_ONCE)
