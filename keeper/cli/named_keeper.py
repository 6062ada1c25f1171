"""The keeper a command works on, opened when it is first needed."""

from collections.abc import Callable
from datetime import date, timedelta
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from keeper import settings
from keeper.actions import opening, reading
from keeper.cli import telling
from keeper.clock import Clock
from keeper.days import night_of
from keeper.errors import NotAKeeper, UnknownThing, UnreadableDate
from keeper.model import Line, LineKind
from keeper.review.night import kinds_asked

if TYPE_CHECKING:
    from keeper.dates.typed import Understood


class NamedKeeper:
    """The folder that was named, its keeper, and the clock that goes with it.

    ``open_window`` is what opens the window: it lies above this room. ``begin``
    says that a keeper may be begun in a folder that has none. ``read_as`` are
    dates that could be read in two ways, and how they were.
    """

    def __init__(self, folder: Path | None, demo: bool, open_window: Callable[..., int], begin: bool = False) -> None:
        self.demo = demo
        self.begin = begin
        self.open_window = open_window
        self.read_as: dict[str, date] = {}
        self.folder = opening.demo_folder() if demo else (folder or opening.own_folder()).absolute()

    @property
    def begun(self) -> bool:
        """Whether a keeper is there."""
        return opening.has_keeper(self.folder)

    @cached_property
    def store(self):
        """The open keeper. Raises NotAKeeper where there is none."""
        if self.demo and not self.begun:
            opening.lay_out_demo(self.folder)
        store = self._opened()
        store.done_from = "command line"
        opening.sweep(store)
        self._look_over(store)
        return store

    def _opened(self):
        try:
            return opening.open_kept(self.folder)
        except NotAKeeper as error:
            from keeper.actions.damage.mending import advice

            raise NotAKeeper(f"{error}{advice(self.folder)}") from error

    def _look_over(self, store) -> None:
        """Once a day, so that nothing is kept in a broken keeper by whoever never opens the window."""
        from keeper.actions.damage import checking

        if told := checking.look_over_daily(store, date.today()) or checking.why_damaged(store):
            telling.aside(f"The keeper in {self.folder} is damaged: {told} What can be saved of it is told by: keeper mend.")

    @cached_property
    def clock(self) -> Clock:
        """The computer's clock, or the demo's."""
        return opening.demo_clock(self.store) if self.demo else Clock()

    def clock_without_keeper(self) -> Clock:
        """The computer's clock, for what is done while the keeper is not open."""
        return Clock()

    def __enter__(self) -> "NamedKeeper":
        return self

    def __exit__(self, *_: object) -> None:
        self.let_go()

    def let_go(self) -> None:
        """Close the keeper, if it was opened, and tell what of it could not be read."""
        if "store" in self.__dict__:
            store = self.__dict__.pop("store")
            store.close()
            for sentence in store.news_of_damage():
                telling.aside(sentence)

    @property
    def rollover(self) -> int:
        """The hour at which this keeper's nights end; the usual one before it is begun."""
        kept = opening.read_settings(self.store) if self.begun or self.demo else {}
        return settings.number(kept, "rollover")

    @property
    def tonight(self) -> date:
        """The night that is being lived."""
        return self.clock.tonight(self.rollover)

    def night(self, typed: str | None, to_write: bool = False) -> date:
        """The night that was typed; without a word, tonight.

        Raises UnreadableDate when it is none, or is to be written and lies ahead.
        """
        meant = self.understood(typed) if (typed or "").strip() else None
        night = meant.first if meant else self.tonight
        if to_write and meant and meant.last != night:
            raise UnreadableDate(f"\u201c{typed.strip()}\u201d is more than one night; name the one you mean. Nothing was kept.")
        # One day of grace: who flies east over the date line and back has
        # written tomorrow's line already, and may mend it.
        if to_write and night > self.tonight + timedelta(days=1):
            raise UnreadableDate(f"The night of {night.isoformat()} is still to come; nothing was kept.")
        return night

    def month(self, typed: str | None) -> date:
        """The first day of the month that was typed; without a word, of this month."""
        return self.night(typed).replace(day=1)

    def understood(self, typed: str) -> "Understood":
        """The nights that are meant by a date as it was typed. Raises UnreadableDate."""
        # Most commands name no date.
        from keeper.cli.own_spelling import own_spelling
        from keeper.dates.typed import understood

        meant = understood(typed, self.tonight, own_spelling())
        if not meant.sure:
            self.read_as[typed.strip()] = meant.first
        return meant

    def why_still(self, typed: str | None) -> str:
        """Why tonight is not the calendar's today; "" when it is, or a date was typed."""
        if typed or self.tonight == night_of(self.clock.now(), 0):
            return ""
        return f"A night ends at {self.rollover}:00, so this belongs to the evening before."

    @property
    def kinds(self) -> tuple[LineKind, ...]:
        """All kinds of line, those that are left out too; those of a new keeper before it is begun."""
        return reading.every_kind(self.store) if self.begun or self.demo else reading.BEGUN_WITH

    def kind(self, word: str, night: date | None = None) -> LineKind:
        """The kind that a name, or its beginning, means. Raises UnknownThing."""
        from keeper.actions import kinds

        return kinds.meant(self.kinds, word, night or self.tonight)

    def kind_to_write(self, key: str | None, night: date) -> LineKind:
        """The kind with this key, or the first that the night asks for.

        Raises UnknownThing where the night neither asks for it nor has such a line.
        """
        from keeper.actions import kinds

        if key is None:
            return kinds_asked(self.kinds, night)[0]
        kind = next(one for one in self.kinds if one.key == key)
        there = self.begun and reading.one_night(self.store, night).line(key) is not None
        kinds.check_asked(kind, night, there)
        return kind

    def must_be_begun(self, now: bool = False) -> None:
        """See to it that there is a keeper, or one may be begun, which ``now`` does.

        Raises NotAKeeper where none may be begun without a word.
        """
        if self.demo or self.begun:
            return
        if not (self.begin or opening.begins_unasked(self.folder)):
            raise NotAKeeper(f"{opening.none_yet(self.folder)} To begin one there, say --begin before the command.")
        if now:
            opening.open_or_begin(self.folder).close()

    def span(self, first: str, last: str) -> tuple[date, date]:
        """The ends of a span that were typed. Raises UnreadableDate."""
        from keeper.actions.resting import read_span
        from keeper.cli.own_spelling import own_spelling

        return read_span(first, last, self.tonight, own_spelling())

    def lines_of(self, night: date, kind: str | None) -> tuple[Line, ...]:
        """The night's lines, or that of a kind. Raises UnknownThing when there are none."""
        kept = reading.one_night(self.store, night).lines
        lines = tuple(line for line in kept if kind in (None, line.kind))
        if not lines:
            word = next((one.name or one.key for one in self.kinds if one.key == kind), "line")
            raise UnknownThing(f"There is no {word} on {night.isoformat()}.")
        return lines
