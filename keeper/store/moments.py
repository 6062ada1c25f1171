"""Moments and nights as the file spells them."""

from datetime import UTC, date, datetime

from keeper.errors import NotAKeeper
from keeper.model import KINDS, Moment


def utc_text(instant: datetime) -> str:
    """An aware instant as ISO 8601 in UTC, to the microsecond."""
    return instant.astimezone(UTC).isoformat(timespec="microseconds").removesuffix("+00:00") + "Z"


def utc_instant(text: str) -> datetime:
    """The instant that ``utc_text`` spelt. Raises NotAKeeper for a damaged one."""
    try:
        return datetime.fromisoformat(text)
    except ValueError as error:
        raise _damaged(text) from error


def day(text: str) -> date:
    """The night spelt as ISO 8601. Raises NotAKeeper for a damaged one."""
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        raise _damaged(text) from error


def _damaged(text: str) -> NotAKeeper:
    return NotAKeeper(f"The keeper is damaged: it has \u201c{text}\u201d for a date. Earlier copies may be in its backups.")


def moment(text: str, offset_minutes: int, zone: str) -> Moment:
    """A moment from its three columns."""
    return Moment(utc_instant(text), offset_minutes, zone)


def line_number(night: date, kind: str) -> int:
    """The one number of a night's line of a kind.

    Numbers follow the nights, so the index of words is in the order of nights
    and the newest answers come first without a sort.
    """
    return night.toordinal() * 4 + KINDS.index(kind)
