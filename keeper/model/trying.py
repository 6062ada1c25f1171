"""Finding out by trying: blocks of nights with and without one thing."""

from dataclasses import dataclass
from datetime import date, timedelta


@dataclass(frozen=True)
class TryingSpot:
    """Where a night stands in a trying: whether it is with the thing, and its numbers, from 1."""

    with_it: bool
    night: int
    block: int


@dataclass(frozen=True)
class Trying:
    """Blocks of ``length`` nights from ``first`` on, with the thing or without, as the lot fell.

    ``mark_id`` is the tracker of what is done or left, ``reading_id`` of what
    it may change, read ``later`` nights after (0 or 1). ``withs`` says of each
    block in its order whether it is with; ``seed`` is the number it was drawn
    from. ``stopped`` is the night on which it was stopped, itself no longer of
    it; None where it was not.
    """

    id: str
    mark_id: str
    reading_id: str
    first: date
    length: int
    withs: tuple[bool, ...]
    seed: int
    later: int = 0
    stopped: date | None = None

    @property
    def nights(self) -> int:
        """How many there were to be."""
        return self.length * len(self.withs)

    @property
    def last(self) -> date:
        """The last night of the plan."""
        return self.first + timedelta(self.nights - 1)

    @property
    def until(self) -> date:
        """The last night that is of it: the plan's, or the one before it was stopped."""
        return self.last if self.stopped is None else min(self.last, self.stopped - timedelta(1))

    def over(self, tonight: date) -> bool:
        """Whether all there is to be read has been lived, or it was stopped."""
        return self.stopped is not None or tonight > self.last + timedelta(self.later)

    def spot(self, night: date) -> TryingSpot | None:
        """Where a night stands in it; None for one that is not of it."""
        if not self.first <= night <= self.until:
            return None
        block, within = divmod((night - self.first).days, self.length)
        return TryingSpot(self.withs[block], within + 1, block + 1)
