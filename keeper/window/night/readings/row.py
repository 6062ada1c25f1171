"""The readings of the night shown: strips in the person's order, folded away if they wish."""

from datetime import date
from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper import settings
from keeper.actions.readings import trackers
from keeper.dates.written import number
from keeper.errors import KeeperError
from keeper.window.desk.desk import Desk
from keeper.window.night.readings.keeping import Keeping
from keeper.window.night.readings.strip import NotedStrip
from keeper.window.parts.flow import Flow
from keeper.window.parts.small import label, quiet_button, row

if TYPE_CHECKING:
    from keeper.window.night.page import NightPageView
    from keeper.window.night.readings.offer import ReadingsOffer

GAP = 0.7
"""Between strips, in times the text's height."""


class ReadingsRow(QWidget):
    """All that is noted each night, below the lines of a page."""

    def __init__(self, desk: Desk, page: "NightPageView") -> None:
        super().__init__(page)
        self._desk, self._page = desk, page
        self.night: date = page.night
        self.strips: list[NotedStrip] = []
        self.offer: ReadingsOffer | None = None
        self.keeping = Keeping(desk, self)
        self.keeping.kept.connect(self._on_kept)
        self.keeping.failed.connect(self._on_failed)
        self.keeping.cautioned.connect(self._caution)
        # Of other nights, by night and tracker, what could not be kept.
        self._left: dict[tuple[date, str], tuple[str, str]] = {}
        self._build()
        page.night_changed.connect(lambda _: self.refresh())
        page.changed_in_sight.connect(self.refresh)
        desk.dressed.connect(self._dress)
        desk.keeping.connect(self.keep)
        self.refresh()

    def _build(self) -> None:
        self.title = label("Readings", "quiet", wrap=False)
        self.state = label("", "quiet", wrap=False)
        self.fold = quiet_button("", self._fold_or_unfold)
        self.which = quiet_button("Which readings", lambda: self._desk.go("readings"), "Which readings are noted each night")
        self.head = QWidget()
        self.head.setLayout(row(self.title, self.state, None, self.fold, self.which, gap=self._desk.look.px(0.8)))
        self.flow = Flow(self._desk.look, gap=GAP)
        self.caution = label("", "quiet")
        self.understood = quiet_button("Put this away", self._put_away)
        layout = QVBoxLayout(self)
        for part in (self.head, self.flow, self.caution, self.understood):
            layout.addWidget(part)
        self.caution.hide()
        self.understood.hide()
        self._set_order_of_buttons(self.fold, self.which, self.understood)
        self._dress()

    def _dress(self) -> None:
        px = self._desk.look.px
        self.layout().setContentsMargins(0, px(0.6), 0, 0)
        self.layout().setSpacing(px(0.15))
        for strip in self.strips:
            strip.updateGeometry()
        self.flow.updateGeometry()
        self._remember_room()

    # showing

    @property
    def folded(self) -> bool:
        """Whether the strips are folded away."""
        return settings.read(self._desk.kept, "readings") == "folded"

    def refresh(self) -> None:
        """Ask again which trackers the night has, and what was noted."""
        try:
            found = trackers.of_night(self._desk.store, self._page.night)
            any_ever = bool(found) or bool(trackers.every(self._desk.store))
        except KeeperError as error:
            self._desk.said.emit(str(error))
            return
        if self.night == self._page.night and [strip.tracker_id for strip in self.strips] == [one.tracker.id for one in found]:
            for strip, one in zip(self.strips, found, strict=True):
                strip.show_noted(one)
            self._tell_letters()
        else:
            self._lay_out(found, self._page.night)
        declined = settings.read(self._desk.kept, "readings_offered")
        self._show_offer(not any_ever and not declined and not self._desk.store.only_read)
        self._tell()

    def _lay_out(self, found: tuple[trackers.Noted, ...], night: date) -> None:
        here = {one.tracker.id for one in found} if night == self.night else set()
        stay = {strip.tracker_id: strip for strip in self.strips if strip.tracker_id in here}
        for strip in self.strips:
            if strip.tracker_id not in stay:
                self._put_by(strip)
                strip.blockSignals(True)
                strip.hide()
                strip.deleteLater()
        self.night = night
        self.flow.things.clear()
        self.strips = [stay.get(one.tracker.id) or self._made(one) for one in found]
        for strip, one in zip(self.strips, found, strict=True):
            strip.show_noted(one)
            self.flow.add(strip)
        self._tell_letters()
        self.flow.updateGeometry()
        self.set_tab_order()

    def _tell_letters(self) -> None:
        letters = frozenset(strip.entry.tracker.key for strip in self.strips) - {""}
        for strip in self.strips:
            strip.letters = letters

    def _made(self, one: trackers.Noted) -> NotedStrip:
        strip, night = NotedStrip(self._desk.look, one), self.night
        strip.noted.connect(lambda text: self.keeping.note(night, strip.entry.tracker, text))
        strip.taken_back.connect(lambda: self.keeping.take_back(night, strip.entry.tracker))
        strip.onward.connect(lambda by: self._go_on(strip, by))
        strip.sought.connect(self._go_to_letter)
        strip.out.connect(self._page.back_to_words)
        strip.wrong.connect(self._desk.said)
        if left := self._left.pop((night, one.tracker.id), None):
            strip.entry.has_failed(left[1])
            strip.tell()
        return strip

    def _put_by(self, strip: NotedStrip) -> None:
        # What waits for the disk is told of by the writer; only what it would not take is put by.
        if strip.entry.failing or strip.entry.wrong():
            entry = strip.entry
            self._left[self.night, strip.tracker_id] = (entry.tracker.name, entry.unkept())

    def set_tab_order(self) -> None:
        """Take up the places of the strips among the texts and buttons of the night."""
        # After the last text: a person goes on to the readings when the words are done.
        for one, other in pairwise([self._page.last_text, *self.strips]):
            QWidget.setTabOrder(one, other)
        self._page.after_lines = self.strips[-1] if self.strips else self._page.last_text

    def _set_order_of_buttons(self, *buttons: QWidget) -> None:
        for one, other in pairwise([self._page.last_button, *buttons]):
            QWidget.setTabOrder(one, other)

    def _show_offer(self, wanted: bool) -> None:
        if wanted and self.offer is None:
            from keeper.window.night.readings.offer import ReadingsOffer

            self.offer = ReadingsOffer(self._desk)
            self.offer.begun.connect(self._on_begun)
            self.offer.declined.connect(self._decline)
            self.layout().addWidget(self.offer)
            self._set_order_of_buttons(*self.offer.buttons)
        if self.offer:
            self.offer.setVisible(wanted)

    def _on_begun(self, tracker_id: str) -> None:
        if strip := self.strip(tracker_id):
            strip.setFocus()

    def _decline(self) -> None:
        self._desk.change_setting("readings_offered", "declined")
        self.refresh()
        self._page.back_to_words()

    def _tell(self) -> None:
        noted = sum(strip.entry.reading is not None for strip in self.strips)
        self.state.setText(f"{number(noted)} of {number(len(self.strips))} noted" if noted else "")
        self.head.setVisible(bool(self.strips))
        self.flow.setVisible(bool(self.strips) and not self.folded)
        self.fold.setText("Unfold" if self.folded else "Fold away")
        self.fold.setAccessibleName("Unfold the readings" if self.folded else "Fold the readings away")
        self._remember_room()

    def _fold_or_unfold(self) -> None:
        self._desk.change_setting("readings", "open" if self.folded else "folded")
        self._tell()

    # going about

    def strip(self, tracker_id: str) -> NotedStrip | None:
        """The strip of a tracker, if it is there."""
        return next((strip for strip in self.strips if strip.tracker_id == tracker_id), None)

    def enter(self) -> None:
        """Go to the first strip without a reading, from within the row back to the words; where there are none, to their page."""
        if any(strip.hasFocus() for strip in self.strips):
            self._page.back_to_words()
        elif self.strips:
            if self.folded:
                self._fold_or_unfold()
            self._go_to(next((one for one in self.strips if not one.entry.shown()), self.strips[0]))
        elif self.offer and self.offer.isVisible():
            self.offer.buttons[0].setFocus(Qt.FocusReason.TabFocusReason)
        else:
            self._desk.go("readings")

    def _go_to(self, strip: NotedStrip) -> None:
        strip.setFocus(Qt.FocusReason.TabFocusReason)
        self._page.ensureWidgetVisible(strip)

    def _go_on(self, strip: NotedStrip, by: int) -> None:
        place = self.strips.index(strip) + by
        if 0 <= place < len(self.strips):
            self._go_to(self.strips[place])
        else:
            strip.keep()

    def _go_to_letter(self, letter: str) -> None:
        if sought := next((one for one in self.strips if one.entry.tracker.key == letter), None):
            self._go_to(sought)

    # keeping

    def _on_kept(self, night: date, tracker_id: str, text: str) -> None:
        self._left.pop((night, tracker_id), None)
        if night == self.night and (strip := self.strip(tracker_id)):
            strip.entry.was_kept(text)
            strip.tell()

    def _on_failed(self, night: date, tracker_id: str, text: str) -> None:
        if night == self.night and (strip := self.strip(tracker_id)):
            strip.entry.has_failed(text)
            strip.tell()
        else:
            self._left[night, tracker_id] = (tracker_id, text)

    def keep(self) -> None:
        """Send all that is typed."""
        for strip in self.strips:
            strip.keep()

    @property
    def failing(self) -> bool:
        """Whether a reading could not be kept."""
        return bool(self._left) or any(strip.entry.failing for strip in self.strips)

    def unkept(self) -> dict[tuple[date, str], str]:
        """What is typed and not on disk, by night and name."""
        of = {(self.night, strip.entry.tracker.name): strip.entry.unkept() for strip in self.strips}
        elsewhere = {(night, name): text for (night, _), (name, text) in self._left.items()}
        return {key: text for key, text in (elsewhere | of).items() if text}

    def _caution(self, words: str) -> None:
        self.caution.setText(words)
        self.caution.show()
        self.understood.show()

    def _put_away(self) -> None:
        self.caution.hide()
        self.understood.hide()
        self._page.back_to_words()

    # the room it takes, so that next time nothing moves when it comes

    def _remember_room(self) -> None:
        QTimer.singleShot(0, self, self._measure)

    def _measure(self) -> None:
        if not self.isVisible():
            return
        tall = sum(part.height() for part in (self.head, self.flow) if part.isVisible())
        room = str(round(10 * tall / self._desk.look.px(1))) if tall else ""
        if room != settings.read(self._desk.kept, "readings_room") and not self._desk.store.only_read:
            self._desk.change_setting("readings_room", room)
