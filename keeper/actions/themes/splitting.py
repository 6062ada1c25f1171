"""Splitting a theme: both halves are worked out and shown before the person says so."""

from collections.abc import Sequence
from dataclasses import dataclass

from keeper.actions.awake import awake
from keeper.actions.themes.deciding import decide_split, known_theme
from keeper.actions.themes.placing import fitted_of
from keeper.clock import Clock
from keeper.errors import UnknownThing
from keeper.store import Store
from keeper.store.themes import found as themes
from keeper.store.themes import lines as theme_lines
from keeper.study.themes.fitted import Speech
from keeper.study.themes.naming import theme_names, theme_terms
from keeper.study.themes.nouns import Split, ThemeLine
from keeper.study.themes.rebuilding import propose_split


@dataclass(frozen=True, slots=True)
class Half:
    """One half of a theme: what it will be called, or nearly so, and its lines, most central of the whole first."""

    name: str
    lines: tuple[ThemeLine, ...]


@dataclass(frozen=True, slots=True)
class Halves:
    """A theme parted where its lines lie furthest apart; ``stays`` keeps the theme's number, and its name if the person gave it."""

    number: int
    stays: Half
    goes: Half


def halves(store: Store, number: int) -> Halves:
    """How a theme would be split; nothing is changed. Takes longer than other questions about themes.

    Raises UnknownThing where nothing can be parted.
    """
    theme, fitted = known_theme(store, number), fitted_of(store, themes.build(store))
    if fitted is None:
        raise UnknownThing("The themes have to be looked for again before one can be split.")
    of_id = {row[0]: ThemeLine(*row) for row in themes.plain_lines(store)}
    members = [line for line in theme_lines.member_ids(store, number) if line in of_id]
    stay, go = propose_split(fitted, [of_id[line] for line in members], members)
    if not go:
        raise UnknownThing(f"The lines of \u201c{theme.name}\u201d are too much alike to be split.")
    parts = [[of_id[line] for line in members if line in half] for half in (set(stay), set(go))]
    called = _names(store, fitted.speech, parts, theme.name if theme.named else "")
    stays, goes = (Half(name, tuple(part)) for name, part in zip(called, parts, strict=True))
    return Halves(number, stays, goes)


def _names(store: Store, speech: Speech, parts: Sequence[Sequence[ThemeLine]], given: str) -> list[str]:
    """What sets each half apart from the other, as themes are named."""
    docs = speech.heard_lines([line for part in parts for line in part])
    first = len(parts[0])
    terms = theme_terms(docs, {0: range(first), 1: range(first, len(docs))})
    found = theme_names(terms, {0: given} if given else {})
    rule = awake(store)
    return [rule.theme_name(found[half]) or "No name yet" for half in (0, 1)]


def split_so(store: Store, found: Halves, clock: Clock) -> int:
    """Part a theme as it was shown; the number of the new one. Raises UnknownThing."""
    stay, go = (tuple(line.id for line in half.lines) for half in (found.stays, found.goes))
    return decide_split(store, found.number, lambda new: Split(found.number, new, stay, go), clock)


def split(store: Store, number: int, clock: Clock) -> int:
    """Part a theme in two without showing the halves first. Raises UnknownThing."""
    return split_so(store, halves(store, number), clock)
