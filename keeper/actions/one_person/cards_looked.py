"""A file of cards, or a calendar, looked at: whom it tells of, and what of that is not here; nothing is written."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from keeper.actions import people
from keeper.actions.one_person import days
from keeper.dates import written
from keeper.errors import Stopped, UnreadableFile, shown_name
from keeper.exchange.people import files
from keeper.exchange.people.card import Card, CardDay
from keeper.model import DayToRemember, Person
from keeper.store import Store
from keeper.store import people as kept_people
from keeper.store.folding import bare
from keeper.store.one_person import about as kept_about
from keeper.store.one_person import days as kept_days

MOST = 20_000
"""So many people of one file are looked at."""


@dataclass(frozen=True, slots=True)
class CardComing:
    """Somebody of a file, and what they would bring.

    ``person`` is who they are taken for, None for somebody new; ``in_lines``
    whether a line has their name. ``brings`` are days that are not here,
    ``fills`` those that are here without their year, ``here`` those that are
    here as they are, ``differs`` birthdays that are another day here.
    """

    card: Card
    person: Person | None
    in_lines: bool
    brings: tuple[CardDay, ...] = ()
    fills: tuple[tuple[DayToRemember, int], ...] = ()
    here: tuple[CardDay, ...] = ()
    differs: tuple[tuple[DayToRemember, CardDay], ...] = ()
    about: str = ""

    @property
    def changes(self) -> bool:
        """Whether anything of them is not here."""
        return bool(self.brings or self.fills or self.about) or self.person is None


@dataclass(frozen=True, slots=True)
class CardsLooked:
    """A file that was looked at. ``nobody`` is how many cards or events are nobody's; ``troubles`` are sentences."""

    path: Path
    coming: tuple[CardComing, ...]
    nobody: int = 0
    troubles: tuple[str, ...] = ()

    def chosen(self, everybody: bool) -> tuple[CardComing, ...]:
        """Those who would bring something: who is marked or in lines, or everybody."""
        return tuple(one for one in self.coming if one.changes and (everybody or one.person or one.in_lines))

    def left(self) -> tuple[CardComing, ...]:
        """Those whose names are in no line, and who are new."""
        return tuple(one for one in self.coming if one.person is None and not one.in_lines)


@dataclass
class _Gathered:
    """Cards of one name made one."""

    cards: dict[str, Card] = field(default_factory=dict)
    nobody: int = 0
    troubles: list[str] = field(default_factory=list)

    def take(self, card: Card) -> None:
        self.troubles += [f"Row {card.number}, {' '.join(card.names[:1]) or 'a card'}: {why}." for why in card.troubles]
        if not card.names:
            self.nobody += not card.troubles
            return
        key = bare(card.names[0])
        there = self.cards.get(key)
        if there is None:
            self.cards[key] = replace(card, days=tuple(dict.fromkeys(card.days)))
            return
        self.cards[key] = replace(
            there, names=tuple(dict.fromkeys((*there.names, *card.names))), days=tuple(dict.fromkeys((*there.days, *card.days))),
            about=there.about or card.about,
        )  # fmt: skip


def look(store: Store, path: Path, tonight: date, stopped: Callable[[], bool] = lambda: False) -> CardsLooked:
    """Look at a file of cards, or a calendar; nothing is written. Raises UnreadableFile, Stopped."""
    gathered = _Gathered()
    for number, card in enumerate(files.cards_in(path, tonight)):
        if stopped():
            raise Stopped
        if number >= MOST:
            raise UnreadableFile(f"{shown_name(path)} has more than {written.number(MOST)} cards or events. Part it, and read in the parts.")
        gathered.take(card)
    if not gathered.cards and not gathered.nobody and not gathered.troubles:
        raise UnreadableFile(f"{shown_name(path)} has no card and no event in it.")
    marked = {bare(name): one for one in kept_people.every(store) for name in one.names}
    given = _given_once(gathered.cards.values())
    coming = tuple(_coming(store, card, _taken_for(card, marked, given)) for card in gathered.cards.values())
    return CardsLooked(path, coming, gathered.nobody, tuple(gathered.troubles))


def _given_once(cards: Iterable[Card]) -> frozenset[str]:
    """Given names that only one of the cards has: those tell who is meant."""
    all_given = [bare(card.given) for card in cards if card.given]
    return frozenset(name for name in all_given if all_given.count(name) == 1) if len(all_given) < 3000 else frozenset()


def _taken_for(card: Card, marked: dict[str, Person], given: frozenset[str]) -> Person | None:
    named = [bare(name) for name in card.names]
    # "Hennings Geburtstag" is Henning's.
    named += [name.removesuffix("s") for name in named if name.endswith("s")]
    named += [bare(card.given)] if bare(card.given) in given else []
    return next((marked[name] for name in named if name in marked), None)


def _coming(store: Store, card: Card, person: Person | None) -> CardComing:
    if person is None:
        in_lines = any(people.lines_naming(store, Person("", name)) for name in card.names)
        return CardComing(card, None, in_lines, brings=card.days, about=_about(card))
    there, brings, fills, here, differs = kept_days.of_person(store, person.id), [], [], [], []
    for day in card.days:
        same = next((one for one in there if _is_same(one, day)), None)
        other = next((one for one in there if one.is_birthday and day.what == "birthday"), None)
        if same and same.year is None and day.year:
            fills.append((same, day.year))
        elif same:
            here.append(day)
        elif other:
            differs.append((other, day))
        else:
            brings.append(day)
    about = "" if kept_about.about(store, person.id) else _about(card)
    return CardComing(card, person, True, tuple(brings), tuple(fills), tuple(here), tuple(differs), about)


def _about(card: Card) -> str:
    # A long note is something else than a line about somebody.
    return card.about if len(card.about) <= days.LONGEST_ABOUT else ""


def _is_same(one: DayToRemember, day: CardDay) -> bool:
    same_year = one.year == day.year or one.year is None or day.year is None
    return one.what.casefold() == day.what.casefold() and (one.month, one.day) == (day.month, day.day) and same_year
