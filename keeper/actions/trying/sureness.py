"""How sure a plan could be, before it begins: tried on the person's own past nights."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from math import floor, log10
from statistics import pstdev

from keeper.actions.trying.beginning import WantedPlan
from keeper.actions.trying.values import past
from keeper.errors import UnknownThing
from keeper.model import Tracker
from keeper.store import Store, trackers

Progress = Callable[[float, str], None]

_OF_THE_SPREAD = (0.5, 1.0, 1.5)
"""The differences that are tried, as so many standard deviations of the nights before."""

_SEED = 0
"""The same plan on the same past is told the same."""


@dataclass(frozen=True, slots=True)
class Sureness:
    """How often such a plan would come out, of 1, were the difference so large.

    ``told`` are pairs of a difference and a share; none where the past cannot
    tell. ``nights`` are those of the past on which the reading was noted,
    ``needed`` how many nights the plan takes. ``least`` is the least number of
    blocks that can come out at all.
    """

    reading: Tracker
    blocks: int
    length: int
    told: tuple[tuple[float, float], ...]
    nights: int
    needed: int
    least: int


def how_sure(store: Store, wanted: WantedPlan, before: date, progress: Progress = lambda share, words: None) -> Sureness:
    """Simulate a plan on the nights before a night. Half a second; ``progress`` may raise Stopped. Raises UnknownThing."""
    from keeper.study.patterns import trying as study

    reading = trackers.by_id(store, wanted.reading_id)
    if reading is None:
        raise UnknownThing("That is no longer among the readings.")
    nights = past(store, reading, before)
    effects = differences([one for one in nights if one is not None])
    shares = study.powers(
        nights, wanted.blocks, wanted.length, effects, _SEED, lambda share: progress(share, "Trying the plan on nights of the past")
    ) if effects else ()  # fmt: skip
    noted, needed = sum(one is not None for one in nights), wanted.blocks * wanted.length
    return Sureness(reading, wanted.blocks, wanted.length, tuple(zip(effects, shares, strict=False)), noted, needed, least_blocks())


def least_blocks() -> int:
    """The least number of blocks of which the rarest outcome is rare enough."""
    from keeper.study.patterns import trying as study

    return next(blocks for blocks in range(2, 100) if study.least_p(blocks) <= 1 - study.SURE)


def differences(noted: Sequence[float]) -> tuple[float, ...]:
    """The differences that are tried: half of the usual spread, all of it, and half as much again; to two digits."""
    spread = pstdev(noted) if noted else 0.0
    if not spread:
        return ()
    places = 1 - floor(log10(spread))
    return tuple(dict.fromkeys(round(part * spread, places) for part in _OF_THE_SPREAD))
