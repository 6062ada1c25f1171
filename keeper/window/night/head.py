"""The head of a night: its date, when that is, and where it was spent."""

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.actions import reading
from keeper.model import Place
from keeper.review.night import NightPage
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.early import FOCUS_BY_TAB, NO_FOCUS, setting
from keeper.window.parts.places.field import PlaceField
from keeper.window.parts.small import headed, label, quiet_button, row
from keeper.window.parts.tips import plain_tip
from keeper.window.parts.typing.put_by import PutBy

if TYPE_CHECKING:
    from keeper.window.parts.places.town_search import TownSearch


class NightHead(QObject):
    """What stands above the lines of a night; its parts are laid into the page that it heads."""

    def __init__(self, desk: Desk, page: QWidget) -> None:
        super().__init__(page)
        self.desk, self._page = desk, page
        self.night: date = desk.tonight()
        self.heading = label("", "head")
        self.before = quiet_button("\u2039 earlier", lambda: self._step(-1), "The night before")
        self.after = quiet_button("later \u203a", lambda: self._step(1), "The night after")
        self.when = label("", "quiet")
        self.place = PlaceField(lambda: reading.known_places(desk.store), self._towns)
        self.place.chosen.connect(self._set_place)
        self.place.refused.connect(desk.said)
        self.place.span_wanted.connect(self._say_where_between)
        self.place_said = label("", "quiet", wrap=False)
        self.place_words = PutBy(desk, self.place, "place")
        self.also = quiet_button("other nights too \u203a", self._say_where_between, "Say the place for other nights too")
        self.also.setToolTip("Ctrl+Enter in the place")
        self.fit()

    def lay_into(self, body: QVBoxLayout) -> None:
        """Take up the beginning of a page."""
        for button in (self.before, self.after):
            setting(button, FOCUS_BY_TAB)
        body.addLayout(headed(self.heading, self.before, self.after))
        body.addWidget(self.when)
        at = label("At", "quiet", wrap=False)
        at.setBuddy(self.place)
        setting(self.also, NO_FOCUS)
        body.addLayout(row(at, self.place, self.place_said, self.also, None, gap=self.desk.look.px(0.6)))

    def fit(self) -> None:
        """Take up the sizes in force."""
        self.place.setMinimumWidth(self.desk.look.px(14))

    def show_page(self, page: NightPage) -> None:
        """Show what is kept of a night, as far as it is told here."""
        self.night, tonight = page.night.date, self.desk.tonight()
        self.heading.setText(wording.long_date(self.night))
        self.after.setEnabled(self.night < max(tonight, page.latest or tonight))
        self.when.setText(wording.which_night(self.night, tonight, self.desk.clock.now(), self.desk.rollover()))
        self._show_place(page)

    def _show_place(self, page: NightPage) -> None:
        place = page.night.place or page.carried
        name = place.name if place else ""
        zone = self.desk.clock.zone() if page.left else ""
        self.place.show_place(name, self.place_words.shown(self.night.isoformat(), name), zone)
        self.place_said.setText(self._of_place(page, place))
        self.place_said.setToolTip(plain_tip(f"{page.left.name} is in another time zone than this clock.") if page.left else "")
        self.also.setVisible(bool(place))

    def _of_place(self, page: NightPage, place: Place | None) -> str:
        if self.place_words.waits() and not self.place.hasFocus():
            return "not kept yet"
        if page.left:
            return "not carried on: another time zone"
        return "carried on" if place and (page.carried or page.night.place_source == "carried") else ""

    def _step(self, days: int) -> None:
        self.desk.go("night", self.desk.shifted(self.night, days))

    def _towns(self) -> "TownSearch":
        from keeper.window.parts.places.town_search import TownSearch

        return TownSearch(self.desk)

    def _set_place(self, chosen) -> None:
        night = self.night

        def write(store, _):
            # On the writer's lane, since it brings the gazetteer along.
            from keeper.actions.places.towns import set_where

            return set_where(store, night, chosen, self.desk.clock)

        name = chosen if isinstance(chosen, str) else chosen.name
        self.place.show_place(name, name)
        self.place_words.write(write, anyway=True)

    def _say_where_between(self) -> None:
        from keeper.window.parts.places.span_dialog import SpanDialog

        night = self.night
        self.place.settle()
        # The night itself is said first, and written in its order; then its place is known.
        self.desk.write(
            lambda store: reading.night_page(store, night, night),
            lambda page: SpanDialog(self.desk, self._page, page.night.place or page.carried, night).exec(),
        )
