"""Noting: what was typed becomes a reading, or is not noted again."""

from collections.abc import Mapping
from datetime import UTC, date, tzinfo

from keeper import settings
from keeper.actions.readings import wording
from keeper.clock import Clock
from keeper.dates.written import full_date
from keeper.errors import UnknownThing
from keeper.model import Act, Reading, Tracker
from keeper.store import Store, nights, trackers
from keeper.store import settings as kept_settings
from keeper.study.readings.hours import Whence
from keeper.study.readings.typed import understood

TAKES_BACK = frozenset(("", "-", "\u2013", "\u2014", wording.NOT_NOTED))
"""What is typed for: not noted."""

_NAMED = 3
"""So many readings an act tells by name."""


def note(store: Store, night: date, tracker_id: str, typed: str, clock: Clock) -> Reading:
    """Keep what was typed as a night's reading; durable on return.

    Raises UnreadableReading, saying what the form of the tracker takes;
    UnknownThing where the tracker is none of the night's.
    """
    tracker = _of_night(store, night, tracker_id)
    reading = understood(tracker, typed, night, whence(store, night, clock))
    trackers.note(store, [reading], _act([wording.told(tracker, reading)], night, tracker_id), clock.now().astimezone(UTC))
    return reading


def note_all(store: Store, typed: Mapping[str, str], night: date, clock: Clock) -> tuple[Reading, ...]:
    """Keep what was typed for several trackers, by their ids, as one act: all of it, or nothing.

    What is typed in TAKES_BACK takes the reading back. Raises as ``note``.
    """
    here = whence(store, night, clock)
    its = {tracker_id: _of_night(store, night, tracker_id) for tracker_id in typed}
    gone = [tracker_id for tracker_id, text in typed.items() if " ".join(text.split()).lower() in TAKES_BACK]
    made = {one: understood(its[one], text, night, here) for one, text in typed.items() if one not in gone}
    act = _act([wording.told(its[one], made.get(one)) for one in typed], night)
    with store.writing(act):
        trackers.note(store, made.values(), at=clock.now().astimezone(UTC))
        for tracker_id in gone:
            trackers.take_back(store, tracker_id, night)
    return tuple(made.values())


def noted(store: Store, night: date, tracker_id: str) -> Reading | None:
    """What is noted of a tracker on a night; None for nothing."""
    its = trackers.readings(store, night, night)
    return next((one for one in its if one.tracker_id == tracker_id), None)


def take_back(store: Store, night: date, tracker_id: str) -> None:
    """Let a night's reading be not noted. Raises UnknownThing."""
    tracker = trackers.by_id(store, tracker_id)
    if tracker is None:
        raise _gone()
    trackers.take_back(store, tracker_id, night, _act([wording.told(tracker, None)], night, tracker_id))


def whence(store: Store, night: date, clock: Clock) -> Whence:
    """The zone of a night: that of its place, else that of its first line, else the clock's; and when it is noted."""
    rollover = settings.number(kept_settings.read(store), "rollover")
    now = clock.now()
    kept = nights.one(store, night)
    named = [kept.place.zone if kept.place else "", *(line.written.zone for line in kept.lines)]
    return Whence(next((zone for name in named if (zone := _zone(name))), now.tzinfo or UTC), now, rollover)


def _zone(name: str) -> tzinfo | None:
    if not name:
        return None
    from zoneinfo import ZoneInfo

    try:
        return ZoneInfo(name)
    except (LookupError, ValueError, OSError):
        return None


def _of_night(store: Store, night: date, tracker_id: str) -> Tracker:
    tracker = trackers.by_id(store, tracker_id)
    if tracker is None:
        raise _gone()
    if tracker.in_force(night) or noted(store, night, tracker_id):
        return tracker
    if night < tracker.began:
        raise UnknownThing(f"{tracker.name} began on {full_date(tracker.began)}; it cannot be noted before that.")
    raise UnknownThing(f"{tracker.name} ended on {full_date(tracker.ended)}; it cannot be noted after that.")


def _gone() -> UnknownThing:
    return UnknownThing("What is to be noted is no longer among the readings.")


def _act(told: list[str], night: date, tracker_id: str = "") -> Act:
    what = ", ".join(told) if len(told) <= _NAMED else f"{len(told)} readings"
    return Act(f"{what} for the night of {full_date(night)}", night=night, thing=tracker_id)
