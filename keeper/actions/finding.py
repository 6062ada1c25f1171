"""Finding lines by their words."""

from keeper.actions.awake import awake
from keeper.model import Found
from keeper.store import Store, search
from keeper.store.folding import bare
from keeper.store.search import Sought
from keeper.store.themes import found as themes

__all__ = ["Sought", "count_found", "find", "marked", "theme_names"]


def find(store: Store, sought: Sought, limit: int = 50, skip: int = 0) -> tuple[Found, ...]:
    """Lines that answer, newest or best first."""
    return search.find(store, sought, limit, skip)


def count_found(store: Store, sought: Sought) -> int:
    """How many lines answer in all."""
    return search.count(store, sought)


def marked(text: str, typed: str) -> tuple[tuple[int, int], ...]:
    """Where the words sought stand in a text, as (start, end)."""
    return search.marked(text, typed)


def theme_names(store: Store) -> tuple[tuple[int, str], ...]:
    """The number and name of every theme that is shown, by name; without what speaks of who rests."""
    rule = awake(store)
    told = ((theme.number, rule.theme_name(theme.name)) for theme in themes.every(store))
    return tuple(sorted(((number, name) for number, name in told if name), key=lambda pair: (bare(pair[1]), pair[0])))
