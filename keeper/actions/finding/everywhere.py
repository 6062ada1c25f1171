"""What answers besides lines: a date, places, people, themes, and what is written of them, on months and under photos."""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date

from keeper.actions.finding.belonging import Belonging
from keeper.dates import written
from keeper.dates.spelling import ENGLISH, Spelling
from keeper.dates.typed import understood
from keeper.days import last_of_month
from keeper.errors import Stopped, UnreadableDate
from keeper.store import Store, nights, people
from keeper.store.finding import told_elsewhere
from keeper.store.one_person import about
from keeper.store.places import named as places
from keeper.store.places import pages
from keeper.store.search import Sought

EACH = 3
"""So many of one sort are told at first."""

_SORTS = {"words": "Words of", "question": "Question of", "goal": "Goal of", "caption": "Caption,", "later": "Later word,"}


@dataclass(frozen=True, slots=True)
class Beside:
    """Something that is no line: what it is, in words, its text, and the page that it opens, on a night or a thing."""

    what: str
    text: str
    page: str
    night: date | None = None
    thing: object = None


def everywhere(
    store: Store, typed: str, tonight: date, spelling: Spelling = ENGLISH, each: int = EACH,
    stopped: Callable[[], bool] = lambda: False, within: Sought | None = None,
) -> tuple[tuple[Beside, ...], int]:  # fmt: skip
    """What answers, at most ``each`` of a sort and twice that in all, and how many more there are.

    ``within`` narrows: what does not belong to it is left out. Raises Stopped.
    """
    within = within or Sought()
    of = Belonging(store, within)
    if not typed.strip():
        return (), 0
    found = []
    for one in (_date(of, typed, tonight, spelling), _lines(store, typed, tonight, spelling, within), *_named(of, typed), *_written(of, typed)):
        if stopped():
            raise Stopped
        if one:
            found.append(one)
    return _few(found, each)


def _named(of: Belonging, typed: str) -> Iterator[Beside | None]:
    """Places, people and themes by their names, and what is said of places and people; None where one does not belong."""
    from keeper.actions.finding import theme_names

    has = told_elsewhere.has_every
    known = tuple(one for one in people.every(of.store) if one.names)
    named = tuple((number, name) for name, number in places.names(of.store))
    for number, name in named:
        if has(name, typed):
            yield Beside("Place", name, "places", thing=number) if of.place(number) else None
    for one in known:
        if has(one.name, typed):
            yield Beside("Person", one.names[0], "people", thing=one.id) if of.person(one.id) else None
    for number, name in theme_names(of.store):
        if has(name, typed):
            yield Beside("Theme", name, "themes", thing=number) if of.theme(number) else None
    notes = {number: page.note for number, page in pages.every(of.store).items()}
    yield from _said("Note on", "places", notes, dict(named), of.place, typed)
    yield from _said("About", "people", about.every(of.store), {one.id: one.names[0] for one in known}, of.person, typed)


def _said(
    what: str, page: str, said: Mapping[str, str], named: Mapping[str, str], belongs: Callable[[str], bool], typed: str
) -> Iterator[Beside | None]:
    for thing, text in said.items():
        if thing in named and told_elsewhere.has_every(text, typed):
            yield Beside(f"{what} {named[thing]}", text, page, thing=thing) if belongs(thing) else None


def _written(of: Belonging, typed: str) -> Iterator[Beside | None]:
    """What is written on months, under photos and under lines; None where it does not belong."""
    for sort, text, night, kind in told_elsewhere.having(of.store, typed):
        if sort in ("caption", "later"):
            belongs = of.line(night, kind) if kind else of.beside_lines(night)
            yield Beside(f"{_SORTS[sort]} {written.long_date(night)}", text, "night", night) if belongs else None
        else:
            belongs = of.months(night, last_of_month(night))
            yield Beside(f"{_SORTS[sort]} {written.month_and_year(night)}", text, "month", night) if belongs else None


def _few(found: list[Beside], each: int) -> tuple[tuple[Beside, ...], int]:
    seen: Counter[str] = Counter()
    shown = []
    for one in found:
        sort = one.what.split()[0]
        seen[sort] += 1
        if seen[sort] <= each and len(shown) < 2 * each:
            shown.append(one)
    return tuple(shown), len(found) - len(shown)


def _date(of: Belonging, typed: str, tonight: date, spelling: Spelling) -> Beside | None:
    try:
        meant = understood(typed, tonight, spelling)
    except UnreadableDate:
        return None
    if meant.first == meant.last:
        where = nights.one(of.store, meant.first).place
        told = ", ".join(filter(None, (written.full_date(meant.first), where and where.name)))
        return Beside("Night", told, "night", meant.first) if of.night(meant.first) else None
    if not of.months(meant.first, meant.last):
        return None
    if meant.last == last_of_month(meant.first):
        return Beside("Month", written.month_and_year(meant.first), "month", meant.first)
    return Beside("Year", str(meant.first.year), "year", meant.first)


def _lines(store: Store, typed: str, tonight: date, spelling: Spelling, within: Sought) -> Beside | None:
    """The lines of what is typed, read otherwise than as words."""
    from keeper.actions.finding import otherwise_read

    read = otherwise_read(store, replace(within, typed=typed), tonight, spelling, limit=1)
    return Beside("Lines", f"{read.told} ({written.number(read.lines)})", "find", thing=read.sought) if read else None
