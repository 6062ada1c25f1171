"""What lies within themes: told with them, and made a theme of its own where the person wishes."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from keeper.actions import told_as
from keeper.actions.awake import Awake, awake
from keeper.actions.themes.decided import as_row
from keeper.clock import Clock
from keeper.errors import UnknownThing
from keeper.model import Found
from keeper.review.month import MonthTheme
from keeper.store import Store
from keeper.store.themes import decisions as theme_decisions
from keeper.store.themes import found as themes
from keeper.store.themes import lines as theme_lines
from keeper.store.themes import parts
from keeper.study.themes.nouns import Split

MOSTLY_LINES, MOSTLY_SHARE = 3, 0.6
"""From so many lines of a month, and such a share of a theme's lines there, a part says it better than the theme."""


@dataclass(frozen=True, slots=True)
class PartTold:
    """Something within a theme: its number, its name, the theme's, and how many lines it has."""

    number: int
    theme: int
    name: str
    of: str
    lines: int


def parts_told(store: Store, theme: int | None = None) -> tuple[PartTold, ...]:
    """What lies within a theme, or within all, most lines first; without what speaks of who rests."""
    rule, names = awake(store), {one.number: one.name for one in themes.every(store)}
    told = (PartTold(number, its, rule.theme_name(name), rule.theme_name(names.get(its, "")), lines)
            for number, its, name, lines in parts.every(store) if theme in (None, its))  # fmt: skip
    return tuple(one for one in told if one.name and one.of)


def lines_within(store: Store, part: int, limit: int = 50, skip: int = 0, central_first: bool = False) -> tuple[Found, ...]:
    """The lines of a part, newest or most central in its theme first."""
    return parts.lines_of(store, part, limit, skip, central_first)


def make_theme(store: Store, part: int, clock: Clock) -> int:
    """Make a part a theme of its own, under the number it has. Raises UnknownThing."""
    told = next((one for one in parts_told(store) if one.number == part), None)
    if told is None:
        raise UnknownThing("That part of a theme is no longer there.")
    going = parts.line_ids(store, part)
    every = theme_lines.member_ids(store, told.theme)
    split = Split(told.theme, part, tuple(one for one in every if one not in going), tuple(one for one in every if one in going))
    with store.writing(told_as.of_theme(f"{told_as.quoted(told.name)} made a theme of its own", told.theme)):
        what, detail = as_row(split)
        theme_decisions.add(store, what, {**detail, "_names": [told.of]}, clock.moment().utc)
    return part


def with_mostly(store: Store, found: Iterable[MonthTheme], line_ids: dict[int, Sequence[str]], rule: Awake) -> tuple[MonthTheme, ...]:
    """The themes of a month, each with the part that most of its lines there are in; ``line_ids``: those lines, by theme."""
    names = {number: rule.theme_name(name) for number, _, name, _ in parts.every(store)}
    part_of = parts.part_of(store, [one for ids in line_ids.values() for one in ids]) if names else {}
    told = []
    for theme in found:
        counted = Counter(part_of[line] for line in line_ids.get(theme.number, ()) if line in part_of)
        part, many = counted.most_common(1)[0] if counted else (0, 0)
        clear = many >= MOSTLY_LINES and many >= MOSTLY_SHARE * theme.lines
        told.append(replace(theme, mostly=names.get(part, "")) if clear else theme)
    return tuple(told)
