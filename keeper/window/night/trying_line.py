"""One quiet line on a night's page: with or without what is tried, as the lot fell; at its end an offer to see what came of it."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QPushButton

from keeper.actions.trying import tonight
from keeper.actions.trying.beginning import LEAF, PAGE
from keeper.errors import KeeperError
from keeper.window.desk.desk import Desk
from keeper.window.parts.flow import Flow
from keeper.window.parts.small import label, plainly, quiet_button
from keeper.window.parts.tips import plain_tip

if TYPE_CHECKING:
    from keeper.window.night.page import NightPageView


class TryingLine(QObject):
    """Stands beside what night it is, so that nothing below moves when it comes."""

    def __init__(self, desk: Desk, page: "NightPageView") -> None:
        super().__init__(page)
        self._desk, self._page = desk, page
        self.told = label("", "quiet", wrap=False)
        self.told.hide()
        self.offer: QPushButton | None = None
        self._stands = False
        page.night_changed.connect(lambda _: self.refresh())
        page.changed_in_sight.connect(self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """Ask again what is tried on the night shown."""
        try:
            told = tonight.told(self._desk.store, self._page.night, self._desk.tonight())
        except KeeperError as error:
            self._desk.said.emit(str(error))
            return
        self._show_line(told.line)
        self._show_offer(told.at_its_end)

    def _show_line(self, words: str) -> None:
        if words and not self._stands:
            self._take_its_place()
        self.told.setText(words)
        # In very large letters a long name may not have room.
        self.told.setToolTip(plain_tip(words))
        self.told.setVisible(bool(words))

    def _take_its_place(self) -> None:
        # Not before there is something to tell: most nights nothing is tried.
        self._stands = True
        body, when = self._page.body, self._page.when
        at = body.indexOf(when)
        body.removeWidget(when)
        when.setWordWrap(False)
        both = Flow(self._desk.look, when, self.told, gap=1.2)
        body.insertWidget(at, both)
        # On a page that is seen it would stand there a turn later.
        both.show()

    def _show_offer(self, words: str) -> None:
        if words and self.offer is None:
            self.offer = quiet_button("", lambda: self._desk.go(PAGE, None, LEAF))
            self._page.offer(self.offer)
        if self.offer:
            self.offer.setText(plainly(words))
            self.offer.setAccessibleName(words)
            self.offer.setVisible(bool(words))
