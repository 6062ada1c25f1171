"""What may come after one can type: ribbon, keys, offers, photos, other typefaces."""

from collections.abc import Callable, Iterable
from importlib import import_module
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtGui import QColor, QPainter, QPixmap
from PySide6.QtWidgets import QScrollArea, QWidget

from keeper.window.desk.look import LATER_FACES, load_faces
from keeper.window.parts.piecemeal import Piecemeal

if TYPE_CHECKING:
    from keeper.window.frame.damage.rescued import RescuedOffer
    from keeper.window.frame.quiet import Quiet
    from keeper.window.frame.ribbon.tinting import RibbonTint
    from keeper.window.frame.window import Frame
    from keeper.window.giving.cut_off import CutOffOffer
    from keeper.window.month.turning.offer import TurnOffer
    from keeper.window.night.trying_line import TryingLine
    from keeper.window.patterns.offer import PatternOffer
    from keeper.window.people.offer import DaysOffer
    from keeper.window.taking_in.offer import TrayOffer
    from keeper.window.year.sitting.offer import YearOffer

Piece = Callable[[], object]


class Rest(QObject):
    """Brings in the rest of a window, each piece in a turn of its own, so that a key pressed meanwhile waits for one only."""

    def __init__(self, frame: "Frame") -> None:
        super().__init__(frame)
        self._frame, self._desk = frame, frame.desk
        self.year_offer: YearOffer | None = None
        self.turn_offer: TurnOffer | None = None
        self.pattern_offer: PatternOffer | None = None
        self.days_offer: DaysOffer | None = None
        self.tint: RibbonTint | None = None
        self.rescued_offer: RescuedOffer | None = None
        self.trying: TryingLine | None = None
        self.tray_offer: TrayOffer | None = None
        self._quiet: Quiet | None = None
        self.cut_off_offer: CutOffOffer | None = None
        self._coming = Piecemeal(self)
        self._desk.ending.connect(self._coming.stop)

    def begin(self, first: Iterable[Piece], last: Iterable[Piece]) -> None:
        """Bring all in, with pieces of others before and after."""
        from keeper.window.frame.start import foreign_letters

        frame, night = self._frame, self._frame.night_page
        self._coming.begin([
            *first, self.take_in_faces, _make_constants, _make_constants_of_grounds, *fetching("window.frame.ribbon.ribbon"), self._add_ribbon,
            *fetching("actions.readings.trackers"), self._tint_ribbon, *fetching("store.history.acts", "window.frame.undoing"),
            self._add_ways, night.read_both_ways, *fetching("store.photos.files", "actions.remembering.bringing_up"),
            night.look_back, night.read_clock, self._place_new_lines, *fetching("actions.trying.beginning", "actions.trying.tonight"),
            self._tell_what_is_tried, self.offer_year, self._offer_turn, self._offer_patterns, self._tell_days, self._name_people,
            self._use_the_quiet, self._offer_rescued, self._offer_tray, self._tell_cut_off,
            *fetching("actions.readings.noting", "window.night.readings.row", "window.night.readings.offer"), self._hang_readings,
            *fetching("actions.photos.bringing", "actions.places.known", "actions.photos.kept", "window.photos.coming", "window.photos.strip"),
            _go_through_widgets, self._hang_photos, *foreign_letters.pieces(frame, frame.dress_anew),
            _make_constants_of_styles, *fetching("store.finding.counted", "actions.finding", "window.parts.found_list"), *last, self._warm,
        ])  # fmt: skip

    def add(self, pieces: Iterable[Piece]) -> None:
        """Do these too, after what is still to come."""
        self._coming.add(list(pieces))

    def over(self) -> bool:
        """Whether all is there."""
        return self._coming.over()

    def take_in_faces(self) -> None:
        """Load the faces one does not type in, and draw with them what is shown already."""
        load_faces(LATER_FACES)
        # A question was drawn with letters that are only slanted, and nothing else would draw it anew.
        # What fills its own ground is not drawn when what it stands in is.
        for part in self._frame.findChildren(QWidget):
            part.update()

    def _add_ribbon(self) -> None:
        from keeper.window.frame.ribbon.ribbon import Ribbon

        frame = self._frame
        frame.ribbon = ribbon = Ribbon(self._desk.look, self._desk.tonight())
        ribbon.picked.connect(lambda night: frame.go(frame.page_of_nights(), night))
        ribbon.year_wanted.connect(lambda _: frame.refresh_ribbon())
        self._desk.changed.connect(frame.refresh_ribbon)
        self._desk.dressed.connect(ribbon.dress)
        frame.layout().replaceWidget(frame.along, ribbon)
        frame.along.deleteLater()
        ribbon.turn(self._desk.tonight(), self._desk.latest_night())
        ribbon.show_night(frame.night)

    def _tint_ribbon(self) -> None:
        from keeper.window.frame.ribbon.tinting import RibbonTint

        if self._frame.ribbon:
            self.tint = RibbonTint(self._frame)

    def _add_ways(self) -> None:
        from keeper.window.frame.ways import Ways

        Ways(self._frame)

    def _place_new_lines(self) -> None:
        from keeper.window.themes.work import NewLines

        if not self._desk.store.only_read:
            NewLines(self._desk, self._frame)

    def _tell_what_is_tried(self) -> None:
        from keeper.window.night.trying_line import TryingLine

        self.trying = TryingLine(self._desk, self._frame.night_page)

    def offer_year(self) -> None:
        """At the year's end, offer to sit down with it."""
        # In two months of the year; in the others it costs nothing.
        if self.year_offer is None and self._desk.tonight().month in (12, 1):
            from keeper.window.year.sitting.offer import YearOffer

            self.year_offer = YearOffer(self._desk)
            self._frame.night_page.offer(self.year_offer.button)

    def _offer_turn(self) -> None:
        from keeper.window.month.turning.offer import TurnOffer

        self.turn_offer = TurnOffer(self._desk)
        self._frame.night_page.offer(self.turn_offer.button)

    def _offer_patterns(self) -> None:
        from keeper.window.patterns.offer import PatternOffer

        self.pattern_offer = PatternOffer(self._desk)
        self._frame.night_page.offer(self.pattern_offer.button)

    def _tell_days(self) -> None:
        from keeper.window.people.offer import DaysOffer

        self.days_offer = DaysOffer(self._desk)
        self._frame.night_page.offer(self.days_offer.button)

    def _name_people(self) -> None:
        from keeper.window.night.people_named import NamedOnNight

        NamedOnNight(self._desk, self._frame.night_page)

    def _use_the_quiet(self) -> None:
        from keeper.actions.damage.checking import why_damaged
        from keeper.window.frame.damage.soundness import Soundness
        from keeper.window.frame.night_turn import NightTurn
        from keeper.window.frame.quiet import DueThemes, Quiet, Tidying
        from keeper.window.frame.start.backing_up import BackingUp

        self._quiet = quiet = Quiet(self._frame, self._frame.stack)
        self._frame.turn = NightTurn(self._frame, quiet)
        if not self._desk.store.only_read or why_damaged(self._desk.store):
            Soundness(self._frame, quiet)
        if not self._desk.store.only_read:
            DueThemes(quiet, self._desk)
            Tidying(quiet, self._desk)
            BackingUp(quiet, self._desk)

    def _warm(self) -> None:
        from keeper.window.frame.start.foreign_letters import looked_for
        from keeper.window.frame.start.warming import Warming

        # Now that nothing else comes in the same turns.
        if self._quiet:
            sans = self._desk.look.sans
            Warming(self._quiet, looked_for((sans(1.0), sans(0.8), self._frame.night_page.place.font())))

    def _hang_readings(self) -> None:
        from keeper.window.night.readings.row import ReadingsRow

        night = self._frame.night_page
        if night.readings is None and self._frame.isVisible():
            night.hang_readings(ReadingsRow(self._desk, night))

    def _offer_rescued(self) -> None:
        if not self._desk.store.only_read:
            from keeper.window.frame.damage.rescued import RescuedOffer

            self.rescued_offer = RescuedOffer(self._desk)
            self._frame.night_page.offer(self.rescued_offer.button)

    def _offer_tray(self) -> None:
        if not self._desk.store.only_read:
            from keeper.window.taking_in.offer import TrayOffer

            self.tray_offer = TrayOffer(self._desk)
            self._frame.night_page.offer(self.tray_offer.button)

    def _tell_cut_off(self) -> None:
        if not self._desk.store.only_read:
            from keeper.window.giving.cut_off import CutOffOffer

            self.cut_off_offer = CutOffOffer(self._desk)
            self._frame.night_page.offer(self.cut_off_offer.button)

    def _hang_photos(self) -> None:
        from keeper.window.photos.strip import PhotoStrip

        night = self._frame.night_page
        if night.photos is None and self._frame.isVisible():
            night.hang(PhotoStrip(self._desk, night))


def fetching(*modules: str) -> list[Piece]:
    """Bring modules in, each in a turn of its own, before the one in which they are needed."""
    return [lambda name=name: import_module(f"keeper.{name}") for name in modules]


def _make_constants() -> None:
    # The first mention makes all of them (see ``desk/early.py``): nothing else in this turn.
    from PySide6.QtCore import Qt

    del Qt


def _make_constants_of_grounds() -> None:
    # The first ground that is filled makes all that it could be filled with, a hundred and eighty gradients among it.
    ground = QPixmap(1, 1)
    with QPainter(ground) as painter:
        painter.fillRect(ground.rect(), QColor())


def _make_constants_of_styles() -> None:
    # Every list has to do with them.
    from PySide6.QtWidgets import QStyle

    del QStyle


def _go_through_widgets() -> None:
    # The first part that Qt has made, not we, lets PySide6 go through all kinds of parts to find which it is.
    QScrollArea().viewport()
