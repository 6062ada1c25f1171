"""Beginning, changing, ordering and ending trackers; what was noted of them stays as it is."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from keeper.actions.readings import wording
from keeper.actions.readings.shape import checked
from keeper.dates.written import counted, full_date, shortest
from keeper.days import last_of_month, next_month
from keeper.errors import UnknownThing
from keeper.model import Act, Tracker
from keeper.store import Store, trackers
from keeper.study.readings import measure

PAGE = "readings"
"""The page on which trackers are seen."""

_ONE = timedelta(days=1)


def offered(night: date) -> tuple[Tracker, ...]:
    """What a keeper without trackers offers; nothing is noted of it until it is begun."""
    return (
        Tracker("", "mood", "scale", 0.0, 10.0, "", "higher", night, key="m", body=True),
        Tracker("", "stress", "scale", 0.0, 10.0, "", "lower", night, key="s", body=True),
        Tracker("", "sleep", "hours", None, None, "h", "higher", night, key="l", body=True),
    )


def guest_until(began: date) -> date:
    """The last night of a guest for one month."""
    after = next_month(began)
    same_day = after.replace(day=min(began.day, last_of_month(after).day))
    return same_day - _ONE


def begin(store: Store, tracker: Tracker) -> Tracker:
    """Begin a tracker, at the end of the row. Raises UnreadableText or AlreadyKept for what it cannot be."""
    made = checked(tracker, trackers.every(store))
    act = Act(f"{made.name} among the readings, from {full_date(made.began)} on", PAGE, made.began)
    return replace(made, id=trackers.add(store, made, act))


def would(store: Store, now: Tracker) -> tuple[str, ...]:
    """What changing a tracker to what it is ``now`` would do, in sentences; none where nothing was noted."""
    was, (many, first, last) = _known(store, now.id), trackers.noted(store, now.id)
    if not many:
        return ()
    if _parts(was, now):
        return (_parting(was, now, last),)
    it = counted(many, "reading")
    said = [
        f"{it} so far; all are kept as they were noted." if was != now else "",
        f"It is called {now.name} on all nights." if was.name != now.name else "",
        _of_scale(was, now),
        f"What was noted in {was.unit} is told in {now.unit} too." if was.unit != now.unit and was.unit else "",
        f"What was noted before {full_date(now.began)} stays." if first < now.began else "",
        f"What was noted after {full_date(now.ended)} stays." if now.ended and last > now.ended else "",
        _of_the_end(was, now),
    ]
    return tuple(one for one in said if one)


def _of_scale(was: Tracker, now: Tracker) -> str:
    if now.form != "scale" or (was.low, was.high) == (now.low, now.high):
        return ""
    high = shortest(was.high or 0.0)
    return (
        f"What was noted from {wording.scale(was)} is drawn as high from {wording.scale(now)} as it was, and told as it "
        f"was noted: {high} stays {high}."
    )


def _of_the_end(was: Tracker, now: Tracker) -> str:
    if was.ended == now.ended or now.ended is None:
        return ""
    return f"It is not asked for after {full_date(now.ended)}; nights after that count as nothing, not as no."


def change(store: Store, now: Tracker) -> Tracker:
    """Keep a tracker as it is now, and return it.

    Where its unit cannot be converted it ends, and another of its name begins.
    Raises UnknownThing, UnreadableText, AlreadyKept.
    """
    with store.writing():
        was = _known(store, now.id)
        made = checked(now, [one for one in trackers.every(store) if one.id != now.id], was, trackers.noted(store, now.id)[0])
        if trackers.noted(store, now.id)[0] and _parts(was, made):
            return _part(store, was, made)
        trackers.change(store, made, Act(f"{made.name} among the readings, changed", PAGE, thing=made.id))
        return made


def _parts(was: Tracker, now: Tracker) -> bool:
    # A count has no unit that could be converted; of an amount without one nothing is known.
    return now.form in ("amount", "count") and bool(was.unit) and not measure.convertible(was.unit, now.unit)


def _parting(was: Tracker, now: Tracker, last: date) -> str:
    return (
        f"{was.unit} cannot be converted to {now.unit or 'plain numbers'}: {was.name} in {was.unit} ends with {full_date(last)} "
        f"and is kept, and another {now.name} begins on {full_date(last + _ONE)}."
    )


def _part(store: Store, was: Tracker, now: Tracker) -> Tracker:
    last = trackers.noted(store, was.id)[2]
    act = Act(f"{now.name} among the readings, in {now.unit or 'plain numbers'}", PAGE)
    with store.writing(act):
        trackers.change(store, replace(was, ended=last, key=""))
        ended = now.ended if now.ended and now.ended > last else None
        made = replace(now, id="", began=last + _ONE, ended=ended, low=None, high=None)
        made = replace(made, id=trackers.add(store, made))
        _stand_after(store, made.id, was.id)
    return made


def retire(store: Store, tracker_id: str, tonight: date) -> str:
    """End a tracker with the night before, or with tonight where it was noted; returns what was done, in a sentence.

    One of which nothing was ever noted is taken out. Raises UnknownThing.
    """
    tracker, (many, _, latest) = _known(store, tracker_id), trackers.noted(store, tracker_id)
    if not many:
        trackers.remove(store, tracker_id, Act(f"{tracker.name}, taken out of the readings", PAGE))
        return f"{tracker.name} is gone; nothing was noted of it."
    last = max(latest if latest >= tonight else tonight - _ONE, tracker.began)
    act = Act(f"the end of {tracker.name} among the readings", PAGE, thing=tracker_id)
    trackers.change(store, replace(tracker, ended=last), act)
    return f"{tracker.name} ends with {full_date(last)}. What was noted of it, on {counted(many, 'night')}, is kept."


def take_up(store: Store, tracker_id: str, night: date) -> Tracker:
    """Take up a tracker that ended: it goes on where no night lies between, else another of its name begins.

    So the nights between count as nothing. Raises UnknownThing, AlreadyKept.
    """
    was = _known(store, tracker_id)
    act = Act(f"{was.name} among the readings again", PAGE, thing=tracker_id)
    with store.writing(act):
        others = [one for one in trackers.every(store) if one.id != was.id]
        if was.ended is None or was.ended >= night - _ONE:
            made = checked(replace(was, ended=None), others)
            trackers.change(store, made)
            return made
        key = "" if any(one.key == was.key and one.in_force(night) for one in others) else was.key
        made = checked(replace(was, id="", began=night, ended=None, key=key), others)
        made = replace(made, id=trackers.add(store, made))
        _stand_after(store, made.id, was.id)
        return made


def move(store: Store, tracker_id: str, by: int, among: Sequence[str]) -> None:
    """Let a tracker stand so many places later, or earlier, ``among`` the ids that are shown."""
    tracker, ids = _known(store, tracker_id), [one.id for one in trackers.every(store)]
    shown = list(among)
    at = min(max(shown.index(tracker_id) + by, 0), len(shown) - 1)
    neighbour = shown[at]
    if neighbour == tracker_id:
        return
    ids.remove(tracker_id)
    ids.insert(ids.index(neighbour) + (by > 0), tracker_id)
    trackers.put_in_order(store, ids, Act(f"the place of {tracker.name} among the readings", PAGE, thing=tracker_id))


def _stand_after(store: Store, tracker_id: str, other: str) -> None:
    ids = [one.id for one in trackers.every(store) if one.id != tracker_id]
    ids.insert(ids.index(other) + 1, tracker_id)
    trackers.put_in_order(store, ids)


def _known(store: Store, tracker_id: str) -> Tracker:
    tracker = trackers.by_id(store, tracker_id)
    if tracker is None:
        raise UnknownThing("That is no longer among the readings.")
    return tracker


