"""Weighing a file: all of it is read and nothing is written, to tell beforehand what it would bring."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date
from itertools import islice

from keeper.actions.readings.noting import whence
from keeper.actions.taking_in.deciding import AT_ONCE, OTHER, Decided, Decisions
from keeper.actions.taking_in.looking import FileLooked
from keeper.actions.taking_in.understanding import Item, NotUnderstood, Understanding
from keeper.clock import Clock
from keeper.dates.written import counted
from keeper.errors import Stopped
from keeper.exchange import odd_files
from keeper.exchange.tables.shape import Row
from keeper.model import Reading
from keeper.store import Store
from keeper.store.taking_in.many import ComingLine

MOST_LISTED = 5000
"""So many troubles, and conflicts, are listed; all are counted."""


@dataclass
class Weighed:
    """What a file would bring.

    ``lines``, ``places`` and ``readings`` count by outcome. ``others`` are
    nights that have other words, another place or reading. ``troubles`` is
    what was not understood, ``trouble_count`` how often. ``firsts`` is the
    first night of each reading.
    """

    rows: int = 0
    lines: Counter = field(default_factory=Counter)
    places: Counter = field(default_factory=Counter)
    readings: Counter = field(default_factory=Counter)
    others: list[Decided] = field(default_factory=list)
    troubles: list[NotUnderstood] = field(default_factory=list)
    trouble_count: int = 0
    first: date | None = None
    last: date | None = None
    firsts: dict[str, date] = field(default_factory=dict)
    place_names: set[str] = field(default_factory=set)

    @property
    def brings_something(self) -> bool:
        """Whether anything would be written."""
        return any(outcome != "there" and many for of in (self.lines, self.places, self.readings) for outcome, many in of.items())

    def add_trouble(self, troubles: Iterable[NotUnderstood]) -> None:
        """Count what was not understood, and list it as far as there is room."""
        for one in troubles:
            self.trouble_count += 1
            if len(self.troubles) < MOST_LISTED:
                self.troubles.append(one)

    def add(self, decided: Decided) -> None:
        """Count one thing."""
        what = decided.what
        counts = self.lines if isinstance(what, ComingLine) else self.readings if isinstance(what, Reading) else self.places
        counts[decided.outcome] += 1
        night = decided.item.night
        self.first, self.last = min(self.first or night, night), max(self.last or night, night)
        if isinstance(what, Reading):
            self.firsts[what.tracker_id] = min(self.firsts.get(what.tracker_id, night), night)
        if decided.outcome == OTHER and len(self.others) < MOST_LISTED:
            self.others.append(decided)


def weigh(
    store: Store, looked: FileLooked, clock: Clock,
    progress: Callable[[float, str], None] = lambda *_: None, stopped: Callable[[], bool] = lambda: False,
) -> Weighed:  # fmt: skip
    """Read all of a file and decide what would become of it; nothing is written. Raises UnreadableFile, Stopped."""
    weighed, decisions = Weighed(), Decisions(store)
    understanding = Understanding(store, looked, lambda night: whence(store, night, clock))
    for batch in batches(odd_files.rows(looked.path, looked.how, looked.dates)):
        if stopped():
            raise Stopped
        items = understood(understanding, batch, weighed)
        for decided in decisions.batch(items):
            weighed.add(decided)
        progress(0.0, f"{counted(weighed.rows, 'row')} read")
    return weighed


def understood(understanding: Understanding, batch: Iterable[Row], weighed: Weighed) -> list[Item]:
    """The items of some rows; what is not understood is added to the weighed."""
    items = []
    for row in batch:
        weighed.rows += 1
        item, troubles = understanding.item(row)
        weighed.add_trouble(troubles)
        if item:
            items.append(item)
    return items


def batches(rows: Iterator[Row], size: int = AT_ONCE) -> Iterator[list[Row]]:
    """The rows, so many at a time."""
    while batch := list(islice(rows, size)):
        yield batch
