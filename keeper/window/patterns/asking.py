"""Asking what goes with what; from here the further pages are reached."""

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal

from keeper.window.desk.desk import Desk
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.flow import Flow
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import Paper, label, quiet_button

if TYPE_CHECKING:
    from keeper.window.patterns.page import Further


class AskingPage(BasicPage, AsksAgain, Paper):
    """What goes with what; ``further_wanted`` comes with the name of a further page, and perhaps what it is to show."""

    further_wanted = Signal(str, object)

    def __init__(self, desk: Desk, further: Sequence["Further"]) -> None:
        super().__init__(desk.look)
        self.desk = desk
        self.heading = label("Patterns", "head")
        self.ways = [quiet_button(one.title, lambda name=one.name: self.further_wanted.emit(name, None)) for one in further]
        self.body.addWidget(self.heading)
        self.body.addWidget(Flow(desk.look, *self.ways, gap=1.2))
        self.body.addStretch(1)
        if self.ways:
            self.lead_with(self.ways[0])

    def show_night(self, night: date) -> None:
        """The same on any night."""
        self.ask()

    def ask(self) -> None:
        """Nothing is shown yet that could change."""
