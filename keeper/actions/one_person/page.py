"""What the page of a person shows: when they were named, where, with whom; their days, their photos, their lines."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from keeper.actions import people as marked
from keeper.actions.awake import awake
from keeper.model import DayToRemember, Found, Person, Photo
from keeper.store import Store, people, search
from keeper.store.one_person import about, days
from keeper.store.photos import known as photos
from keeper.store.search import Sought
from keeper.study.one_person import together_in
from keeper.study.people import ManyTexts, mentions_any

PLACES, TOGETHER = 8, 12
"""So many places, and other people, are told."""


@dataclass(frozen=True, slots=True)
class PersonPage:
    """Somebody, as their page shows them at first.

    ``numbers`` are those of the lines that name them, the newest first, and
    ``nights`` their nights, oldest first, each once. ``months`` has the number
    of lines of each month (its first day) with any.
    """

    person: Person
    about: str
    days: tuple[DayToRemember, ...]
    numbers: tuple[int, ...]
    nights: tuple[date, ...]
    months: dict[date, int]


@dataclass(frozen=True, slots=True)
class PersonAround:
    """Where and with whom somebody is named: places as id, name and nights, other people with lines; the most first."""

    places: tuple[tuple[str, str, int], ...] = ()
    together: tuple[tuple[Person, int], ...] = ()


def person_page(store: Store, person_id: str) -> PersonPage:
    """Somebody's page. Raises UnknownThing."""
    person = marked.known(store, person_id)
    known = people.numbered_with(store, person.names)
    # Laid end to end they are looked through in half the time of one by one.
    naming = ManyTexts([text for _, _, text in known]).naming(person.names)
    found = [known[at][:2] for at in sorted(naming)]
    nights = tuple(dict.fromkeys(night for _, night in found))
    return PersonPage(
        person, about.about(store, person_id), days.of_person(store, person_id), tuple(number for number, _ in reversed(found)),
        nights, _by_month(night for _, night in found),
    )  # fmt: skip


def _by_month(nights: Iterable[date]) -> dict[date, int]:
    counted = Counter((night.year, night.month) for night in nights)
    return {date(year, month, 1): many for (year, month), many in counted.items()}


def around(store: Store, person_id: str) -> PersonAround:
    """Where and with whom somebody is named; asked apart, since over fifty years it takes longer than all the rest.

    Whoever rests too is not named, nor a place that does. Raises UnknownThing.
    """
    person = marked.known(store, person_id)
    known = people.numbered_with(store, person.names)
    texts = ManyTexts([text for _, _, text in known])
    naming = texts.naming(person.names)
    nights = tuple({known[at][1] for at in naming})
    return PersonAround(_places(store, nights, person), together_in(texts, naming, person, people.every(store))[:TOGETHER])


def _places(store: Store, nights: Sequence[date], person: Person) -> tuple[tuple[str, str, int], ...]:
    rule = awake(store) if not person.resting else None
    found = people.places_of(store, nights)
    return tuple(one for one in found if rule is None or rule.text(one[1]))[:PLACES]


def lines_of(store: Store, numbers: Sequence[int]) -> tuple[Found, ...]:
    """The lines with these numbers, in their order."""
    return search.among(store, Sought(), numbers, len(numbers))


def photos_of(store: Store, person_id: str, most: int) -> tuple[tuple[Photo, date], ...]:
    """The photos awake that somebody is marked on or named under, each with its last night, newest first."""
    person, rule = marked.known(store, person_id), awake(store)
    nights = dict(about.photo_nights(store, person_id))
    nights |= {its: night for its, caption, night in about.captioned(store) if mentions_any(caption, person.names)}
    found: list[tuple[Photo, date]] = []
    for its, night in sorted(nights.items(), key=lambda pair: (pair[1], pair[0]), reverse=True):
        photo = photos.by_id(store, its)
        # Who asks for somebody who rests has asked for their photos.
        if photo and (rule.photo(photo, [night]) or (person.resting and not photo.resting and rule.night(night))):
            found.append((photo, night))
        if len(found) == most:
            break
    return tuple(found)


def named_in(store: Store, texts: Sequence[str]) -> tuple[Person, ...]:
    """Who of those marked, and awake, is named in any of these texts, by name."""
    rule = awake(store)
    everybody = [one for one in people.every(store) if one.names and not one.resting and rule.text(one.name)]
    known = ManyTexts(texts)
    return tuple(one for one in everybody if known.naming(one.names))
