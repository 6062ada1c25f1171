"""A date, a month or a year as a person types it, in the way of where they live and in words."""

import re
from calendar import monthrange
from datetime import date, timedelta

from keeper.dates import numbered as dates
from keeper.dates.numbered import Understood
from keeper.dates.spelling import ENGLISH, PARTED, Spelling, compounds, day_words, in_plain_figures, names, same
from keeper.days import last_month, last_of_month
from keeper.errors import UnreadableDate

_LETTERS_SHOWN = 40

_FAR_EAST = re.compile(r"(?:(\d{4})\s*[年년]\s*)?(?:(\d{1,2})\s*[月월]\s*)?(?:(\d{1,2})\s*[日일])?")
_ONLY_NUMBERS = re.compile(r"\d+(?:\s*[-/.\u2010-\u2015]\s*|\s+)?(?:\d+(?:\s*[-/.\u2010-\u2015]\s*|\s+)?){0,2}")
_ORDINAL = re.compile(r"(\d+)(?:st|nd|rd|th|er|re|:?e|:?a|o)\b")
_DAY_ALONE = re.compile(r"(?:the )?(\d{1,2})(?:st|nd|rd|th)")
_YEAR_CUT_SHORT = re.compile(r"'(\d\d)\b")
_AGO = re.compile(r"(an?|one|two|three|\d{1,5}) (day|night|week|month|year)s? ago")
_AROUND = frozenset(("the", "of", "on", "at", "de", "del", "den", "der", "le", "la", "el", "di", "du", "am", "г", "года", "r"))
LAST = frozenset(("last", "letzte", "letzten", "letzter", "vorigen", "dernier", "derniere", "pasado", "scorso", "vorige",
                   "afgelopen", "forra", "gecen"))  # fmt: skip
"""Words for the one before, with accents left out."""

_NUMBERS = {"a": 1, "an": 1, "one": 1, "two": 2, "three": 3}


def understood(typed: str, tonight: date, spelling: Spelling = ENGLISH) -> Understood:
    """What a person meant.

    Takes numbers in the order of the spelling (a year of four figures first is
    always year-month-day), names of months and weekdays, and words such as
    "yesterday". Without a year it is the latest such day up to tonight. Raises
    UnreadableDate for what is no date, and for days that do not exist.
    """
    as_typed, text = _plain(typed), _without_what_means_nothing(_plain(typed), spelling)
    found = _in_words(as_typed, tonight, spelling) or _as_in_the_far_east(text, tonight, spelling)
    if found is None and _ONLY_NUMBERS.fullmatch(text):
        found = dates.in_numbers(re.findall(r"\d+", text), tonight, spelling.order)
    if found is None:
        found = _with_names(_ORDINAL.sub(r"\1", text), tonight, spelling)
    if found is None:
        raise UnreadableDate(
            f"\u201c{typed.strip()[:_LETTERS_SHOWN]}\u201d is not a date. "
            "Write one such as 2026-11-14, 14 November 2026 or yesterday."
        )
    return found


def _plain(typed: str) -> str:
    return " ".join(same(in_plain_figures(typed)).split())


def _without_what_means_nothing(text: str, spelling: Spelling) -> str:
    unmeant = _AROUND | {same(word) for word in spelling.around}
    text = " ".join(word for word in text.split() if same(word.strip(",")) not in unmeant)
    return _YEAR_CUT_SHORT.sub(r" 20\1", text).removesuffix(".")


def _in_words(text: str, tonight: date, spelling: Spelling) -> Understood | None:
    ago = day_words(spelling).get(text)
    if ago is not None:
        return dates.of_day(tonight - timedelta(days=ago))
    if text in ("this month", "last month"):
        return dates.of_month(tonight.replace(day=1) if text == "this month" else last_month(tonight))
    if text in ("this year", "last year"):
        return dates.of_year(tonight.year - (text == "last year"))
    alone = _DAY_ALONE.fullmatch(text)
    if alone:
        return _latest_of_number(int(alone[1]), tonight)
    spelt = _AGO.fullmatch(text)
    return dates.of_day(_so_long_ago(_NUMBERS.get(spelt[1]) or int(spelt[1]), spelt[2], tonight)) if spelt else None


def _latest_of_number(day: int, tonight: date) -> Understood | None:
    month = tonight
    for _ in range(3):
        if 1 <= day <= last_of_month(month).day and month.replace(day=day) <= tonight:
            return dates.of_day(month.replace(day=day))
        month = last_month(month)
    return None


def _so_long_ago(number: int, unit: str, tonight: date) -> date:
    if unit in ("day", "night", "week"):
        days = number * (7 if unit == "week" else 1)
        return tonight - timedelta(days=min(days, (tonight - date.min).days))
    months = tonight.year * 12 + tonight.month - 1 - number * (12 if unit == "year" else 1)
    year, month = max(months, 12) // 12, max(months, 12) % 12 + 1
    return date(year, month, min(tonight.day, monthrange(year, month)[1]))


def _as_in_the_far_east(text: str, tonight: date, spelling: Spelling) -> Understood | None:
    spelt = _FAR_EAST.match(text)
    year, month, day = spelt.groups()
    weekday = text[spelt.end() :].strip(" ()")
    known = [number for what, number in names(spelling).get(weekday, ()) if what == "weekday"]
    if not (year or month) or (weekday and not known) or (day and not month):
        return None
    if not month:
        return dates.of_year(int(year))
    if not day:
        return dates.of_month(dates.existing(int(year), int(month), 1)) if year else dates.latest_month(int(month), tonight)
    night = dates.existing(int(year), int(month), int(day)) if year else dates.latest(int(month), int(day), tonight)
    return dates.of_day(night, known[0] if known else None)


def _with_names(text: str, tonight: date, spelling: Spelling) -> Understood | None:
    for spelt, joined in compounds(spelling):
        text = text.replace(spelt, joined)
    words = [word for word in re.split(PARTED, text) if word]
    numbers = [word for word in words if word.isdecimal()]
    named = [word for word in words if not word.isdecimal() and word not in LAST]
    meant = _meant(named, spelling)
    if meant is None:
        return None
    months, weekdays = meant
    before, weekday = any(word in LAST for word in words), weekdays[0] if weekdays else None
    if not months and len(weekdays) == 1 and not numbers:
        return dates.latest_weekday(weekdays[0], tonight, before)
    if before and (weekdays or numbers):
        return None
    return _in_month(months[0], numbers, weekday, tonight, before) if len(months) == 1 and len(weekdays) < 2 else None


def _meant(named: list[str], spelling: Spelling) -> tuple[list[int], list[int]] | None:
    """Months and weekdays among the words; None when one is neither."""
    meanings = [_meaning(word, spelling) for word in named]
    if not all(meanings):
        return None
    of_month = [any(what == "month" for what, _ in one) for one in meanings]
    months, weekdays = [], []
    for one, may_be_month in zip(meanings, of_month, strict=True):
        # Spanish "mar" is a Tuesday where another word is the month.
        for_sure = all(what == "month" for what, _ in one)
        wanted = "month" if may_be_month and (for_sure or of_month.count(True) == 1) else "weekday"
        (months if wanted == "month" else weekdays).append(next(number for what, number in one if what == wanted))
    return months, weekdays


def _meaning(word: str, spelling: Spelling) -> frozenset[tuple[str, int]]:
    known = names(spelling)
    if word in known:
        return known[word]
    longer = {known[name] for name in known if len(word) >= 3 and name.startswith(word)}
    return longer.pop() if len(longer) == 1 else frozenset()


def _in_month(month: int, numbers: list[str], weekday: int | None, tonight: date, before: bool) -> Understood | None:
    lengths = [len(number) for number in numbers]
    if not numbers and weekday is None:
        return dates.latest_month(month, tonight, before)
    if lengths == [4] and weekday is None:
        return dates.of_month(dates.existing(int(numbers[0]), month, 1))
    if lengths in ([1], [2]):
        return dates.of_day(dates.latest(month, int(numbers[0]), tonight, weekday), weekday)
    if len(numbers) != 2:
        return None
    day, year = numbers[::-1] if lengths[0] == 4 else numbers
    whole = dates.whole_year(year, tonight)
    return dates.of_day(dates.existing(whole, month, int(day)), weekday) if whole and len(day) < 3 else None
