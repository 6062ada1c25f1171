"""What an asking told: the patterns, and what was asked; plain, so that it can be kept and shown without reckoning."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any

from keeper.study.patterns.pattern import Cut, Measure, Side

LINK, MOVED, WAVE = "link", "moved", "wave"
"""Two columns that go together; two that only seem to, moved by a rhythm; one that goes with a rhythm."""


@dataclass(frozen=True)
class PatternTold:
    """A pattern as it is told; ``first`` and ``second`` are keys of candidates.

    ``kind`` is LINK, MOVED or WAVE; of a WAVE ``second`` is the rhythm. ``cut`` and ``contrast``: the side of first that
    is told of, and second there against elsewhere. ``share``: what is likely to be met again of it, 0 to 1. ``hidden``:
    a season hides it over the whole. ``rhythm``: what moves them, of MOVED. ``also``: other lags at which the two stand
    out. ``peaks``: the months (1 to 12) in which first and second are highest; 0 for neither. ``groups``: of a WAVE, nights and
    mean (of a mark the share) of each day of the week from Monday, or each month.
    """

    kind: str
    first: str
    second: str
    lag: int
    nights: int
    strength: float = 0.0
    low: float = 0.0
    high: float = 0.0
    within: float = 0.0
    p: float = 1.0
    q: float = 1.0
    share: float = 1.0
    hidden: bool = False
    rhythm: str = ""
    cut: Cut | None = None
    contrast: Measure | None = None
    also: tuple[int, ...] = ()
    peaks: tuple[int, int] = (0, 0)
    groups: tuple[Side, ...] = ()

    @property
    def question(self) -> tuple[str, str, int]:
        """By what it is known."""
        return self.first, self.second, self.lag


@dataclass(frozen=True)
class AskingTold:
    """An asking: the night it was asked on, the first and the last night noted (ISO), how many questions, which columns and how many
    nights of each were noted; what stands out, strongest first, then the plainest of what is moved by a rhythm only, of
    which there are ``moved``. ``state``: of the
    keeper, by which it is known whether anything was done since.
    """

    night: str
    first: str
    last: str
    questions: int
    columns: tuple[tuple[str, int], ...]
    told: tuple[PatternTold, ...]
    moved: int
    state: str


def as_plain(asking: AskingTold) -> dict[str, Any]:
    """In lists and dicts."""
    return asdict(asking)


def from_plain(kept: Mapping[str, Any]) -> AskingTold:
    """What ``as_plain`` gave. Raises TypeError, KeyError or ValueError for what is not of this form."""
    columns = tuple((key, nights) for key, nights in kept["columns"])
    return AskingTold(**{**kept, "columns": columns, "told": tuple(_pattern(one) for one in kept["told"])})


def _pattern(kept: Mapping[str, Any]) -> PatternTold:
    made = {
        "cut": Cut(**kept["cut"]) if kept["cut"] else None, "contrast": measure(kept["contrast"]) if kept["contrast"] else None,
        "also": tuple(kept["also"]), "peaks": tuple(kept["peaks"]), "groups": tuple(Side(**one) for one in kept["groups"]),
    }  # fmt: skip
    return PatternTold(**{**kept, **made})


def measure(kept: Mapping[str, Any]) -> Measure:
    """A measure in lists and dicts, as it was."""
    sides = {name: Side(**kept[name]) if kept[name] else None for name in ("with_mark", "without")}
    return Measure(**{**kept, **sides})
