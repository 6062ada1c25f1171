"""The frame: pages above, the ribbon below, and going from one to another."""

from collections.abc import Callable, Iterable
from datetime import date
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QByteArray, QTimer
from PySide6.QtWidgets import QButtonGroup, QPushButton, QStackedWidget, QVBoxLayout, QWidget

from keeper.actions import reading
from keeper.actions.rescue import rescue
from keeper.window.desk.desk import Desk
from keeper.window.desk.early import CENTRED, FOCUS_BY_TAB, setting
from keeper.window.desk.keys import EVERYWHERE, PAGE_KEYS
from keeper.window.desk.look import LATER_FACES, load_faces
from keeper.window.frame.elsewhere import Elsewhere
from keeper.window.night.page import NightPageView
from keeper.window.parts.flow import Flow
from keeper.window.parts.small import label, row

if TYPE_CHECKING:
    from PySide6.QtGui import QCloseEvent

    from keeper.window.frame.night_turn import NightTurn
    from keeper.window.frame.ribbon import Ribbon
    from keeper.window.parts.piecemeal import Piecemeal

Piece = Callable[[], object]

NAMES = {
    "night": "Tonight", "looking back": "Looking back", "month": "Month", "year": "Year", "themes": "Themes", "places": "Places",
    "find": "Find", "settings": "Settings",
}  # fmt: skip

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
        self._turn: NightTurn | None = None
        self._points = desk.look.points
        # Before the pages, which then set anew what they look after themselves.
        desk.dressed.connect(self._rescale)
        self._makers: dict[str, Callable[[], QWidget]] = {
            "looking back": self._make_looking_back, "month": self._make_month,
            "year": self._make_year, "find": self._make_find, "places": self._make_places,
            "themes": self._make_themes, "settings": self._make_settings,
        }  # fmt: skip
        self.pages: dict[str, QWidget] = {}
        self.buttons: dict[str, QPushButton] = {}
        self._rescued = False
        self.rescued_to: Path | None = None
        self._year_offer = None
        self._rest: Piecemeal | None = None
        self.stack = QStackedWidget()
        self.said = label("", "quiet")
        self.ribbon: Ribbon | None = None
        self._lay_out()
        self._add_page("night", NightPageView(desk))
        self._connect()

    # building

    def _lay_out(self) -> None:
        px = self.desk.look.px
        names = self._names()
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

    def _names(self) -> QWidget:
        group = QButtonGroup(self)
        for page, name in NAMES.items():
            button = QPushButton(name)
            button.setProperty("page", True)
            button.setCheckable(True)
            setting(button, FOCUS_BY_TAB)
            button.setToolTip(PAGE_KEYS[page])
            button.clicked.connect(lambda _, page=page: self.desk.go(page))
            group.addButton(button)
            self.buttons[page] = button
        return Flow(self.desk.look, *self.buttons.values(), gap=0.4, tight=0, apart=True)

    def _connect(self) -> None:
        self.desk.set_way(self.go)
        self.desk.said.connect(self.say)
        self._quiet = QTimer(self)
        self._quiet.setSingleShot(True)
        self._quiet.setInterval(SAY_FOR)
        self._quiet.timeout.connect(self.said.hide)
        self._look = QTimer(self)
        self._look.setInterval(LOOK_FOR_CHANGES)
        self._look.timeout.connect(self._look_round)
        self._look.start()

    def load_rest(self, first: Iterable[Piece] = (), last: Iterable[Piece] = ()) -> None:
        """Bring in what may come after one can type: ribbon, keys, other typefaces; ``rest_is_loaded`` tells when.

        Each piece in a turn of its own, so that a key that is pressed
        meanwhile does not wait for all.
        """
        from keeper.window.frame import foreign_letters
        from keeper.window.parts.piecemeal import Piecemeal

        night, self._rest = self.pages["night"], Piecemeal(self)
        self.desk.ending.connect(self._rest.stop)
        self._rest.begin([
            *first, self.take_in_faces, self._add_ribbon, self._add_keys, night.read_both_ways,
            night.look_back, night.read_clock, self._place_new_lines, self.offer_year, self._offer_turn,
            self._use_the_quiet, _fetch_photos, night.add_photos, *foreign_letters.pieces(self, self.dress_anew),
            _fetch_lists, *last,
        ])  # fmt: skip

    def take_in_faces(self) -> None:
        """Load the faces one does not type in, and draw with them what is shown already."""
        load_faces(LATER_FACES)
        # A question was drawn with letters that are only slanted, and nothing else would draw it anew.
        self.update()

    def rest_is_loaded(self) -> bool:
        """Whether all that comes after one can type is there."""
        return self._rest is not None and self._rest.over()

    def _use_the_quiet(self) -> None:
        from keeper.window.frame.night_turn import NightTurn
        from keeper.window.frame.quiet import DueThemes, Quiet, Tidying, Warming

        quiet = Quiet(self)
        self._turn = NightTurn(self, quiet)
        Warming(quiet)
        if not self.desk.store.only_read:
            DueThemes(quiet, self.desk)
            Tidying(quiet, self.desk)

    def _place_new_lines(self) -> None:
        from keeper.window.themes.work import NewLines

        if not self.desk.store.only_read:
            NewLines(self.desk, self)

    def offer_year(self) -> None:
        """At the year's end, offer to sit down with it."""
        # In two months of the year; in the others it costs nothing.
        if self._year_offer is None and self.desk.tonight().month in (12, 1):
            from keeper.window.year.sitting.offer import YearOffer

            self._year_offer = YearOffer(self.desk, self.pages["night"], self.sit_down_with)

    def _offer_turn(self) -> None:
        from keeper.window.month.turning.offer import TurnOffer

        self._turn_offer = TurnOffer(self.desk, self.pages["night"])

    def _add_ribbon(self) -> None:
        from keeper.window.frame.ribbon import Ribbon

        self.ribbon = ribbon = Ribbon(self.desk.look, self.desk.tonight())
        ribbon.picked.connect(lambda night: self.go(self._page_of_nights(), night))
        ribbon.span_picked.connect(self._say_where_between)
        ribbon.year_wanted.connect(lambda _: self.refresh_ribbon())
        self.desk.changed.connect(self.refresh_ribbon)
        self.desk.dressed.connect(ribbon.dress)
        self.layout().replaceWidget(self.along, ribbon)
        self.along.deleteLater()
        ribbon.turn(self.desk.tonight(), self.desk.latest_night())
        ribbon.show_night(self.night)

    def _add_keys(self) -> None:
        from PySide6.QtGui import QKeySequence, QShortcut

        acts: dict[str, Callable[[], object]] = {f"page:{page}": lambda page=page: self.go(page) for page in PAGE_KEYS} | {
            "keys": self._show_keys,
            "tonight": lambda: self.go("night", self.desk.tonight()),
            "night before": lambda: self._step(-1),
            "night after": lambda: self._step(1),
            "date": self._ask_date,
            "place": self._say_where,
            "close": self.close,
        }
        for pressed, act in (shortcut for key in EVERYWHERE for shortcut in key.shortcuts):
            QShortcut(QKeySequence(pressed), self).activated.connect(acts[act])

    def _make_looking_back(self) -> QWidget:
        from keeper.window.looking_back.page import LookingBackPage

        return LookingBackPage(self.desk)

    def _make_find(self) -> QWidget:
        from keeper.window.find.page import FindPage

        return FindPage(self.desk)

    def _make_month(self) -> QWidget:
        from keeper.window.month.page import MonthPage

        return MonthPage(self.desk)

    def _make_year(self) -> QWidget:
        from keeper.window.year.page import YearPage

        page = YearPage(self.desk)
        page.theme_wanted.connect(lambda number: self._go_within("themes", "show_theme", number))
        page.place_wanted.connect(lambda place_id: self._go_within("places", "show_place", place_id))
        return page

    def _make_places(self) -> QWidget:
        from keeper.window.places.page import PlacesPage

        page = PlacesPage(self.desk)
        page.theme_wanted.connect(lambda number: self._go_within("themes", "show_theme", number))
        return page

    def _make_themes(self) -> QWidget:
        from keeper.window.themes.page import ThemesPage

        page = ThemesPage(self.desk)
        page.narrowed.connect(self._narrow)
        return page

    def _make_settings(self) -> QWidget:
        from keeper.window.settings.page import SettingsPage

        return SettingsPage(self.desk)

    def _add_page(self, name: str, page: QWidget) -> None:
        self.pages[name] = page
        self.stack.addWidget(page)

    # going about

    def go(self, name: str, night: date | None = None) -> None:
        """Open a page, perhaps on another night; what was typed is kept first."""
        self.pages["night"].commit_all()
        if self._turn:
            self._turn.drop()
        if name not in self.pages:
            self._add_page(name, self._makers[name]())
        page = self.pages[name]
        # "Tonight" in the row of pages leads back to tonight, not to the night seen last.
        self.night = night or (self.desk.tonight() if name == "night" else self.night)
        self.stack.setCurrentWidget(page)
        self.buttons[name].setChecked(True)
        if hasattr(page, "show_night"):
            page.show_night(self.night)
        if hasattr(page, "show_page"):
            page.show_page()
        if self.ribbon:
            self.ribbon.show_night(self.night)
            self.ribbon.narrow(getattr(page, "only", None))
        page.setFocus()
        if news := self.desk.store.news_of_damage():
            self.say(" ".join(news))

    def _narrow(self, only: frozenset[date] | None) -> None:
        if self.ribbon and self.sender() is self.stack.currentWidget():
            self.ribbon.narrow(only)

    def _go_within(self, name: str, show: str, what: int | str) -> None:
        """Open a page on one of its things."""
        self.go(name)
        getattr(self.pages[name], show)(what)

    def sit_down_with(self, year: int) -> None:
        """Open the sitting with a year."""
        self.go("year", min(date(year, 12, 31), self.desk.tonight()))
        self.pages["year"].sit_down()

    def page_shown(self) -> str:
        """The name of the page that is seen."""
        return next(name for name, page in self.pages.items() if page is self.stack.currentWidget())

    def shows_a_night(self) -> bool:
        """Whether the page seen is one of a single night."""
        return self.page_shown() == self._page_of_nights()

    def _page_of_nights(self) -> str:
        return "looking back" if self.page_shown() == "looking back" else "night"

    def _ask_date(self) -> None:
        from keeper.window.frame.go_to import GoToDialog

        dialog = GoToDialog(self.desk, self.night, self)
        if dialog.exec():
            self.go(self._page_of_nights(), dialog.night)

    def _step(self, days: int) -> None:
        self.go(self._page_of_nights(), self.desk.shifted(self.night, days))

    def _show_keys(self) -> None:
        from keeper.window.frame.keys_sheet import KeysSheet

        KeysSheet(self.desk, self).exec()

    def _say_where_between(self, first: date, last: date) -> None:
        from keeper.window.parts.places.span_dialog import SpanDialog

        place_id = self.ribbon.place_of(first) or self.ribbon.place_of(last)
        known = (place for place in reading.known_places(self.desk.store) if place.id == place_id)
        SpanDialog(self.desk, self, next(known, None), first, last).exec()
        self.ribbon.let_span_go()

    def _say_where(self) -> None:
        if self.page_shown() != "night":
            self.go("night", self.night)
        place = self.pages["night"].place
        place.setFocus()
        place.selectAll()

    def come_forward(self, night: date | None = None) -> None:
        """Bring the window before all others, perhaps on a night."""
        if self.isMinimized():
            self.showNormal()
        self.show()
        self.raise_()
        self.activateWindow()
        if night:
            self.go("night", night)

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
        if self._turn:
            self._turn.look()

    # leaving

    def keep_all(self) -> bool:
        """Put everything typed on disk; False when it could not be."""
        page = self.pages["night"]
        page.commit_all()
        for other in ("month", "year"):
            if other in self.pages:
                self.pages[other].keep()
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
        return {**self.pages["night"].unkept(), **self.desk.words.at_risk()}

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
        self.desk.end()
        event.accept()

    def leave(self) -> None:
        """Close because the system asks; what cannot be kept is rescued."""
        if not self.close():
            self.close()

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
        shape = bytes(self.saveGeometry().toBase64()).decode()
        state = {"window": shape, "page": self.page_shown(), "night": self.night.isoformat(),
                 "left_on": self.desk.tonight().isoformat()}  # fmt: skip
        changed = {name: value for name, value in state.items() if self.desk.kept.get(name) != value}
        for name, value in changed.items():
            self.desk.change_setting(name, value)

    def restore(self) -> None:
        """Take up the size and place of last time."""
        shape = self.desk.kept.get("window", "")
        if not shape or not self.restoreGeometry(QByteArray.fromBase64(shape.encode())):
            from keeper.window.frame.on_screen import resize_within_screen

            resize_within_screen(self, self.desk.look.px(76), self.desk.look.px(56))
        elif not self.isMaximized() and not self.isFullScreen():
            # The screen may be a smaller one now, with a title bar above the window.
            room = self.screen().availableGeometry()
            if not room.adjusted(0, self.desk.look.px(3), 0, 0).contains(self.geometry()):
                from keeper.window.frame.on_screen import drawn_in

                self.setGeometry(drawn_in(self.geometry(), room))


def _fetch_photos() -> None:
    # In a turn before the one in which they are shown.
    import_module("keeper.window.photos.strip")


def _fetch_lists() -> None:
    # Most pages have a list: the first to be opened need not wait for what Qt
    # sets up for lists of any kind.
    import_module("keeper.window.parts.found_list")
