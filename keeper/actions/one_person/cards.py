"""Birthdays and other days kept from a file that was looked at, and given out as cards or as a calendar."""

from dataclasses import replace
from datetime import UTC
from pathlib import Path

from keeper import __version__
from keeper.actions import people, told_as
from keeper.actions.one_person import days
from keeper.actions.one_person.cards_looked import CardComing, CardsLooked
from keeper.actions.paper.saving import put_into
from keeper.clock import Clock
from keeper.dates import written
from keeper.errors import KeeperError, UnknownThing, UnreadableFile, shown_name
from keeper.exchange.people import birthdays, files, vcards
from keeper.exchange.people.card import Card, CardDay
from keeper.model import DayToRemember, Person
from keeper.store import Store
from keeper.store import people as kept_people
from keeper.store.one_person import about as kept_about
from keeper.store.one_person import days as kept_days


def keep(store: Store, looked: CardsLooked, everybody: bool = False) -> int:
    """Keep what a file would bring, in one act; returns of how many people. Raises CannotWrite."""
    chosen = looked.chosen(everybody)
    with store.writing(told_as.of_person(f"The birthdays in {shown_name(looked.path)}")):
        return sum(_keep(store, one) for one in chosen)


def _keep(store: Store, one: CardComing) -> bool:
    try:
        person = one.person or people.add(store, ", ".join(one.card.names))
    except KeeperError:
        # A name too long, or one that another of the file has by now.
        return False
    for day in one.brings:
        days.put(store, DayToRemember("", person.id, days.name_of_day(day.what[: days.LONGEST_NAME]), day.month, day.day, day.year,
                                      day.after, day.said))  # fmt: skip
    for there, year in one.fills:
        kept_days.change(store, replace(there, year=year))
    if one.about:
        kept_about.keep(store, person.id, one.about)
    return True


def give(store: Store, path: Path, clock: Clock) -> str:
    """Write everybody's days into a file, as cards or as a calendar by its ending; returns what was done.

    Who rests is left out. Raises UnreadableFile for another ending, UnknownThing when there is no day, CannotWrite.
    """
    ending = path.suffix.lower()
    if ending not in files.ENDINGS:
        raise UnreadableFile(f"A file of birthdays ends in .vcf (cards) or .ics (a calendar); {shown_name(path)} does not.")
    known = [_card_of(store, one) for one in kept_people.every(store) if one.names and not one.resting]
    cards = [card for card in known if card.days]
    if not cards:
        raise UnknownThing("No day of anybody is remembered yet, so there is nothing to give.")
    content = vcards.written(cards) if ending in files.ENDINGS[:2] else birthdays.written(cards, clock.moment().utc.astimezone(UTC), __version__)
    put_into(path, content, "The file of birthdays")
    many = sum(len(card.days) for card in cards)
    return f"{written.counted(many, 'day')} of {written.counted(len(cards), 'person', 'people')} are in {path.name}."


def _card_of(store: Store, person: Person) -> Card:
    its = tuple(CardDay(one.what, one.month, one.day, one.year, one.after, one.typed) for one in kept_days.of_person(store, person.id))
    return Card(person.names, its, kept_about.about(store, person.id), uid=f"urn:uuid:{person.id}")
