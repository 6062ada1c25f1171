"""A trying begun and stopped."""

import os
from dataclasses import dataclass
from datetime import date, timedelta

from keeper.cautions import NEVER_TRIED
from keeper.dates.written import counted, full_date
from keeper.errors import CannotTry, UnknownThing
from keeper.model import Act, Tracker, Trying
from keeper.review.patterns.candidates import quoted
from keeper.store import Store, trackers
from keeper.store.trying import plans as kept_plans

PAGE, LEAF = "patterns", "trying"
"""Where it is seen."""

LONGEST_BLOCK, MOST_BLOCKS, MOST_NIGHTS = 14, 60, 366

_AHEAD = timedelta(31)


@dataclass(frozen=True, slots=True)
class WantedPlan:
    """A trying as it is asked for; the fields are those of ``Trying``."""

    mark_id: str
    reading_id: str
    first: date
    blocks: int
    length: int
    later: int = 0

    @property
    def last(self) -> date:
        """The last night of the plan."""
        return self.first + timedelta(self.blocks * self.length - 1)


def any_seed() -> int:
    """A number to draw from, that nobody chose."""
    return int.from_bytes(os.urandom(4), "big")


def check(store: Store, wanted: WantedPlan, tonight: date) -> tuple[Tracker, Tracker]:
    """What is done or left and what is read, where the plan can be begun. Raises CannotTry, UnknownThing."""
    mark, reading = (_known(store, one) for one in (wanted.mark_id, wanted.reading_id))
    if mark.form != "mark":
        raise CannotTry(f"What is done or left is noted as yes or no; {quoted(mark.name)} is not.")
    if mark.id == reading.id:
        raise CannotTry(f"Choose something else to be read: {quoted(mark.name)} is what is done or left.")
    _check_blocks(wanted)
    if not tonight <= wanted.first <= tonight + _AHEAD:
        raise CannotTry("A trying begins tonight or within a month: the lot is drawn before the nights are lived.")
    for one in (mark, reading):
        _check_in_force(one, wanted)
    under_way = [one for one in kept_plans.every(store) if one.stopped is None and one.last + timedelta(one.later) >= wanted.first]
    if under_way:
        raise CannotTry("Something is tried already; one thing at a time, or nobody can tell what came of which.")
    return mark, reading


def _check_blocks(wanted: WantedPlan) -> None:
    if not (2 <= wanted.blocks <= MOST_BLOCKS and 1 <= wanted.length <= LONGEST_BLOCK):
        raise CannotTry(f"A trying has 2 to {MOST_BLOCKS} blocks of 1 to {LONGEST_BLOCK} nights.")
    if wanted.blocks * wanted.length > MOST_NIGHTS:
        raise CannotTry(f"That would take {wanted.blocks * wanted.length} nights; a trying takes a year at most.")


def _check_in_force(tracker: Tracker, wanted: WantedPlan) -> None:
    if wanted.first < tracker.began:
        raise CannotTry(f"{tracker.name} is noted from {full_date(tracker.began)} on; the trying would begin before that.")
    if tracker.ended and tracker.ended < wanted.last + timedelta(wanted.later):
        raise CannotTry(f"{tracker.name} is noted until {full_date(tracker.ended)}; the trying would go on after that.")


def begin(store: Store, wanted: WantedPlan, seed: int, tonight: date, agreed: bool) -> Trying:
    """Draw the lot and begin; durable on return.

    ``agreed``: the person confirmed that it is nothing of what is NEVER_TRIED.
    Raises CannotTry, UnknownThing.
    """
    if not agreed:
        raise CannotTry(NEVER_TRIED)
    # The lot needs a library that takes a while to be brought in: not while others wait for the file.
    from keeper.study.patterns.trying import draw

    with store.writing():
        mark, reading = check(store, wanted, tonight)
        withs = draw(wanted.blocks, wanted.length, seed).withs
        made = Trying("", mark.id, reading.id, wanted.first, wanted.length, withs, seed, wanted.later)
        blocks = f"{counted(wanted.blocks, 'block')} of {counted(wanted.length, 'night')}"
        act = Act(f"A trying of {quoted(mark.name)} for {reading.name}, {blocks}", PAGE, wanted.first, LEAF)
        trying_id = kept_plans.add(store, made, act)
    return next(one for one in kept_plans.every(store) if one.id == trying_id)


def stop(store: Store, trying_id: str, tonight: date) -> str:
    """Let a trying be over; what was done, in a sentence. One that has no night behind it is taken out.

    Tonight is no longer of it. Raises UnknownThing, CannotTry for one that is over.
    """
    one = next((each for each in kept_plans.every(store) if each.id == trying_id), None)
    if one is None:
        raise UnknownThing("That is no longer tried.")
    if one.over(tonight):
        raise CannotTry("That is over already.")
    name = quoted(_known(store, one.mark_id).name)
    if tonight <= one.first:
        kept_plans.remove(store, trying_id, Act(f"The trying of {name}, called off before it began", PAGE, tonight, LEAF))
        return f"{name} is not tried; no night of it was lived yet."
    kept_plans.stop(store, trying_id, tonight, Act(f"The end of the trying of {name}", PAGE, tonight, LEAF))
    return f"{name} is tried no more. What came of {counted((tonight - one.first).days, 'night')} is told."


def _known(store: Store, tracker_id: str) -> Tracker:
    tracker = trackers.by_id(store, tracker_id)
    if tracker is None:
        raise UnknownThing("That is no longer among the readings.")
    return tracker
