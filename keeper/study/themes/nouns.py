"""The nouns of themes, as plain frozen dataclasses: what goes into the engine and what comes out."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from keeper.study.themes.fitted import Fitted
    from keeper.study.themes.further.within import Part

ENOUGH = 30
"""Lines with content words; fewer are not grouped."""

Progress = Callable[[float, str], None]
"""Told how much is done, 0..1, and what is being done."""


@dataclass(frozen=True)
class ThemeLine:
    """A line to be grouped; `id` is the id of the kept line, `night` the night it belongs to."""

    id: str
    text: str
    night: date


@dataclass(frozen=True)
class BaseTheme:
    """A theme as the engine found it, before the person's decisions; handed back to the next rebuild.

    `members` may name lines that are no longer there: if one comes back, it finds its theme again.
    """

    id: int
    members: tuple[str, ...]
    terms: tuple[str, ...]


@dataclass(frozen=True, eq=False)
class Earlier:
    """What a rebuild goes on from: the engine's own themes, the next free number, and what places a line.

    `fitted` is None where nothing was kept; there is then no number of lines to compare with.
    """

    base: tuple[BaseTheme, ...] = ()
    next_number: int = 1
    fitted: Fitted | None = None


NONE_EARLIER = Earlier()


@dataclass(frozen=True)
class FoundTheme:
    """A theme as it is shown, decisions applied.

    `terms`: up to twelve words in the person's spelling, weight 0..1, heaviest first. `members`: (line id, closeness
    0..1), central first. `central`: up to three line ids. `sure`: 0..1, how far the theme stands above what shuffled
    lines would give; 1 for a theme that the person pinned or started. `also`: (line id, closeness) of lines that stand in
    it second.
    """

    id: int
    name: str
    named: bool
    pinned: bool
    terms: tuple[tuple[str, float], ...]
    members: tuple[tuple[str, float], ...]
    central: tuple[str, ...]
    sure: float
    also: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True, eq=False, kw_only=True)
class Themes(Earlier):
    """The threads among lines, as `rebuild` or `redraw` found them; handed back to the next.

    `enough`: False under 30 lines with content words; then there are no themes and all lines are loose. `sure`: 0..1 for
    the whole. `themes`: largest first. `unsure`: theme begun by the person -> lines to ask about, least sure first.
    `offered`: loose line -> the theme that comes nearest to it. `parts`: what lies within wide themes.
    """

    enough: bool
    sure: float
    themes: tuple[FoundTheme, ...] = ()
    loose: tuple[str, ...] = ()
    unsure: Mapping[int, tuple[str, ...]] = field(default_factory=dict)
    offered: Mapping[str, int] = field(default_factory=dict)
    parts: tuple[Part, ...] = ()


@dataclass(frozen=True)
class Merge:
    """Lines of `gone` belong to `keep`, now and after every rebuild."""

    keep: int
    gone: int


@dataclass(frozen=True)
class Split:
    """Lines `go` left `theme` for the new theme `new`; `stay` are those that stayed. Later lines follow the nearer."""

    theme: int
    new: int
    stay: tuple[str, ...]
    go: tuple[str, ...]


@dataclass(frozen=True)
class Move:
    """The line belongs to that theme."""

    line: str
    theme: int


@dataclass(frozen=True)
class TakeOut:
    """The line does not belong to that theme."""

    line: str
    theme: int


@dataclass(frozen=True)
class Pin:
    """The theme is always there; `lines` are its members when it was pinned."""

    theme: int
    lines: tuple[str, ...]


@dataclass(frozen=True)
class Start:
    """A new theme from a few lines; lines that are nearer to these than to their own theme join."""

    theme: int
    lines: tuple[str, ...]


@dataclass(frozen=True)
class Rename:
    """The theme bears this name."""

    theme: int
    name: str


@dataclass(frozen=True)
class Begin:
    """A theme that the person begins and names, by `lines`, by `words`, or both; the rest is looked for.

    `yes`, `no`, `skipped`: lines that they were asked about, by what they answered.
    """

    theme: int
    name: str
    lines: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    yes: tuple[str, ...] = ()
    no: tuple[str, ...] = ()
    skipped: tuple[str, ...] = ()


Decision = Merge | Split | Move | TakeOut | Pin | Start | Rename | Begin
