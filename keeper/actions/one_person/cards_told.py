"""What a file of cards would bring, in sentences: what is there already is told before anything is written."""

from collections.abc import Iterable
from datetime import date

from keeper.actions.one_person.cards_looked import CardsLooked
from keeper.dates import written
from keeper.exchange.people.card import CardDay
from keeper.model import DayToRemember
from keeper.store.folding import bare


def would_bring(looked: CardsLooked, everybody: bool = False) -> tuple[str, ...]:
    """What a file would bring, in sentences: who is new, what is here already, what stays as it is here, what is left out."""
    chosen = looked.chosen(everybody)
    new = [one for one in chosen if one.person is None]
    many = sum(len(one.brings) + len(one.fills) for one in chosen)
    told = [f"It would bring {written.counted(many, 'day')} to remember, of {written.counted(len(chosen), 'person', 'people')}."
            if chosen else "It would bring nothing."]  # fmt: skip
    told += [f"Newly marked: {_named(one.card.names[0] for one in new)}."] if new else []
    told += [f"{one.card.names[0]} is taken for {one.person.names[0]}." for one in chosen
             if one.person and bare(one.card.names[0]) != bare(one.person.names[0])]  # fmt: skip
    doubles = [one.card.names[0] for one in looked.coming if one.here]
    told += [f"Here already, and not added again: {_named(doubles)}."] if doubles else []
    told += [f"{one.person.names[0]}: the birthday here, {said(there)}, stays; the file says {said(day)}." for one in looked.coming
             for there, day in one.differs]  # fmt: skip
    left = () if everybody else looked.left()
    told += [f"Left out, since no line has the name: {_named(one.card.names[0] for one in left)}."] if left else []
    told += [f"{written.counted(looked.nobody, 'event is', 'events are')} nobody\u2019s birthday."] if looked.nobody else []
    return tuple(told)


def _named(names: Iterable[str], most: int = 8) -> str:
    known = list(names)
    shown = [name if len(name) <= 60 else f"{name[:59]}\u2026" for name in known[:most]]
    return ", ".join(shown) + (f" and {written.number(len(known) - most)} more" if len(known) > most else "")


def said(day: DayToRemember | CardDay) -> str:
    """A day in words, its year if it is known."""
    return written.full_date(date(day.year, day.month, day.day)) if day.year else written.day_and_month(date(2000, day.month, day.day))
