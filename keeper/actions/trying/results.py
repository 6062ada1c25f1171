"""What is tried on a night, what was tried, and what came of it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING

from keeper.actions.trying.beginning import WantedPlan
from keeper.actions.trying.sureness import Progress, Sureness, how_sure
from keeper.actions.trying.values import values
from keeper.errors import CannotTry, UnknownThing
from keeper.model import Tracker, Trying
from keeper.store import Store, trackers
from keeper.store.trying import plans as kept_plans

if TYPE_CHECKING:
    from keeper.study.patterns.trying import Tried

_ONE = timedelta(1)


@dataclass(frozen=True, slots=True)
class KeptTo:
    """Of the nights lived: on how many what was drawn was kept to, on how many not, and of how many nothing is known."""

    to: int
    not_to: int
    unknown: int


@dataclass(frozen=True, slots=True)
class Known:
    """A trying with what is done or left, and what is read; ``lived`` are its nights before tonight."""

    trying: Trying
    mark: Tracker
    reading: Tracker
    lived: int
    over: bool


@dataclass(frozen=True, slots=True)
class CameOfIt:
    """What came of a trying that is over.

    ``tried`` is None where there is nothing to compare. ``noted`` are the
    nights with the thing and without, as drawn, on which the reading was noted.
    """

    known: Known
    tried: Tried | None
    keeping: KeptTo
    noted: tuple[int, int]
    sureness: Sureness | None = None


def every(store: Store, tonight: date) -> tuple[Known, ...]:
    """All tryings, the newest first."""
    its = {one.id: one for one in trackers.every(store)}
    return tuple(
        Known(one, its[one.mark_id], its[one.reading_id], _lived(one, tonight), one.over(tonight))
        for one in kept_plans.every(store) if one.mark_id in its and one.reading_id in its
    )  # fmt: skip


def _lived(one: Trying, tonight: date) -> int:
    return max(0, min((tonight - one.first).days, (one.until - one.first).days + 1))


def came_of(
    store: Store, trying_id: str, tonight: date, progress: Progress = lambda share, words: None, sureness: bool = True
) -> CameOfIt:
    """What came of a trying, and how sure its plan was. Some tenths of a second; ``progress`` may raise Stopped.

    Raises CannotTry while it goes on: who saw how it stands would note
    otherwise, or stop when it pleases. Raises UnknownThing.
    """
    from keeper.study.patterns.trying import Plan, outcome

    known = next((one for one in every(store, tonight) if one.trying.id == trying_id), None)
    if known is None:
        raise UnknownThing("That is no longer tried.")
    if not known.over:
        raise CannotTry("What comes of it is told at the end, or when it is stopped.")
    one = known.trying
    later = timedelta(one.later)
    read = values(store, known.reading, one.first + later, one.until + later)
    plan = Plan(one.withs, one.length)
    withs = plan.nights[: len(read)]
    noted = tuple(sum(value is not None and side is wanted for value, side in zip(read, withs, strict=True)) for wanted in (True, False))
    asked = WantedPlan(one.mark_id, one.reading_id, one.first, len(one.withs), one.length, one.later)
    sure = how_sure(store, asked, one.first, progress) if sureness else None
    return CameOfIt(known, outcome(plan, read, one.seed), _keeping(store, known, withs), noted, sure)


def _keeping(store: Store, known: Known, withs: tuple[bool, ...]) -> KeptTo:
    one = known.trying
    done = values(store, known.mark, one.first, one.until)
    unknown = sum(value is None for value in done)
    to = sum(value is not None and bool(value) is side for value, side in zip(done, withs, strict=True))
    return KeptTo(to, len(done) - to - unknown, unknown)


def still_to_come(store: Store, night: date) -> bool:
    """Whether anything is tried on a night or later."""
    return any(one.stopped is None and one.last + timedelta(one.later) >= night for one in kept_plans.every(store))
