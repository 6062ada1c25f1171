"""Somebody's days to remember, and the line about them."""

from dataclasses import replace
from datetime import date

from keeper.actions import people, told_as
from keeper.actions.writing import check_text
from keeper.dates import written
from keeper.dates.calendars import GREGORIAN
from keeper.dates.spelling import ENGLISH, Spelling
from keeper.dates.typed_day import typed_day
from keeper.errors import UnknownThing, UnreadableText
from keeper.model import DayToRemember
from keeper.model.people import BIRTHDAY
from keeper.store import Store
from keeper.store.one_person import about as kept_about
from keeper.store.one_person import days as kept_days

LONGEST_NAME = 100
"""The most characters the name of a day may have."""

LONGEST_ABOUT = 2000
"""The most characters of the line about somebody."""


def describe(store: Store, person_id: str, text: str) -> None:
    """Write the line about somebody anew; "" takes it out. Raises UnreadableText, UnknownThing."""
    check_text(text)
    if len(text.strip()) > LONGEST_ABOUT:
        raise UnreadableText(f"This is {len(text.strip())} characters long; the line about somebody can have {LONGEST_ABOUT}.")
    with store.writing(told_as.of_person(f"The line about {people.called(store, person_id)}", person_id)):
        kept_about.keep(store, people.known(store, person_id).id, text.strip())


def remember(
    store: Store, person_id: str, what: str, typed: str, tonight: date, spelling: Spelling = ENGLISH, calendar: str = GREGORIAN
) -> DayToRemember:
    """Keep a day as it was typed; a birthday takes the place of the one that was known.

    Raises UnreadableDate for no day, UnreadableText for no name of one, UnknownThing.
    """
    called = name_of_day(what)
    meant = typed_day(typed, tonight, spelling, calendar)
    found = DayToRemember("", person_id, called, meant.month, meant.day, meant.year, typed=meant.typed)
    with store.writing(told_as.of_person(f"{titled(called)} of {people.called(store, person_id)}", person_id)):
        people.known(store, person_id)
        return put(store, found)


def put(store: Store, found: DayToRemember) -> DayToRemember:
    """Keep a day within an act; a birthday in place of the one there, told as that was."""
    there = next((one for one in kept_days.of_person(store, found.person_id) if found.is_birthday and one.is_birthday), None)
    if there is None:
        return kept_days.add(store, found)
    changed = replace(found, id=there.id, told=there.told, after=there.after)
    kept_days.change(store, changed)
    return changed


def name_of_day(typed: str) -> str:
    """What a day is called, from what was typed; nothing is the birthday. Raises UnreadableText."""
    check_text(typed)
    name = " ".join(typed.split())
    if len(name) > LONGEST_NAME:
        raise UnreadableText(f"This name of a day is {len(name)} characters long; it can have {LONGEST_NAME}.")
    return BIRTHDAY if not name or name.casefold() == BIRTHDAY else name


def titled(what: str) -> str:
    """A day's name as it stands by itself."""
    return what.capitalize() if what == BIRTHDAY else what


def every(store: Store) -> tuple[DayToRemember, ...]:
    """All days of all people: birthdays first, then through the year."""
    return tuple(sorted(kept_days.every(store), key=lambda one: not one.is_birthday))


def tell(store: Store, day_id: str, told: bool) -> None:
    """Let a day be told on Tonight, on its morning and in the week before; or no more. Raises UnknownThing."""
    one = known(store, day_id)
    said = "to be told on Tonight" if told else "no longer told on Tonight"
    with store.writing(told_as.of_person(f"{_of(store, one)} {said}", one.person_id)):
        kept_days.change(store, replace(known(store, day_id), told=told))


def fall_after(store: Store, day_id: str, after: bool) -> None:
    """Let a 29 February be 1 March in other years; or 28 February. Raises UnknownThing."""
    one = known(store, day_id)
    said = "1 March" if after else "28 February"
    with store.writing(told_as.of_person(f"{_of(store, one)} on {said} in other years", one.person_id)):
        kept_days.change(store, replace(known(store, day_id), after=after))


def take_out(store: Store, day_id: str) -> None:
    """Remember a day no more. Raises UnknownThing."""
    one = known(store, day_id)
    with store.writing(told_as.of_person(f"{_of(store, one)} taken out", one.person_id)):
        kept_days.take_out(store, day_id)


def known(store: Store, day_id: str) -> DayToRemember:
    """The day with this id. Raises UnknownThing."""
    one = kept_days.by_id(store, day_id)
    if one is None:
        raise UnknownThing("That day is no longer remembered.")
    return one


def _of(store: Store, one: DayToRemember) -> str:
    return f"{titled(one.what)} of {people.called(store, one.person_id)}"


def meant(typed: str, tonight: date, spelling: Spelling = ENGLISH, calendar: str = GREGORIAN) -> str:
    """What is understood of a day typed, in words: "12 March, without a year". Raises UnreadableDate."""
    found = typed_day(typed, tonight, spelling, calendar)
    if found.year is None:
        return f"{written.day_and_month(date(2000, found.month, found.day))}, without a year"
    return written.long_date(date(found.year, found.month, found.day))
