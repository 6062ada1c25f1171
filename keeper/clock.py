"""What time it is where the person is; handed in, so that tests choose it."""

import os
import time
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from functools import lru_cache

from keeper.days import night_of
from keeper.model import Moment


class Clock:
    """The computer's clock and time zone."""

    def now(self) -> datetime:
        """The moment now, aware, in the local zone."""
        _follow(os.environ.get("TZ"), _zone_set(), int(time.monotonic() // 60))
        return datetime.now().astimezone()

    def zone(self) -> str:
        """The IANA name of the local zone, or "" when the system will not tell."""
        return self._zone_at(self.now())

    def _zone_at(self, now: datetime) -> str:
        return _zone(now.utcoffset(), int(time.monotonic() // 60))

    def moment(self) -> Moment:
        """Now, with the offset and zone in which it is lived."""
        now = self.now()
        return Moment(now.astimezone(UTC), round(now.utcoffset().total_seconds() / 60), self._zone_at(now))

    def tonight(self, rollover: int) -> date:
        """The night that is being lived."""
        return night_of(self.now(), rollover)


@lru_cache(maxsize=1)
def _follow(named: str | None, zone_set: tuple[int, int] | None, minute: int) -> None:
    # A program that stays open keeps the zone it was started in, unless
    # it asks anew; the person may have travelled. Asking takes a tenth of what
    # keeping a line does, so not before something has changed, or a minute is over.
    if hasattr(time, "tzset"):
        time.tzset()


def _zone_set() -> tuple[int, int] | None:
    """What changes when the system is given another zone (tzset(3) reads this file); None where there is none."""
    try:
        file = os.stat("/etc/localtime")
    except OSError:
        return None
    return file.st_ino, file.st_mtime_ns


@lru_cache(maxsize=1)
def _zone(offset: timedelta, minute: int) -> str:
    # Finding the name takes as long as saving a line, so it is asked for once
    # a minute, and at once when the offset has changed.
    import tzlocal

    try:
        tzlocal.reload_localzone()
        return tzlocal.get_localzone_name() or ""
    except (LookupError, ValueError, OSError):
        return ""


@dataclass(frozen=True)
class StoppedClock(Clock):
    """A clock that always shows the same moment (the demo's, the tests')."""

    at: datetime
    zone_name: str = ""

    def now(self) -> datetime:
        return self.at

    def _zone_at(self, now: datetime) -> str:
        return self.zone_name
