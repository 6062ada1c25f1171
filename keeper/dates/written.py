"""How numbers and dates are written: in English words, in the order and with the signs of the person's system."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
    "December",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Habits:
    """The signs between thousands and before decimals, from how many digits on thousands are parted, and what comes first.

    ``month_first``: November 14, 2026, else 14 November 2026.
    """

    thousands: str = ","
    decimal: str = "."
    parted_from: int = 4
    month_first: bool = False


_of: list[Callable[[], Habits]] = [Habits]


def follow(habits: Callable[[], Habits]) -> None:
    """Write everything as these say from now on; asked each time, since a system's ways can change."""
    _of[0] = habits


def habits() -> Habits:
    """How things are written here."""
    return _of[0]()


def number(value: float, decimals: int = 0) -> str:
    """Such as 12,480 or 1.234,5; digits are always these."""
    here = habits()
    whole, _, rest = f"{abs(value):,.{decimals}f}".partition(".")
    digits = whole.replace(",", "")
    whole = whole.replace(",", here.thousands if len(digits) >= here.parted_from else "")
    minus = "-" if value < 0 and float(f"{value:.{decimals}f}") else ""
    return f"{minus}{whole}{here.decimal if rest else ''}{rest}"


def shortest(value: float, most: int = 2) -> str:
    """A number with at most so many decimals, and no needless noughts."""
    decimals = len(f"{value:.{most}f}".rstrip("0").partition(".")[2])
    return number(value, decimals)


def percent(share: float) -> str:
    """Such as 26 %, of a share from 0 to 1."""
    return f"{number(share * 100)} %"


def size(many: int) -> str:
    """How much room so many bytes take, such as 640 bytes, 12 kB or 3.4 MB (SI: a kB is 1,000 bytes)."""
    if many < 1000:
        return counted(many, "byte")
    power = 1 if many < 999_500 else 2 if many < 999_500_000 else 3
    value = many / 1000**power
    return f"{shortest(value, 1 if value < 9.95 else 0)} {('kB', 'MB', 'GB')[power - 1]}"


def counted(many: int, one: str, more: str = "") -> str:
    """Such as "1 line" or "2 lines"."""
    return f"{number(many)} {one if many == 1 else more or one + 's'}"


def long_date(day: date) -> str:
    """Such as Saturday 14 November 2026, or Saturday, November 14, 2026."""
    return _with_weekday(WEEKDAYS[day.weekday()], full_date(day))


def full_date(day: date) -> str:
    """Such as 14 November 2026, or November 14, 2026."""
    return _with_year(day_and_month(day), day)


def day_and_month(day: date) -> str:
    """Such as 14 November, or November 14."""
    return _ordered(day, MONTHS[day.month - 1])


def short_date(day: date) -> str:
    """Such as Sat 14 Nov 2026, or Sat, Nov 14, 2026."""
    return _with_weekday(WEEKDAYS[day.weekday()][:3], shorter_date(day))


def shorter_date(day: date) -> str:
    """Such as 14 Nov 2026, or Nov 14, 2026."""
    return _with_year(_ordered(day, MONTHS[day.month - 1][:3]), day)


def weekday_and_day(day: date) -> str:
    """Such as Sat 14 Nov, or Sat, Nov 14."""
    return _with_weekday(WEEKDAYS[day.weekday()][:3], _ordered(day, MONTHS[day.month - 1][:3]))


def day_of_week(day: date) -> str:
    """Such as Sat 14: a night where its month is known."""
    return f"{WEEKDAYS[day.weekday()][:3]} {day.day}"


def month_and_year(day: date) -> str:
    """Such as November 2026."""
    return f"{MONTHS[day.month - 1]} {day.year}"


def span(first: date, last: date) -> str:
    """Such as 3 to 9 Nov 2026, or Nov 3 to 9, 2026; both whole where their months differ."""
    if first == last:
        return shorter_date(last)
    if (first.year, first.month) != (last.year, last.month):
        return f"{shorter_date(first)} to {shorter_date(last)}"
    if habits().month_first:
        return f"{MONTHS[last.month - 1][:3]} {first.day} to {last.day}, {last.year}"
    return f"{first.day} to {shorter_date(last)}"


def _ordered(day: date, month: str) -> str:
    return f"{month} {day.day}" if habits().month_first else f"{day.day} {month}"


def _with_year(told: str, day: date) -> str:
    return f"{told}, {day.year}" if habits().month_first else f"{told} {day.year}"


def _with_weekday(weekday: str, told: str) -> str:
    return f"{weekday}, {told}" if habits().month_first else f"{weekday} {told}"
