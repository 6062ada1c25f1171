"""What lines tell of a person: when they were named first and last, and with whom."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from keeper.model import Person
from keeper.study.people import mentions_any


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
    naming = [(night, text) for night, text in lines if mentions_any(text, person.names)]
    awake = [one for one in others if one.id != person.id and not one.resting]
    times = Counter(one for _, text in naming for one in awake if mentions_any(text, one.names))
    together = sorted(times.items(), key=lambda pair: (-pair[1], pair[0].name))
    return PersonView(person, tuple(night for night, _ in naming), tuple(together))
