"""The program's words for dates, kinds and places; one voice for all pages, in the order the system writes them."""

from datetime import date, datetime

from PySide6.QtCore import QDate, QLocale

from keeper.dates import written
from keeper.dates.written import (
    Habits,
    counted,
    day_and_month,
    day_of_week,
    full_date,
    long_date,
    month_and_year,
    number,
    percent,
    short_date,
    shorter_date,
    shortest,
    size,
    span,
    weekday_and_day,
)
from keeper.model import LineKind

__all__ = [
    "counted", "day_and_month", "day_of_week", "full_date", "habits", "how_long_ago", "long_date",
    "month_and_year", "month_letter", "number", "percent", "prompt", "qdate", "short_date", "shorter_date", "shortest", "size", "span",
    "weekday_and_day",
]  # fmt: skip

_PROMPTS = {
    "gratitude": "What are you grateful for?",
    "memory": "What do you want to remember of this day?",
    "reflection": "A thought about the day",
}


def prompt(kind: LineKind) -> str:
    """What a kind's empty field asks: the person's words, the program's, or nothing."""
    return kind.prompt or _PROMPTS.get(kind.key, "")


def habits() -> Habits:
    """How the system in force writes numbers and dates. The program's words stay English, and its digits those of English."""
    return _habits_of(QLocale())


def _habits_of(here: QLocale) -> Habits:
    order = here.dateFormat(QLocale.FormatType.LongFormat)
    month_first = 0 <= order.find("M") < order.replace("dddd", "    ").find("d")
    if here.language() == QLocale.Language.C or here.zeroDigit() != "0":
        return Habits(month_first=month_first)
    here.setNumberOptions(QLocale.NumberOption.DefaultNumberOptions)
    parted = here.groupSeparator() in here.toString(1234)
    return Habits(here.groupSeparator(), here.decimalPoint(), 4 if parted else 5, month_first)


def month_letter(month: int) -> str:
    """Such as Nov."""
    return written.MONTHS[month - 1][:3]


def qdate(night: date) -> QDate:
    """The same day for Qt."""
    return QDate(night.year, night.month, night.day)


def how_long_ago(night: date, tonight: date) -> str:
    """Such as "last night", "5 nights ago", "3 years ago" or "in 2 days"."""
    days = (tonight - night).days
    if days == 0:
        return "tonight"
    if days == 1:
        return "last night"
    if days < 0:
        return "tomorrow" if days == -1 else f"in {number(-days)} days"
    if days < 60:
        return f"{days} nights ago"
    if days < 365:
        return f"{round(days / 30.44)} months ago"
    years = tonight.year - night.year - ((tonight.month, tonight.day) < (night.month, night.day))
    return "1 year ago" if years == 1 else f"{years} years ago"


def which_night(night: date, tonight: date, now: datetime, rollover: int) -> str:
    """How a night stands to the one being lived, as its page says it."""
    if night > tonight:
        # Who crosses the date line eastward has written a night that is still to come here.
        return f"Still to come: here it is {long_date(tonight)}."
    if night == tonight and now.date() > tonight:
        return f"Past midnight, and still tonight: a night ends at {rollover}:00."
    return capitalised(how_long_ago(night, tonight))


def capitalised(sentence: str) -> str:
    """With a capital at its beginning."""
    return sentence[:1].upper() + sentence[1:]
