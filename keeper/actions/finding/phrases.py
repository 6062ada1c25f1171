"""What narrows a search, as phrases of one sentence: each can be added, and taken off again."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from keeper.dates import written
from keeper.dates.seasons import SEASONS, months_of
from keeper.days import first_of_month, last_of_month
from keeper.model import Tracker
from keeper.store.search import Sought, Within

ANY = 1e12
"""Beyond any reading: between this and its opposite lies whatever was noted."""


@dataclass(frozen=True, slots=True)
class Phrase:
    """One thing that narrows: the field of Sought it stands in, its value there, and how it is said.

    Of the months of a season the value is all of them; "nights" are ``first`` and ``last`` in one.
    """

    sort: str
    value: object
    name: str
    lead: str = ""

    @property
    def text(self) -> str:
        """Such as "in Turku", by itself."""
        return f"{self.lead} {self.name}".strip()


_ALL_OF = ("people", "readings")
_SINGLE = ("photo", "resting", "first", "last")
_IN_ORDER = ("kinds", "people", "places", "themes", "weekdays", "months", "nights", "first", "last", "photo", "readings", "resting")
WITH_PHOTO = Phrase("photo", True, "a photo", "with")
RESTS, AWAKE = Phrase("resting", True, "rest", "that"), Phrase("resting", False, "do not rest", "that")


def with_phrase(sought: Sought, phrase: Phrase) -> Sought:
    """The search narrowed by this too. The months of a season join those that are there."""
    if phrase.sort == "nights":
        return replace(sought, first=phrase.value[0], last=phrase.value[1])
    if phrase.sort in _SINGLE:
        return replace(sought, **{phrase.sort: phrase.value})
    there = getattr(sought, phrase.sort)
    values = phrase.value if isinstance(phrase.value, tuple) else (phrase.value,)
    return replace(sought, **{phrase.sort: (*there, *(one for one in values if one not in there))})


def without_phrase(sought: Sought, phrase: Phrase) -> Sought:
    """The search without this."""
    if phrase.sort == "nights":
        return replace(sought, first=None, last=None)
    if phrase.sort in _SINGLE:
        return replace(sought, **{phrase.sort: getattr(Sought(), phrase.sort)})
    values = phrase.value if isinstance(phrase.value, tuple) else (phrase.value,)
    return replace(sought, **{phrase.sort: tuple(one for one in getattr(sought, phrase.sort) if one not in values)})


def weekday(number: int) -> Phrase:
    """Such as "on Sundays"; Monday is 0."""
    return Phrase("weekdays", number, f"{written.WEEKDAYS[number]}s", "on")


def month(number: int) -> Phrase:
    """Such as "in June", of any year."""
    return Phrase("months", (number,), written.MONTHS[number - 1], "in")


def season(place: int, south: bool = False) -> Phrase:
    """Such as "in winter", by its place in SEASONS; the months are those of where one lives."""
    return Phrase("months", months_of(place, south), SEASONS[place], "in")


def months(sought: Sought, south: bool = False) -> tuple[Phrase, ...]:
    """The seasons that are whole among the months sought, then the other months."""
    left = set(sought.months)
    whole = [season(place, south) for place in range(4) if left.issuperset(months_of(place, south))]
    for one in whole:
        left -= set(one.value)
    return (*whole, *(month(number) for number in sorted(left)))


def between(tracker: Tracker | None, within: Within) -> Phrase:
    """Such as "with Mood from 1 to 3"; of a mark "with Cold swim" or "without Cold swim"."""
    name = tracker.name if tracker else "a reading no longer kept"
    if tracker and tracker.form == "mark" and within.low == within.high:
        return Phrase("readings", within, name, "with" if within.low else "without")
    low, high = (_value(tracker, one) for one in (within.low, within.high))
    if within.low <= -ANY and within.high >= ANY:
        return Phrase("readings", within, f"{name} noted", "with")
    told = low if low == high else f"at most {high}" if within.low <= -ANY else f"at least {low}" if within.high >= ANY \
        else f"from {low} to {high}"  # fmt: skip
    return Phrase("readings", within, f"{name} {told}", "with")


def _value(tracker: Tracker | None, value: float) -> str:
    if tracker and tracker.form == "hours" and abs(value) < ANY:
        minutes = round(value * 60)
        return f"{minutes // 60}:{minutes % 60:02}"
    return written.shortest(value)


def nights(first: date | None, last: date | None) -> tuple[Phrase, ...]:
    """How the ends are said: "in June 2019", "on 3 June 2019", or "from June 2019" and "until 3 July 2019"."""
    if first and last and (one := _whole(first, last)):
        return (Phrase("nights", (first, last), *one),)
    begins = (Phrase("first", first, _told(first, first == first_of_month(first)), "from"),) if first else ()
    return begins + ((Phrase("last", last, _told(last, last == last_of_month(last)), "until"),) if last else ())


def _whole(first: date, last: date) -> tuple[str, str] | None:
    if first == last:
        return written.full_date(first), "on"
    if (first, last) == (first_of_month(last), last_of_month(first)):
        return written.month_and_year(first), "in"
    return (str(first.year), "in") if (first, last) == (date(last.year, 1, 1), date(first.year, 12, 31)) else None


def _told(night: date, of_month: bool) -> str:
    return written.month_and_year(night) if of_month else written.full_date(night)


def in_sentence(phrases: Iterable[Phrase]) -> tuple[tuple[Phrase, str], ...]:
    """Each with how it is said after those before it: "in Turku", then "or Visby"; people and readings with "and"."""
    told, before = [], ""
    for one in sorted(phrases, key=lambda one: _IN_ORDER.index(one.sort)):
        joined = one.sort == before and one.lead not in ("with", "without")
        told.append((one, f"{'and' if one.sort in _ALL_OF else 'or'} {one.name}" if joined else one.text))
        before = one.sort
    return tuple(told)


def sentence(phrases: Iterable[Phrase]) -> str:
    """Such as "in Turku or Visby, on Sundays"."""
    said = [text for _, text in in_sentence(phrases)]
    return "".join(text if not place else f" {text}" if text.startswith(("or ", "and ")) else f", {text}"
                   for place, text in enumerate(said))  # fmt: skip
