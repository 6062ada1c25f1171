"""Moments and nights as the file spells them."""

from datetime import UTC, date, datetime
from typing import Any

from keeper.errors import NotAKeeper
from keeper.model import KINDS, Moment

_EARLIEST, _LATEST = 1800, 2999
"""Years; those of ``days.FIRST_NIGHT`` and ``LAST_NIGHT``. Beyond them there is no sum that does not fail somewhere."""

_A_DAY = 24 * 60

NUMBERS_A_NIGHT = 64
"""How many numbers of lines are reserved for each night."""


_LENGTH_OF_AN_ID = 36
_NUMBERS = (int, float)


def utc_text(instant: datetime) -> str:
    """An aware instant as ISO 8601 in UTC, to the microsecond."""
    # Every line kept waits for it: one that is in UTC already, as nearly all are, is not turned.
    there = instant if instant.tzinfo is UTC else instant.astimezone(UTC)
    return there.isoformat(timespec="microseconds")[:-6] + "Z"


def utc_instant(text: str) -> datetime:
    """The instant that ``utc_text`` spelt. Raises NotAKeeper for a damaged one."""
    instant = local_time(text)
    if instant.tzinfo is None:
        raise damaged(text, "a moment")
    return instant


def local_time(text: str) -> datetime:
    """The date and time of day spelt as ISO 8601. Raises NotAKeeper for a damaged one."""
    try:
        time = datetime.fromisoformat(text)
    except (ValueError, TypeError) as error:
        raise damaged(text, "a moment") from error
    if not _EARLIEST <= time.year <= _LATEST:
        raise damaged(text, "a moment")
    return time


def day(text: str) -> date:
    """The night spelt as ISO 8601. Raises NotAKeeper for a damaged one."""
    try:
        night = date.fromisoformat(text)
    except (ValueError, TypeError) as error:
        raise damaged(text, "a date") from error
    if not _EARLIEST <= night.year <= _LATEST:
        raise damaged(text, "a date")
    return night


def moment(text: str, offset_minutes: int, zone: str) -> Moment:
    """A moment from its three columns. Raises NotAKeeper for a damaged one."""
    if not isinstance(offset_minutes, int) or not -_A_DAY < offset_minutes < _A_DAY:
        raise damaged(offset_minutes, "an offset from Greenwich")
    return Moment(utc_instant(text), offset_minutes, words(zone))


def words(text: object) -> str:
    """The text, if it is one. Raises NotAKeeper."""
    if not isinstance(text, str):
        raise damaged(text, "a text")
    return text


def kind(text: str) -> str:
    """The key of a kind of line, if it can be one. Raises NotAKeeper."""
    if text not in KINDS and not (isinstance(text, str) and len(text) == _LENGTH_OF_AN_ID):
        raise damaged(text, "a kind of line")
    return text


def number(value: object, low: float, high: float) -> float | None:
    """The number, or None where there is none between these ends."""
    # A union made anew for each of half a million readings would be felt.
    return value if isinstance(value, _NUMBERS) and low <= value <= high else None


def told(text: object, shape: type) -> Any:
    """What is spelt as JSON, if it is a list or dict as it should be. Raises NotAKeeper."""
    import json

    try:
        value = json.loads(text)
    except (ValueError, TypeError) as error:
        raise damaged(text, "a list") from error
    if not isinstance(value, shape):
        raise damaged(text, "a list")
    return value


def damaged(value: object, what: str) -> NotAKeeper:
    """The sentence on a value that cannot be."""
    seen = "nothing" if value is None else f"\u201c{str(value)[:40]}\u201d"
    plain = "".join(letter if letter.isprintable() else "\ufffd" for letter in seen)
    return NotAKeeper(f"The keeper is damaged: it has {plain} for {what}.")


def line_number(night: date, number: int) -> int:
    """The one number of a night's line of the kind with this number.

    Numbers follow the nights, so the index of words is in the order of nights
    and the newest answers come first without a sort.
    """
    return night.toordinal() * NUMBERS_A_NIGHT + number


def line_numbers(first: date, last: date) -> tuple[int, int]:
    """The least and the greatest number that a line of these nights can have, both ends included."""
    return line_number(first, 0), line_number(last, NUMBERS_A_NIGHT - 1)
