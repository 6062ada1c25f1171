"""Searches kept under a name: kept, renamed, forgotten, found again."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date

from keeper.actions import told_as
from keeper.actions.finding.known import KnownNames, known
from keeper.errors import AlreadyKept, NotAKeeper, UnknownThing, UnreadableText
from keeper.model import Act
from keeper.store import Store
from keeper.store.finding import kept as searches
from keeper.store.finding.narrowing import Within
from keeper.store.folding import bare
from keeper.store.search import Sought

LONGEST = 60
"""Characters of a name."""

_PLAIN = ("typed", "best_first", "photo", "resting")
_LISTS = ("kinds", "weekdays", "months")
_NAMED = ("places", "people", "themes")


@dataclass(frozen=True, slots=True)
class KeptSearch:
    """A search and the name it is kept under."""

    id: str
    name: str
    sought: Sought


def every(store: Store) -> tuple[KeptSearch, ...]:
    """All of them, in the order in which they were kept."""
    rows = searches.every(store)
    there = known(store) if rows else None
    return store.made(lambda row: KeptSearch(row[0], row[1], _sought(row[2], there)), rows)


def named(store: Store, name: str) -> KeptSearch:
    """The one of this name, capitals and accents aside, or the only one that begins so. Raises UnknownThing."""
    wanted, there = bare(name.strip()), every(store)
    found = [one for one in there if bare(one.name) == wanted] or [one for one in there if wanted and bare(one.name).startswith(wanted)]
    if len(found) != 1:
        raise UnknownThing(f"{'No' if not found else 'More than one'} search is kept as {told_as.quoted(name.strip())}.")
    return found[0]


def keep(store: Store, name: str, sought: Sought) -> KeptSearch:
    """Keep a search; one of the same name then looks for this. Raises UnreadableText for a name that cannot be."""
    plain = _checked(name)
    if not sought.typed.strip() and not sought.narrowed:
        raise UnreadableText("There is nothing to look for in it yet.")
    there = next((one for one in every(store) if bare(one.name) == bare(plain)), None)
    spelt = _spelt(sought, known(store))
    if there:
        searches.change(store, there.id, plain, spelt, Act(f"The search {told_as.quoted(plain)}, looking for something else", "find"))
        return KeptSearch(there.id, plain, sought)
    return KeptSearch(searches.add(store, plain, spelt, Act(f"The search {told_as.quoted(plain)} kept", "find")), plain, sought)


def rename(store: Store, kept: KeptSearch, name: str) -> KeptSearch:
    """Let it have another name. Raises UnreadableText, AlreadyKept where another has it, UnknownThing when it is gone."""
    plain = _checked(name)
    if any(bare(one.name) == bare(plain) and one.id != kept.id for one in every(store)):
        raise AlreadyKept(f"A search is kept as {told_as.quoted(plain)} already.")
    act = Act(f"The search {told_as.quoted(kept.name)}, now {told_as.quoted(plain)}", "find")
    if not searches.change(store, kept.id, plain, _spelt(kept.sought, known(store)), act):
        raise UnknownThing("That search is kept no more.")
    return KeptSearch(kept.id, plain, kept.sought)


def forget(store: Store, kept: KeptSearch) -> None:
    """Keep it no more; the lines stay. Raises UnknownThing when it is gone."""
    if not searches.forget(store, kept.id, Act(f"The search {told_as.quoted(kept.name)} forgotten", "find")):
        raise UnknownThing("That search is kept no more.")


def _checked(name: str) -> str:
    plain = " ".join(name.split())
    if not any(letter.isalnum() for letter in plain):
        raise UnreadableText("A name needs a letter or two.")
    if len(plain) > LONGEST:
        raise UnreadableText(f"This name is {len(plain)} characters long; it can have {LONGEST}.")
    return plain


def _spelt(sought: Sought, there: KnownNames) -> dict:
    """What is sought, with the names of whatever has an id."""
    names = {(one.sort, one.value): one.name for one in there.all if one.sort in _NAMED}
    trackers = {one.id: one.name for one in there.trackers}
    told: dict = {name: getattr(sought, name) for name in (*_PLAIN, *_LISTS)}
    told |= {sort: [[value, names.get((sort, value), "")] for value in getattr(sought, sort)] for sort in _NAMED}
    told["readings"] = [[one.tracker_id, trackers.get(one.tracker_id, ""), one.low, one.high] for one in sought.readings]
    told |= {name: end.isoformat() for name in ("first", "last") if (end := getattr(sought, name))}
    return {name: value for name, value in told.items() if value not in (None, "", False, [], ()) or (name, value) == ("resting", False)}


def _sought(told: dict, there: KnownNames) -> Sought:
    """Raises NotAKeeper for one that is damaged."""
    try:
        found = {name: told[name] for name in _PLAIN if name in told} | {name: tuple(told[name]) for name in _LISTS if name in told}
        for sort in _NAMED:
            found[sort] = _ids(told.get(sort, ()), [(one.value, one.name) for one in there.all if one.sort == sort])
        trackers = [(one.id, one.name) for one in there.trackers]
        found["readings"] = tuple(
            Within(*_ids([one[:2]], trackers), float(one[2]), float(one[3])) for one in told.get("readings", ())
        )
        found |= {name: date.fromisoformat(told[name]) for name in ("first", "last") if name in told}
        return _sound(Sought(**found))
    except (ValueError, TypeError, LookupError) as error:
        raise NotAKeeper("The keeper is damaged: a search that is kept cannot be read.") from error


def _ids(told: Iterable, there: list[tuple]) -> tuple:
    """The ids that are here; of one that is not, that of the same name; else as it is, which finds nothing."""
    ids = {value for value, _ in there}
    by_name: Callable = {bare(name): value for value, name in there}.get
    return tuple(value if value in ids else by_name(bare(name), value) for value, name in told)


def _sound(sought: Sought) -> Sought:
    whole = all(isinstance(one, int) for one in (*sought.weekdays, *sought.months, *sought.themes))
    texts = all(isinstance(one, str) for one in (sought.typed, *sought.kinds, *sought.places, *sought.people))
    if not (whole and texts and isinstance(sought.photo, bool) and sought.resting in (None, True, False)):
        raise ValueError
    return sought
