"""Days to remember as events of each year in a calendar (VEVENT of RFC 5545), in and out, by icalendar."""

import re
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, datetime, timedelta

from keeper.exchange.people.card import Card, CardDay, one_name, plain
from keeper.exchange.people.day_values import NotADay, day_from
from keeper.exchange.texts.calendar import unfolded

OF_WHOM, WHAT, YEAR = "X-PERSON", "X-DAY-TO-REMEMBER", "X-YEAR"
"""Whose day it is, what it is called, and whether its year is known: an event has to begin in some year."""

_LEAP_YEAR = 2000
_READ = ("DTSTART", "RRULE", "SUMMARY", "CATEGORIES", OF_WHOM, WHAT, YEAR)

_SAYS_SO = re.compile(
    r"(?i)birthday|b-day|geburtstag|f\u00f6delsedag|f\u00f8dselsdag|bursdag|syntym\u00e4p\u00e4iv\u00e4t?|s\u00fcnnip\u00e4ev|"
    r"dzim\u0161anas diena|gimtadienis|urodziny|verjaardag|anniversaire|cumplea\u00f1os|compleanno|anivers\u00e1rio|"
    r"\u0434\u0435\u043d\u044c \u0440\u043e\u0436\u0434\u0435\u043d\u0438\u044f|\u03b3\u03b5\u03bd\u03ad\u03b8\u03bb\u03b9\u03b1|\u8a95\u751f\u65e5|\u751f\u65e5"
)
_YEAR = re.compile(r"\(?\b(1[89]\d\d|20\d\d)\b\)?")
_AROUND = re.compile(r"(?i)^(?:of|von|vom|de|da|di|du|van|av|af|f\u00fcr|for)\s+|['\u2019]s?\s*$|\s+(?:has|hat|am)$|\s+[^\w\s]+$|[\s:,()\-\u2013\u2014]+$|^[\s:,()\-\u2013\u2014]+")

_SUCH_AS_THIS_YEAR = 3
"""An event that begins this many years ago, or later, is likelier to begin when it was typed than when somebody was born."""


_LONGEST_SUMMARY = 500


def read(lines: Iterable[str], tonight: date) -> Iterator[Card]:
    """Whoever has a day in a calendar, a card for each event; one with trouble for an event that tells of no day.

    Events that are nobody's birthday come as cards without a name.
    """
    within: list[str] = []
    began, told = 0, {}
    for number, line in unfolded(lines):
        name, _, value = line.partition(":")
        name = name.upper()
        if name == "BEGIN":
            within.append(value.strip().upper())
            if within[-1] == "VEVENT":
                began, told = number, {}
        elif name == "END":
            if within and within.pop() == "VEVENT":
                yield _card(told, began, tonight)
        elif within and within[-1] == "VEVENT" and name.partition(";")[0].strip() in _READ:
            _take(line, told)


def _take(line: str, told: dict[str, str]) -> None:
    from icalendar.parser import Contentline
    from icalendar.prop import vText

    try:
        name, _, value = Contentline.from_ical(line).parts()
    except Exception:
        # Whatever a library makes of a row that is none.
        return
    told.setdefault(name.upper(), value if name.upper() in ("DTSTART", "RRULE") else str(vText.from_ical(value)))


def _card(told: dict[str, str], number: int, tonight: date) -> Card:
    summary, what = told.get("SUMMARY", ""), " ".join(plain(told.get(WHAT, "")).split()) or "birthday"
    says_so = _SAYS_SO.search(summary) or "birthday" in told.get("CATEGORIES", "").lower()
    whose = one_name(told.get(OF_WHOM, "")) or (_name_in(summary) if says_so else "")
    if not any(map(str.isalnum, whose)):
        return Card((), number=number)
    try:
        month, day, year = day_from(told.get("DTSTART", ""))
    except NotADay as error:
        return Card((whose,), number=number, troubles=(f"its day {error}",))
    after = (month, day) == (2, 29) and "BYYEARDAY=60" in told.get("RRULE", "").upper()
    return Card((whose,), (CardDay(what, month, day, _year(told, summary, year, tonight), after),), number=number)


def _name_in(summary: str) -> str:
    # No name is as long; what strips signs from its ends looks at all of them from each.
    name, before = _YEAR.sub(" ", _SAYS_SO.sub(" ", summary[:_LONGEST_SUMMARY])), ""
    while name != before:
        before, name = name, _AROUND.sub("", name.strip())
    return one_name(name)


def _year(told: dict[str, str], summary: str, first: int | None, tonight: date) -> int | None:
    if YEAR in told:
        return first if told[YEAR].strip().lower() == "known" else None
    if found := _YEAR.search(summary):
        return int(found[1])
    return first if first and first < tonight.year - _SUCH_AS_THIS_YEAR else None


def written(cards: Sequence[Card], now: datetime, version: str) -> bytes:
    """The days of all as a calendar; ``now`` (aware, UTC) is when it was made.

    A 29 February is the last day of February in other years, or the sixtieth
    of the year, which then is 1 March. A day whose year is not known begins in 2000.
    """
    from icalendar import Calendar

    made = Calendar()
    made.add("prodid", f"-//Keeper of Days//Keeper of Days {version}//EN")
    made.add("version", "2.0")
    for card in cards:
        for number, day in enumerate(card.days):
            made.add_component(_event(card, day, number, now))
    return made.to_ical()


def _event(card: Card, day: CardDay, number: int, now: datetime) -> object:
    from icalendar import Event
    from icalendar.prop import vText

    made, name = Event(), card.names[0]
    first = date(day.year or _LEAP_YEAR, day.month, day.day)
    made.add("uid", f"{card.uid or name}-{number}")
    made.add("dtstamp", now)
    made.add("dtstart", first)
    made.add("dtend", first + timedelta(days=1))
    rule: dict[str, object] = {"freq": "yearly"}
    if (day.month, day.day) == (2, 29):
        rule |= {"byyearday": 60} if day.after else {"bymonth": 2, "bymonthday": -1}
    made.add("rrule", rule)
    made.add("summary", plain(f"{day.what[:1].upper()}{day.what[1:]} of {name}"))
    made.add("categories", ["Birthday"] if day.what == "birthday" else ["Day to remember"])
    made.add("transp", "TRANSPARENT")
    made.add("class", "PRIVATE")
    for key, value in ((OF_WHOM, name), (WHAT, day.what), (YEAR, "known" if day.year else "not known")):
        made.add(key, vText(plain(value)))
    return made
