"""The program's words for dates, kinds and places; one voice for all pages."""

from datetime import date, datetime

from PySide6.QtCore import QDate, QLocale

KIND_NAMES = {"gratitude": "Gratitude", "memory": "Memory", "reflection": "Reflection"}

PLACEHOLDERS = {
    "gratitude": "What are you grateful for?",
    "memory": "What do you want to remember of this day?",
    "reflection": "A thought about the day",
}

# The program speaks English; dates follow it, whatever the system's language.
_ENGLISH = QLocale(QLocale.Language.English, QLocale.Country.UnitedKingdom)


def long_date(night: date) -> str:
    """Such as Saturday 14 November 2026."""
    return _said(night, "dddd d MMMM yyyy")


def day_and_month(night: date) -> str:
    """Such as 14 November."""
    return _said(night, "d MMMM")


def short_date(night: date) -> str:
    """Such as Sat 14 Nov 2026."""
    return _said(night, "ddd d MMM yyyy")


def weekday_and_day(night: date) -> str:
    """Such as Sat 14 Nov."""
    return _said(night, "ddd d MMM")


def month_and_year(night: date) -> str:
    """Such as November 2026."""
    return _said(night, "MMMM yyyy")


def month_letter(month: int) -> str:
    """Such as Nov."""
    return _ENGLISH.standaloneMonthName(month, QLocale.FormatType.ShortFormat)


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
        return "tomorrow" if days == -1 else f"in {-days:,} days"
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


def counted(number: int, one: str, many: str = "") -> str:
    """Such as "1 line" or "2 lines"."""
    return f"{number:,} {one if number == 1 else many or one + 's'}"


def _said(night: date, form: str) -> str:
    return _ENGLISH.toString(qdate(night), form)
