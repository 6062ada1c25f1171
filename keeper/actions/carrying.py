"""Carrying on: the place of the nights before, given to a night without one.

A clock that was moved to another time zone tells that the person left. Then
nothing is carried on.
"""

from datetime import date, timedelta

from keeper.model import Moment, Place
from keeper.store import Store, nights
from keeper.store.moments import utc_text
from keeper.store.nights import Clocked, Last
from keeper.store.places import named as places

CARRIED_FOR = timedelta(days=14)
"""How long a place is carried on over nights without one."""

_NOWHERE = frozenset(("", "UTC", "Etc/UTC", "Etc/UCT", "UCT", "Zulu", "Etc/Zulu", "Universal", "Etc/Universal", "GMT",
                      "Etc/GMT", "Greenwich", "Etc/Greenwich"))  # fmt: skip
"""The zones of computers that were never told where they are."""

_SUMMER_TIME = 60
"""Minutes by which an offset may change while one stays where one is."""


def carry_on(store: Store, night: date, now: Moment) -> None:
    """Give a night without a place that of the last night before it, if near enough and not in another zone."""
    last = nights.last_before(store, night, CARRIED_FOR)
    if last and _may_carry(store, last, night, now):
        nights.carry_place(store, night, last.place_id, utc_text(now.utc))


def _may_carry(store: Store, last: Last, night: date, now: Moment) -> bool:
    """Whether a night may be given the place of the last night before it.

    It may not when the clock shows another time than is kept at the place,
    unless the person said that they were there while their clock was as it is
    now. A place without a zone is known by the clock of the lines written there.
    """
    if _tells_nothing(night, now) or _keeps(last.zone, now):
        return True
    clocks = nights.clocks_at(store, last.place_id, night, CARRIED_FOR)
    if last.zone:
        return any(one.said and _same_clock(one, now) for one in clocks)
    return not clocks or any(_same_clock(one, now) for one in clocks)


def carried(store: Store, night: date, now: Moment | None = None) -> tuple[Place | None, Place | None]:
    """The place that a night without one would be given, and the one that it would have been given but for the clock."""
    place_id = nights.place_before(store, night, CARRIED_FOR)
    place = places.by_id(store, place_id) if place_id else None
    last = nights.last_before(store, night, CARRIED_FOR) if place and now else None
    return (None, place) if last and not _may_carry(store, last, night, now) else (place, None)


def carried_from(store: Store, night: date) -> date | None:
    """The night before a night from which its place was carried on, or would be; None where there is none near enough."""
    return nights.night_before(store, night, CARRIED_FOR)


def _tells_nothing(night: date, now: Moment) -> bool:
    # Of a night long past, typed up from paper, today's clock says nothing.
    today = (now.utc + timedelta(minutes=now.offset_minutes)).date()
    return (now.zone in _NOWHERE and now.offset_minutes == 0) or today - night > CARRIED_FOR


def _same_clock(one: Clocked, now: Moment) -> bool:
    if one.zone == now.zone and one.zone:
        return True
    return _keeps(one.zone, now) or (not one.zone and abs(one.offset_minutes - now.offset_minutes) <= _SUMMER_TIME)


def _keeps(zone: str, now: Moment) -> bool:
    """Whether a zone has the same time now as the clock; not whether it has the same name: Berlin's is Stockholm's."""
    if not zone or zone == now.zone:
        return bool(zone)
    from zoneinfo import ZoneInfo

    try:
        offset = now.utc.astimezone(ZoneInfo(zone)).utcoffset()
    except (LookupError, ValueError, OSError):
        return False
    return offset == timedelta(minutes=now.offset_minutes)
