"""What lines tell of a person: when they were named first and last, and with whom."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from keeper.model import Person
from keeper.study.people import ManyTexts


@dataclass(frozen=True, slots=True)
class PersonView:
    """Someone, the nights of the lines that name them (one for each line, oldest first), and who is named in the same lines.

    ``together`` has other people with the number of lines, most lines first.
    """

    person: Person
    nights: tuple[date, ...]
    together: tuple[tuple[Person, int], ...]


def person_view(person: Person, lines: Iterable[tuple[date, str]], others: Sequence[Person]) -> PersonView:
    """What lines (night and text, oldest first) tell of a person; of others, those who rest are left out."""
    known = list(lines)
    texts = ManyTexts([text for _, text in known])
    found = texts.naming(person.names)
    return PersonView(person, tuple(known[at][0] for at in sorted(found)), together_in(texts, found, person, others))


def together_in(texts: ManyTexts, found: frozenset[int], person: Person, others: Sequence[Person]) -> tuple[tuple[Person, int], ...]:
    """Who else is named in those of the texts that name somebody, and in how many, the most first; not who rests."""
    awake = [one for one in others if one.id != person.id and not one.resting]
    times = [(one, len(found & texts.naming(one.names))) for one in awake]
    return tuple(sorted(((one, many) for one, many in times if many), key=lambda pair: (-pair[1], pair[0].name)))
