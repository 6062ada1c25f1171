"""The frame: pages above, the ribbon below, and going from one to another."""

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QPushButton, QStackedWidget, QVBoxLayout, QWidget

from keeper.actions import reading
from keeper.actions.rescue import rescue
from keeper.window.desk.desk import Desk
from keeper.window.desk.early import CENTRED, setting
from keeper.window.desk.pages import LISTED, NIGHT
from keeper.window.frame import page_row, shape
from keeper.window.frame.elsewhere import Elsewhere
from keeper.window.parts.small import label, row

if TYPE_CHECKING:
    from collections.abc import Iterable

    from PySide6.QtGui import QCloseEvent

    from keeper.window.frame.night_turn import NightTurn
    from keeper.window.frame.ribbon.ribbon import Ribbon
    from keeper.window.frame.start.rest import Piece, Rest
    from keeper.window.night.page import NightPageView
    from keeper.window.parts.page import Page

LOOK_FOR_CHANGES = 1000
"""Milliseconds between looks for what another program wrote."""

SAY_FOR = 9000


class Frame(QWidget):
    """The program's window."""

    def __init__(self, desk: Desk, title: str = "Keeper of Days") -> None:
        super().__init__()
        self.desk = desk
        # Before the pages, which hear of a change after it.
        self._elsewhere = Elsewhere(desk, self)
        self.setWindowTitle(title)
        self.night: date = desk.tonight()
        # These two come with the rest.
        self.rest: Rest | None = None
        self.turn: NightTurn | None = None
        self._points = desk.look.points
        # Before the pages, which then set anew what they look after themselves.
        desk.dressed.connect(self._rescale)
        self.pages: dict[str, Page] = {}
        self.buttons: dict[str, QPushButton]
        self._rescued = False
        self.opens_anew = False
        self.rescued_to: Path | None = None
        self.then_open: Path | None = None
        self.stack = desk.look.stage = QStackedWidget()
        self.said = label("", "quiet")
        self.ribbon: Ribbon | None = None
        self._lay_out()
        self._page(NIGHT)
        self._connect()

    # building

    def _lay_out(self) -> None:
        px = self.desk.look.px
        self.buttons, names = page_row.made(self.desk)
        self.along = QWidget()
        self.along.setFixedHeight(px(5))
        body = QVBoxLayout(self)
        body.setContentsMargins(0, 0, 0, 0)
        body.setSpacing(0)
        above = row(names, gap=0)
        above.setContentsMargins(px(0.6), px(0.4), px(0.6), 0)
        body.addLayout(above)
        body.addWidget(self.stack, 1)
        self.said.setContentsMargins(px(1.2), 0, px(1.2), px(0.3))
        setting(self.said, CENTRED)
        self.said.hide()
        body.addWidget(self.said)
        body.addWidget(self.along)
        # Enlarged text must not make the window larger than a small screen.
        self.setMinimumSize(min(px(36), 640), min(px(28), 480))

    def _connect(self) -> None:
        self.desk.set_way(self.go)
        self.desk.said.connect(self.say)
        self.desk.mended.connect(self._open_anew)
        self.desk.narrowed.connect(self._narrow)
        self._quiet = QTimer(self)
        self._quiet.setSingleShot(True)
        self._quiet.setInterval(SAY_FOR)
        self._quiet.timeout.connect(self.said.hide)
        self._look = QTimer(self)
        self._look.setInterval(LOOK_FOR_CHANGES)
        self._look.timeout.connect(self._look_round)
        self._look.start()

    def load_rest(self, first: "Iterable[Piece]" = (), last: "Iterable[Piece]" = ()) -> None:
        """Bring in what may come after one can type, with pieces of others; ``rest_is_loaded`` tells when."""
        from keeper.window.frame.start.rest import Rest

        self.rest = Rest(self)
        self.rest.begin(first, last)

    def rest_is_loaded(self) -> bool:
        """Whether all that comes after one can type is there."""
        return self.rest is not None and self.rest.over()

    def _page(self, name: str) -> "Page":
        if name not in self.pages:
            page = self.pages[name] = LISTED[name].make(self.desk)
            self.desk.dressed.connect(page.dress)
            self.stack.addWidget(page)
        return self.pages[name]

    @property
    def night_page(self) -> "NightPageView":
        """The page of a night: on it hang the photos and the offers, and the place is said."""
        return self.pages[NIGHT]

    # going about

    def go(self, name: str, night: date | None = None, thing: object = None) -> None:
        """Open a page, perhaps on another night or one of its things; what was typed is kept first."""
        self.stack.currentWidget().leave()
        if self.turn:
            self.turn.drop()
        page = self._page(name)
        # "Tonight" in the row of pages leads back to tonight, not to the night seen last.
        self.night = night or (self.desk.tonight() if name == NIGHT else self.night)
        self.stack.setCurrentWidget(page)
        for button in self.buttons.values():
            button.setChecked(button is self.buttons[name])
        page.show_night(self.night)
        if thing is not None:
            page.show_thing(thing)
        if self.ribbon:
            self.ribbon.show_night(self.night)
            self.ribbon.narrow(page.only)
        page.setFocus()
        if news := self.desk.store.news_of_damage():
            self.say(" ".join(news))

    def _narrow(self) -> None:
        if self.ribbon:
            only = self.stack.currentWidget().only
            if only and all(night.year != self.ribbon.year for night in only):
                self.ribbon.show_year(max(only).year)
            self.ribbon.narrow(only)

    def page_shown(self) -> str:
        """The name of the page that is seen."""
        return next(name for name, page in self.pages.items() if page is self.stack.currentWidget())

    def shows_a_night(self) -> bool:
        """Whether the page seen is one of a single night."""
        return LISTED[self.page_shown()].of_a_night

    def page_of_nights(self) -> str:
        """The name of the page on which one goes from night to night: the one seen, if it is of a night."""
        return self.page_shown() if self.shows_a_night() else NIGHT

    def come_forward(self, night: date | None = None) -> None:
        """Bring the window before all others, perhaps on a night."""
        if self.isMinimized():
            self.showNormal()
        self.show()
        self.raise_()
        self.activateWindow()
        if night:
            self.go(NIGHT, night)

    def say(self, sentence: str, until_read: bool = False) -> None:
        """Show a sentence for a while, or until another is said."""
        self.said.setText(sentence)
        self.said.show()
        if until_read:
            self._quiet.stop()
        else:
            self._quiet.start()

    # keeping up

    def refresh_ribbon(self) -> None:
        """Ask again for the ticks of the year shown."""
        year = self.ribbon.year
        self.ribbon.turn(self.desk.tonight(), self.desk.latest_night())
        self.desk.reader.run(
            lambda store, task: reading.ribbon_year(store, year), lambda told: self.ribbon.give(year, *told)
        )

    def _look_round(self) -> None:
        self._elsewhere.look()
        if self.turn:
            self.turn.look()

    # leaving

    def keep_all(self) -> bool:
        """Put everything typed on disk; False when it could not be."""
        for page in self.pages.values():
            page.keep()
        self.desk.keeping.emit()
        # Twice, as what could not be kept is put by then.
        return (self._written() and not self.unkept()) or (self._written() and not self.unkept())

    def _written(self) -> bool:
        from PySide6.QtWidgets import QApplication

        finished = self.desk.writer.finish()
        QApplication.processEvents()
        return finished

    def unkept(self) -> dict[tuple, str]:
        """What is typed but neither on disk nor put by, by what it is for."""
        of_pages = {key: text for page in self.pages.values() for key, text in page.unkept().items()}
        return {**of_pages, **self.desk.words.at_risk()}

    def closeEvent(self, event: "QCloseEvent") -> None:
        self._remember()
        if not self.keep_all() and not self._rescued:
            self.rescued_to = rescue(self.unkept(), self.desk.folder, self.desk.tonight(), self.rescued_to)
            self._rescued = True
            where = f"A copy of the words is in {self.rescued_to}. " if self.rescued_to else ""
            self.say(f"Not everything could be kept. {where}Close again to quit anyway.")
            self._quiet.stop()
            event.ignore()
            return
        self._look.stop()
        # What is being made may take seconds to be broken off; nobody has to look on.
        self.hide()
        self.desk.end()
        event.accept()

    def leave(self) -> None:
        """Close because the system asks; what cannot be kept is rescued."""
        if not self.close():
            self.close()

    def _open_anew(self) -> None:
        self.opens_anew = True
        self.leave()

    def dress_anew(self) -> None:
        """Follow the system from day to night or back."""
        self.desk.look.dress(self.desk.kept)
        self.desk.dressed.emit()

    def _rescale(self) -> None:
        by, self._points = self.desk.look.points / self._points, self.desk.look.points
        if by != 1:
            from keeper.window.parts.rescale import rescale

            rescale(self, by)

    def _remember(self) -> None:
        state = {"window": shape.told(self), "page": self.page_shown(), "night": self.night.isoformat(),
                 "left_on": self.desk.tonight().isoformat()}  # fmt: skip
        changed = {name: value for name, value in state.items() if self.desk.kept.get(name) != value}
        for name, value in changed.items():
            self.desk.change_setting(name, value)

    def restore(self) -> None:
        """Take up the size and place of last time."""
        shape.take_up(self, self.desk.look, self.desk.kept.get("window", ""))
