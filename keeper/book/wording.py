"""The program's own words in a book: dates, counts, and what a goal came to."""

from datetime import date

from keeper.dates.written import MONTHS, WEEKDAYS, month_and_year

_OUTCOMES = {"set": "", "done": "came about", "carried on": "went on", "let go": "let be"}

HEADINGS = {
    "map": "Where", "question": "The month\u2019s question", "words": "In a few words",
    "answers": "Answers to the question", "closing": "At the year\u2019s end", "index": "Index", "places": "Places",
    "people": "Names",
}  # fmt: skip


def month_name(month: date) -> str:
    """Such as November."""
    return MONTHS[month.month - 1]


def weekday(night: date) -> str:
    """Such as Sat."""
    return WEEKDAYS[night.weekday()][:3]


def span(first: date, last: date) -> str:
    """Such as "January to December 2025"."""
    if first.month == last.month:
        return month_and_year(first)
    return f"{month_name(first)} to {month_name(last)} {last.year}"


def counted(number: int, one: str) -> str:
    """Such as "1 line" or "2 lines"."""
    return f"{number:,} {one}{'' if number == 1 else 's'}"


def outcome(outcome_: str, word: str) -> str:
    """What became of a goal, and the person's word on it."""
    return ": ".join(part for part in (_OUTCOMES.get(outcome_, outcome_), word) if part)


def number(value: float) -> str:
    """A number without needless places."""
    return f"{value:g}"
