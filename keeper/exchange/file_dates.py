"""When a picture was taken, from what its file is called: only where that cannot be mistaken."""

import re
from datetime import datetime

_YEAR, _MONTH, _DAY = r"(?P<year>(?:19|20)\d\d)", r"(?P<month>0[1-9]|1[0-2])", r"(?P<day>0[1-9]|[12]\d|3[01])"
_CLOCK = r"(?P<hour>[01]\d|2[0-3])(?P<gap>[-._:h]?)(?P<minute>[0-5]\d)(?P=gap)(?P<second>[0-5]\d)(?:[._]?\d{3})?"

_WITH_HOUR = re.compile(rf"(?<!\d){_YEAR}(?P<dash>[-._]?){_MONTH}(?P=dash){_DAY}(?:[-._ T]| at ){_CLOCK}(?!\d)")
"""20190603_221500, 2019-06-03 22.15.00, 2019-06-03T22-15-00, 20210503_193022123."""

_DAY_APART = re.compile(rf"(?<![\d.-]){_YEAR}(?P<dash>[-.]){_MONTH}(?P=dash){_DAY}(?![\d]|[-.]\d)")
"""2019-06-03, whatever words stand around it."""

_DAY_BETWEEN = re.compile(rf"(?<![^\W_])[^\W\d_]+(?P<dash>[-_]){_YEAR}{_MONTH}{_DAY}(?P=dash)[^\W\d_]+\d+(?!\d)")
"""IMG-20190603-WA0001: eight digits between a word and a counter."""


def taken(name: str) -> tuple[datetime, bool] | None:
    """The local moment a file's name tells, and whether it is a day only (then it is noon).

    None where the name tells no date, one that never was, or more than one.
    """
    for pattern, day_only in ((_WITH_HOUR, False), (_DAY_APART, True), (_DAY_BETWEEN, True)):
        found = {_moment(spelt, day_only) for spelt in pattern.finditer(name)}
        if found:
            moment = found.pop()
            return (moment, day_only) if moment and not found else None
    return None


def _moment(spelt: re.Match, day_only: bool) -> datetime | None:
    try:
        day = [int(spelt[part]) for part in ("year", "month", "day")]
        return datetime(*day, 12) if day_only else datetime(*day, *(int(spelt[part]) for part in ("hour", "minute", "second")))
    except ValueError:
        return None
