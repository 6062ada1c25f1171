"""Taking in the photos of one drop: one after another in the darkroom, then told as one."""

from collections import Counter
from collections.abc import Callable
from datetime import date
from pathlib import Path

from keeper.actions.photos.kept import PlaceOffer, TakenIn, take_in
from keeper.errors import CutOffPhoto, KeeperError
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.photos.coming import Pasted, Source, as_file


class Batch:
    """Some photos on their way to a night.

    ``step`` is called after each, ``done`` after the last. ``taken`` are those
    that came, ``troubles`` the sentences of those that did not, ``cut_off``
    those of them that would come with ``anyway``, ``folders`` what turned out
    to be one.
    """

    def __init__(self, desk: Desk, night: date, sources: list[Source], step: Callable, done: Callable,
                 anyway: bool = False) -> None:  # fmt: skip
        self.night = night
        self.taken: list[TakenIn] = []
        self.troubles: list[str] = []
        self.cut_off: list[Source] = []
        self.folders: list[Path] = []
        self.count = len(sources)
        self._left = len(sources)
        self._step, self._done = step, done
        clock, rollover = desk.clock, desk.rollover()
        for source in sources:
            desk.darkroom.run(
                lambda store, task, source=source: _take(store, source, night, clock, rollover, anyway),
                self._came,
                lambda error, source=source: self._failed(source, error),
            )

    @property
    def over(self) -> int:
        """How many have been looked at."""
        return self.count - self._left

    def _came(self, outcome: TakenIn | Path) -> None:
        (self.folders if isinstance(outcome, Path) else self.taken).append(outcome)
        self._next()

    def _failed(self, source: Source, error: KeeperError) -> None:
        if isinstance(error, CutOffPhoto):
            self.cut_off.append(source)
        self.troubles.append(str(error))
        self._next()

    def _next(self) -> None:
        self._left -= 1
        (self._step if self._left else self._done)(self)

    def sentence(self) -> str:
        """What became of them, with the reason when one was left out."""
        words = [self._taken_words()]
        if self.troubles:
            more = len(self.troubles) - 1
            words.append(self.troubles[0])
            words.append(f"{wording.counted(more, 'more was', 'more were')} left out." if more else "")
        return " ".join(filter(None, words))

    def _taken_words(self) -> str:
        if len(self.taken) <= 1:
            return "".join(one.sentence for one in self.taken)
        night = wording.long_date(self.night)
        astray = len(self.astray())
        told = f"{len(self.taken)} photos added to {night}."
        return f"{told} By their own dates {astray} belong to other nights." if astray else told

    def astray(self) -> list[TakenIn]:
        """Those whose own date is of another night than the one they are kept with."""
        return [one for one in self.taken if one.own_night and one.own_night != one.night]

    def place(self) -> PlaceOffer | None:
        """Where most of those of this night were taken; photos of other nights say nothing of it."""
        return likeliest([one.offer for one in self.taken if one.own_night in (None, self.night)])


def likeliest(offers: list[PlaceOffer | None]) -> PlaceOffer | None:
    """The place that is offered most often."""
    told = {(offer.place.id, offer.place.name): offer for offer in reversed(offers) if offer}
    counted = Counter((offer.place.id, offer.place.name) for offer in offers if offer)
    return told[counted.most_common(1)[0][0]] if counted else None


def _take(store, source: Source, night: date, clock, rollover: int, anyway: bool) -> TakenIn | Path:
    from keeper.actions.photos.nearest_town import nearest

    if not isinstance(source, Pasted) and source.is_dir():
        return source
    with as_file(source, store) as path:
        return take_in(store, path, clock, night, rollover, nearest, anyway)
