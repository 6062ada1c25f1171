"""What lies within themes, by name."""

from dataclasses import dataclass

from keeper.actions.awake import awake
from keeper.store import Store
from keeper.store.themes import found as themes
from keeper.store.themes import parts


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
