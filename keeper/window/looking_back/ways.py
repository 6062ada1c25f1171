"""Below the nights of the date: one night for each other thing that tonight has in common with it."""

from collections.abc import Callable

from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.actions.remembering import ways
from keeper.model import Line
from keeper.review.remembering.ways import CALLED, SPACED, WayBack, WaysBack
from keeper.window.desk.desk import Desk
from keeper.window.looking_back.night import RememberedNight
from keeper.window.parts.flow import Flow
from keeper.window.parts.piecemeal import Piecemeal
from keeper.window.parts.small import emptied, label, quiet_button, row, rule


class WaysShown(QWidget):
    """The ways and their nights; each can be left out, and be brought in again."""

    def __init__(self, desk: Desk, rest: Callable[[Line], None], speak: Callable[[Line], None]) -> None:
        super().__init__()
        self._desk, self._rest, self._speak = desk, rest, speak
        self.found: WaysBack | None = None
        self.nights: list[RememberedNight] = []
        self._coming = Piecemeal(self)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(0)

    def over(self) -> bool:
        """Whether nothing is to come."""
        return self._coming.over()

    def clear(self) -> None:
        """Show none."""
        self.found, self.nights = None, []
        self._coming.begin(())
        emptied(self._column)

    def show_ways(self, found: WaysBack) -> None:
        """Show what is brought up; where that is what is shown, it stays."""
        if found == self.found:
            # But for what was said of their lines since.
            self.found = found
            return
        self.clear()
        self.found = found
        pieces = [lambda way=way: self._add(way) for way in found.found]
        self._coming.begin([*pieces, lambda: self._add_foot(found)])

    def lines(self) -> list[Line]:
        """The lines brought up."""
        return [line for way in self.found.found for line in way.night.lines] if self.found else []

    def show_later(self, in_field: str) -> None:
        """Take up what was said of the lines since."""
        for shown, way in zip(self.nights, self.found.found if self.found else (), strict=False):
            shown.show_later(way.night, in_field, self._desk.tonight())

    def _add(self, way: WayBack) -> None:
        px = self._desk.look.px
        self._column.addSpacing(px(1.1))
        self._column.addWidget(rule())
        self._column.addSpacing(px(0.6))
        told = label(way.told, "section")
        parts = [told]
        if way.name in CALLED:
            name = CALLED[way.name]
            parts.append(quiet_button("Stop looking back by this", lambda: self._leave_out(way.name), f"Stop looking back by {name}"))
        head = row(*parts)
        head.setStretch(0, 1)
        self._column.addLayout(head)
        shown = RememberedNight(self._desk, way.night, self._desk.tonight(), self._rest, self._speak)
        self.nights.append(shown)
        self._column.addWidget(shown)

    def _add_foot(self, found: WaysBack) -> None:
        px = self._desk.look.px
        if found.found:
            self._column.addSpacing(px(0.8))
            self._column.addWidget(rule())
            self._column.addSpacing(px(0.5))
            self._column.addWidget(label(SPACED, "quiet"))
        if found.left_out:
            buttons = [
                quiet_button(CALLED[name], lambda name=name: self._bring_in(name), f"Look back by {CALLED[name]} again")
                for name in found.left_out
            ]  # fmt: skip
            self._column.addSpacing(px(0.5))
            self._column.addWidget(Flow(self._desk.look, label("Stopped; press to look back by it again:", "quiet", wrap=False), *buttons, gap=0.8))

    def _leave_out(self, name: str) -> None:
        self._desk.write(lambda store: ways.leave_out(store, name), lambda _: self._said(f"Nothing more is brought up by {CALLED[name]}."))

    def _bring_in(self, name: str) -> None:
        self._desk.write(lambda store: ways.bring_in(store, name), lambda _: self._said(f"Looking back by {CALLED[name]} again."))

    def _said(self, sentence: str) -> None:
        self._desk.said.emit(sentence)
        self._desk.changed.emit()

