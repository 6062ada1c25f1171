"""What answers besides lines: a date, places, people, themes, and what is written of them, on months and under photos."""

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import date

from keeper.dates import written
from keeper.dates.spelling import ENGLISH, Spelling
from keeper.dates.typed import understood
from keeper.days import last_of_month
from keeper.errors import Stopped, UnreadableDate
from keeper.store import Store, nights, people, resting
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
    """What answers, at most ``each`` of a sort and twice that in all, and how many more there are; ``within`` narrows the lines told of. Raises Stopped."""
    from keeper.actions.finding import theme_names

    found = [_date(store, typed, tonight, spelling), _lines(store, typed, tonight, spelling, within or Sought())] if typed.strip() else []
    has = told_elsewhere.has_every
    found += [Beside("Place", name, "places", thing=number) for name, number in places.names(store) if has(name, typed)]
    found += [Beside("Person", one.names[0], "people", thing=one.id) for one in people.every(store) if one.names and has(one.name, typed)]
    if stopped():
        raise Stopped
    found += [Beside("Theme", name, "themes", thing=number) for number, name in theme_names(store) if has(name, typed)]
    found += _said(store, typed, (within or Sought()).resting)
    found += [_written(*one) for one in told_elsewhere.having(store, typed)]
    return _few([one for one in found if one], each)


def _few(found: list[Beside], each: int) -> tuple[tuple[Beside, ...], int]:
    seen: Counter[str] = Counter()
    shown = []
    for one in found:
        sort = one.what.split()[0]
        seen[sort] += 1
        if seen[sort] <= each and len(shown) < 2 * each:
            shown.append(one)
    return tuple(shown), len(found) - len(shown)


def _date(store: Store, typed: str, tonight: date, spelling: Spelling) -> Beside | None:
    try:
        meant = understood(typed, tonight, spelling)
    except UnreadableDate:
        return None
    if meant.first == meant.last:
        where = nights.one(store, meant.first).place
        return Beside("Night", ", ".join(filter(None, (written.full_date(meant.first), where and where.name))), "night", meant.first)
    if meant.last == last_of_month(meant.first):
        return Beside("Month", written.month_and_year(meant.first), "month", meant.first)
    return Beside("Year", str(meant.first.year), "year", meant.first)


def _lines(store: Store, typed: str, tonight: date, spelling: Spelling, within: Sought) -> Beside | None:
    """The lines of what is typed, read otherwise than as words."""
    from keeper.actions.finding import otherwise_read

    read = otherwise_read(store, replace(within, typed=typed), tonight, spelling, limit=1)
    return Beside("Lines", f"{read.told} ({written.number(read.lines)})", "find", thing=read.sought) if read else None


def _said(store: Store, typed: str, rests: bool | None) -> Iterator[Beside]:
    """Notes on places and lines about people. ``rests``: only of those that do, or that do not; None: of all."""
    notes = {number: page.note for number, page in pages.every(store).items()}
    for what, page, said, names in (
        ("Note on", "places", notes, lambda: {number: name for name, number in places.names(store)}),
        ("About", "people", about.every(store), lambda: {one.id: one.names[0] for one in people.every(store) if one.names}),
    ):
        having = {thing: text for thing, text in said.items() if told_elsewhere.has_every(text, typed)}
        named = names() if having else {}
        for thing, text in having.items():
            asleep = rests is not None and resting.id_of(store, {"places": "place", "people": "person"}[page], thing) is not None
            if thing in named and (rests is None or asleep == rests):
                yield Beside(f"{what} {named[thing]}", text, page, thing=thing)


def _written(sort: str, text: str, night: date) -> Beside:
    of_night = sort in ("caption", "later")
    when = written.long_date(night) if of_night else written.month_and_year(night)
    return Beside(f"{_SORTS[sort]} {when}", text, "night" if of_night else "month", night)
