"""What may be done next with photos that just came or went: a few quiet buttons."""

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from keeper.actions import reading
from keeper.actions.photos import kept as photos
from keeper.actions.photos.kept import PlaceOffer, TakenIn
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import emptied, label, quiet_button, row
from keeper.window.photos.taking import Batch, likeliest


class PhotoOffers(QWidget):
    """Offers that wait for an answer, none of which must be given.

    ``answered`` comes when the last button pressed has gone.
    """

    answered = Signal()
    anyway = Signal(object, object)
    """Sources that are cut short, to be taken all the same, and the night."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.buttons: list[QPushButton] = []
        self._rows = QVBoxLayout(self)
        self._rows.setContentsMargins(0, 0, 0, 0)
        self._rows.setSpacing(0)
        self.hide()

    def clear(self) -> None:
        """Offer nothing any more."""
        emptied(self._rows)
        self.buttons.clear()
        self.hide()

    def after(self, batch: Batch) -> None:
        """Offer what follows from the photos of a batch."""
        self.clear()
        astray = batch.astray()
        if astray:
            self._offer_own_nights(batch.night, astray)
        self._offer_place(batch.night, batch.place())
        if batch.cut_off:
            self._offer_anyway(batch)

    def _offer_anyway(self, batch: Batch) -> None:
        sources, night = batch.cut_off, batch.night
        one = len(sources) == 1
        said = "Of one photo only a part can be seen." if one else f"Of {len(sources)} photos only a part can be seen."
        self._add(said, ("Take it anyway" if one else "Take them anyway", lambda: self.anyway.emit(sources, night)))

    def after_taking_out(self, act: int) -> None:
        """Offer to put a photo back with its night: to undo the act by which it went."""
        self.clear()
        self._add("A photo was removed from this night.", ("Undo", lambda: self._desk.turn_wanted.emit(act)))

    def _offer_own_nights(self, night: date, astray: list[TakenIn]) -> None:
        nights = {one.own_night for one in astray}
        if len(astray) == 1:
            said, act = "By its own date this photo belongs to another night.", f"Move it to {_said(*nights)}"
        elif len(nights) == 1:
            said, act = f"{len(astray)} belong to another night.", f"Move them to {_said(*nights)}"
        else:
            said, act = f"{len(astray)} belong to other nights.", "Move each to its own night"
        keep = "Keep it here" if len(astray) == 1 else "Keep them here"
        move = self._writing(lambda store: _move(store, night, astray, self._desk.clock),
                             lambda: self._after_moving(nights, astray))  # fmt: skip
        self._add(said, (keep, lambda: None), (act, move))

    def _after_moving(self, nights: set[date], moved: list[TakenIn]) -> None:
        self._desk.said.emit(f"{wording.counted(len(moved), 'photo')} moved to {_listed(sorted(nights))}.")
        if len(nights) == 1:
            self._offer_place(next(iter(nights)), likeliest([one.offer for one in moved]), elsewhere=True)

    def _offer_place(self, night: date, offer: PlaceOffer | None, elsewhere: bool = False) -> None:
        kept = reading.one_night(self._desk.store, night)
        # What the person said of where they slept is not called into question.
        if offer is None or kept.place_source == "said":
            return
        on = f" on {_said(night)}" if elsewhere else ""
        text = f"Slept at {offer.place.name}{on}? (from the photo\u2019s position)"
        self._add("", (text, self._writing(lambda store: photos.accept_place(store, night, offer, self._desk.clock))))

    def _writing(self, work: Callable, then: Callable = lambda: None) -> Callable[[], None]:
        def done(_: object) -> None:
            self._desk.changed.emit()
            then()

        return lambda: self._desk.write(work, done)

    def _add(self, said: str, *acts: tuple[str, Callable[[], None]]) -> None:
        holder = QWidget()
        made = [quiet_button(text, lambda act=act: self._answer(holder, act)) for text, act in acts]
        parts = [label(said, "quiet", wrap=False)] if said else []
        holder.setLayout(row(*parts, *made, None, gap=self._desk.look.px(1)))
        self._rows.addWidget(holder)
        self.buttons += made
        self.show()

    def _answer(self, holder: QWidget, act: Callable[[], None]) -> None:
        self.buttons = [button for button in self.buttons if button.parentWidget() is not holder]
        self._rows.removeWidget(holder)
        holder.hide()
        holder.deleteLater()
        self.setVisible(self._rows.count() > 0)
        self.answered.emit()
        act()


def _move(store, night: date, astray: list[TakenIn], clock) -> None:
    for one in astray:
        photos.put_with(store, one.own_night, one.photo.id, clock)
        photos.take_from(store, night, one.photo.id)


def _said(night: date) -> str:
    return wording.full_date(night)


def _listed(nights: list[date]) -> str:
    return " and ".join(map(_said, nights)) if len(nights) <= 2 else f"{len(nights)} nights"
