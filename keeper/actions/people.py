"""People whose names the person marked: kept whole in themes, told of on the month's page, indexed in the book."""

from dataclasses import dataclass, replace
from datetime import date

from keeper.actions import told_as
from keeper.actions.writing import check_text
from keeper.errors import AlreadyKept, UnknownThing, UnreadableText
from keeper.model import Person
from keeper.review.year_words import spoken
from keeper.store import Store, resting
from keeper.store import people as kept_people
from keeper.store.folding import bare
from keeper.store.places import named as places
from keeper.store.themes import found as themes
from keeper.study.language.names_likely import Suggestion, suggested
from keeper.study.one_person import PersonView, person_view
from keeper.study.people import ManyTexts, mentions_any

__all__ = [
    "Named", "Suggestion", "add", "called", "every", "known", "lines_naming", "named", "rename", "rest", "rest_by_name",
    "suggestions", "take_out", "view_of", "wake", "wake_by_name",
]  # fmt: skip

LONGEST = 200
"""The most characters a name may have, all its spellings together."""

RECENT = 6000
"""In so many of the latest lines names are looked for that might be marked."""


@dataclass(frozen=True, slots=True)
class Named:
    """Someone, with how many lines name them in any of their spellings, and the last night of these."""

    person: Person
    lines: int
    last: date | None = None


def every(store: Store) -> tuple[Named, ...]:
    """All people marked, by name, each with the number of lines; one look at every line that may name them."""
    return tuple(_counted(store, one) for one in kept_people.every(store))


def _counted(store: Store, person: Person) -> Named:
    lines = kept_people.lines_with(store, person.names)
    naming = ManyTexts([text for _, text in lines]).naming(person.names)
    return Named(person, len(naming), lines[max(naming)][0] if naming else None)


def lines_naming(store: Store, person: Person) -> int:
    """How many lines name someone: as words of its own, with a capital where the name was given with one."""
    texts = kept_people.texts_naming(store, person.names)
    return sum(mentions_any(text, person.names) for text in texts)


def view_of(store: Store, name: str) -> PersonView:
    """What the lines tell of someone marked by this name. Raises UnknownThing."""
    person = named(store, name)
    if person is None:
        raise UnknownThing(f"No one called \u201c{name}\u201d is marked.")
    return person_view(person, kept_people.lines_with(store, person.names), kept_people.every(store))


def add(store: Store, name: str) -> Person:
    """Mark someone; several spellings may be given, with commas between.

    Raises UnreadableText for no name at all, AlreadyKept for one that is marked.
    """
    with store.writing(told_as.of_person(f"{told_as.quoted(name.strip())} marked")):
        return kept_people.add(store, Person("", _free(store, name)))


def rename(store: Store, person_id: str, name: str) -> None:
    """Write a name anew. Raises UnknownThing; else as ``add``."""
    with store.writing(told_as.of_person(f"The name {told_as.quoted(name.strip())}", person_id)):
        kept_people.rename(store, known(store, person_id).id, _free(store, name, person_id))


def take_out(store: Store, person_id: str) -> None:
    """Mark someone no more, and let them rest no more; no line is changed."""
    with store.writing(told_as.of_person(f"{called(store, person_id)} no longer marked")):
        kept_people.take_out(store, person_id)


def rest(store: Store, person_id: str) -> None:
    """Never bring up unasked what speaks of someone. Raises UnknownThing."""
    with store.writing(told_as.of_person(f"Rest for {called(store, person_id)}", person_id)):
        resting.rest(store, "person", known(store, person_id).id)


def wake(store: Store, person_id: str) -> None:
    """Let what speaks of someone be brought up again."""
    with store.writing(told_as.of_person(f"No rest for {called(store, person_id)}", person_id)):
        resting.wake(store, "person", person_id)


def rest_by_name(store: Store, name: str) -> Person:
    """Let someone rest, marked first if need be.

    Raises UnknownThing for a name that is neither marked nor in any line, and as ``add``.
    """
    with store.writing(told_as.of_person(f"Rest for {told_as.quoted(name.strip())}")):
        person = named(store, name)
        if person is None and not lines_naming(store, Person("", name)):
            raise UnknownThing(f"No line names \u201c{name}\u201d, and the name is not marked.")
        person = person or add(store, name)
        rest(store, person.id)
    return person


def wake_by_name(store: Store, name: str) -> Person:
    """Let someone be brought up again. Raises UnknownThing for who does not rest."""
    person = named(store, name)
    if person is None or not person.resting:
        raise UnknownThing(f"No one called \u201c{name}\u201d rests.")
    wake(store, person.id)
    return person


def named(store: Store, name: str) -> Person | None:
    """The person marked by this name in any spelling, capitals and accents aside."""
    return next((one for one in kept_people.every(store) if bare(name) in map(bare, (*one.names, one.name))), None)


def suggestions(store: Store, most: int = 8) -> tuple[Suggestion, ...]:
    """Names that recur in the latest lines and are neither marked nor places, those of most lines first."""
    texts = [text for _, text, _ in themes.plain_lines(store, of_all_kinds=True)[-RECENT:]]
    known = {*kept_people.names(store), *(place.name for place in places.every(store))}
    found = suggested(texts, known, spoken(texts), most)
    told = (replace(one, lines=lines_naming(store, Person("", one.name))) for one in found)
    return tuple(sorted(told, key=lambda one: (-one.lines, one.name)))


def _free(store: Store, name: str, but: str = "") -> str:
    """The name as it is kept, if nobody else has it."""
    check_text(name)
    plain = ", ".join(Person("", name).names)
    if not any(letter.isalnum() for letter in plain):
        raise UnreadableText("A name needs a letter or two.")
    if len(plain) > LONGEST:
        raise UnreadableText(f"This name is {len(plain)} characters long; it can have {LONGEST}.")
    for spelling in Person("", plain).names:
        has = named(store, spelling)
        if has and has.id != but:
            raise AlreadyKept(f"\u201c{spelling}\u201d is marked already.")
    return plain


def called(store: Store, person_id: str) -> str:
    """Somebody's first spelling, quoted; "someone" for who is no longer marked."""
    person = kept_people.by_id(store, person_id)
    return told_as.quoted(person.names[0]) if person and person.names else "someone"


def known(store: Store, person_id: str) -> Person:
    """The person with this id. Raises UnknownThing."""
    person = kept_people.by_id(store, person_id)
    if person is None:
        raise UnknownThing("That name is no longer marked.")
    return person
