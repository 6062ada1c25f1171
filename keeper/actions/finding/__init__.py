"""Finding lines by their words."""

from collections.abc import Callable, Collection
from dataclasses import dataclass
from datetime import date

from keeper.actions.awake import awake
from keeper.dates.spelling import ENGLISH, Spelling
from keeper.model import Found, Line
from keeper.store import Store, search
from keeper.store.finding import counted
from keeper.store.folding import bare
from keeper.store.search import Sought
from keeper.store.themes import found as themes
from keeper.store.themes import parts

__all__ = [
    "FEW", "AsRead", "Like", "Sought", "count_found", "find", "marked", "marked_words", "months_found", "more_like",
    "nearest_beneath", "nights_found", "otherwise_read", "theme_names", "themes_and_parts", "with_every_word",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Like:
    """A line of which the nearest are looked for."""

    line: Line


@dataclass(frozen=True, slots=True)
class AsRead:
    """What was typed, read otherwise than as words: how that is told, what is sought then, the first lines and how many."""

    told: str
    sought: Sought
    found: tuple[Found, ...]
    lines: int


FEW = 10
"""With fewer lines than this that have every word, nearest lines are told beneath."""


def find(store: Store, sought: Sought, limit: int = 50, skip: int = 0) -> tuple[Found, ...]:
    """Lines that answer: those with every word, newest or best first; where these are few, the nearest beneath."""
    found = with_every_word(store, sought, limit, skip)
    return found if skip else (*found, *nearest_beneath(store, sought, found, limit))


def with_every_word(store: Store, sought: Sought, limit: int = 50, skip: int = 0) -> tuple[Found, ...]:
    """Lines that have every word, newest or best first."""
    return search.find(store, sought, limit, skip)


def nearest_beneath(
    store: Store, sought: Sought, found: Collection[Found], limit: int = 50, stopped: Callable[[], bool] = lambda: False
) -> tuple[Found, ...]:
    """The lines nearest to the words sought besides those ``found``, where these are few; each with the words ``met``.

    Raises Stopped.
    """
    if len(found) >= min(FEW, limit) or not sought.typed.strip():
        return ()
    # While every word is found nothing of this is needed, and it takes a while to import.
    from keeper.actions.finding import nearest

    return nearest.nearest(store, sought, min(limit - len(found), nearest.NEAREST), found, stopped)


def otherwise_read(
    store: Store, sought: Sought, tonight: date, spelling: Spelling = ENGLISH, limit: int = 50
) -> AsRead | None:
    """The lines of what is typed, where there is a date, a place, a person, a weekday or a season in it; None where not."""
    from keeper.actions.finding.known import known
    from keeper.actions.finding.reading_words import read

    meant = read(known(store), sought.typed, tonight, spelling) if sought.typed.strip() else None
    if meant is None:
        return None
    narrowed = meant.narrowing(sought)
    found = search.find(store, narrowed, limit)
    return AsRead(meant.told, narrowed, found, search.count(store, narrowed)) if found else None


def more_like(store: Store, line_id: str, stopped: Callable[[], bool] = lambda: False) -> tuple[Found, ...]:
    """The lines of other years nearest to one, without what rests. Raises UnknownThing when it is gone, Stopped."""
    from keeper.actions.finding import nearest

    return nearest.more_like(store, line_id, stopped=stopped)


def count_found(store: Store, sought: Sought) -> int:
    """How many lines answer in all."""
    return search.count(store, sought)


def months_found(store: Store, sought: Sought) -> tuple[tuple[date, int], ...]:
    """The first day of each month with a line that answers, and how many do, the newest first."""
    return counted.months(store, sought)


def nights_found(store: Store, sought: Sought) -> frozenset[date]:
    """The nights of all lines that answer."""
    return search.nights(store, sought)


def marked(text: str, typed: str) -> tuple[tuple[int, int], ...]:
    """Where the words sought stand in a text, as (start, end)."""
    return search.marked(text, typed)


def marked_words(text: str, met: Collection[str]) -> tuple[tuple[int, int], ...]:
    """Where the words ``met`` of a nearest line stand in a text, as (start, end)."""
    return search.marked_words(text, met)


def themes_and_parts(store: Store) -> tuple[tuple[int, str], ...]:
    """The same, each theme followed by what lies within it."""
    rule, known = awake(store), dict(theme_names(store))
    within: dict[int, list[tuple[int, str]]] = {}
    for number, theme, name, _ in parts.every(store):
        if theme in known and rule.theme_name(name):
            within.setdefault(theme, []).append((number, f"{known[theme]}: {rule.theme_name(name)}"))
    return tuple(one for theme in known.items() for one in (theme, *within.get(theme[0], ())))


def theme_names(store: Store) -> tuple[tuple[int, str], ...]:
    """The number and name of every theme that is shown, by name; without what speaks of who rests."""
    found = themes.every(store)
    if not found:
        return ()
    rule = awake(store)
    told = ((theme.number, rule.theme_name(theme.name)) for theme in found)
    return tuple(sorted(((number, name) for number, name in told if name), key=lambda pair: (bare(pair[1]), pair[0])))
