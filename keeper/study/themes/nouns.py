"""The nouns of themes, as plain frozen dataclasses: what goes into the engine and what comes out."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


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


@dataclass(frozen=True)
class FoundTheme:
    """A theme as it is shown, decisions applied.

    `terms`: up to twelve words in the person's spelling, weight 0..1, heaviest first. `members`: (line id, closeness
    0..1), central first. `central`: up to three line ids. `sure`: 0..1, how far the theme stands above what shuffled
    lines would give; 1 for a theme that the person pinned or started.
    """

    id: int
    name: str
    named: bool
    pinned: bool
    terms: tuple[tuple[str, float], ...]
    members: tuple[tuple[str, float], ...]
    central: tuple[str, ...]
    sure: float


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


Decision = Merge | Split | Move | TakeOut | Pin | Start | Rename
