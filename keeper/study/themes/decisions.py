"""The person's word counts: decisions laid over what the engine found."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import singledispatch
from typing import TYPE_CHECKING

from keeper.study.themes.further.taught import taught
from keeper.study.themes.nouns import Begin, Decision, Merge, Move, Pin, Rename, Split, Start, TakeOut

if TYPE_CHECKING:
    import numpy as np

    from keeper.study.themes.further.begun import Heard

LEFTOVER = 0.25  # of its lines; what a theme begun leaves of another is no subject any more when it is less


@dataclass
class Overlay:
    """Where each line is while decisions are applied in order; only alive within `decided`.

    `points`: (n, d) unit rows of the lines `ids`. `home`: line -> theme, absent = loose. `held`: lines whose theme the
    person has said. `barred`: line -> themes it may not be in. `taken_over`: merged theme -> the one it went into.
    `some`: only some of the lines are here, so that a theme without one is not therefore empty. `near`: (n, d) rows as
    they were before smoothing. `heard`: theme begun -> what its words say. `drawn`: lines that a theme begun has taken,
    with how surely, and `taken_from`: themes from which; `unsure`: theme begun -> the lines to ask about.
    """

    ids: Sequence[str]
    points: np.ndarray
    home: dict[str, int]
    names: dict[int, str] = field(default_factory=dict)
    pinned: set[int] = field(default_factory=set)
    made: set[int] = field(default_factory=set)
    held: set[str] = field(default_factory=set)
    barred: dict[str, set[int]] = field(default_factory=dict)
    taken_over: dict[int, int] = field(default_factory=dict)
    some: bool = False
    near: np.ndarray | None = None
    heard: Mapping[int, Heard] = field(default_factory=dict)
    drawn: dict[str, float] = field(default_factory=dict)
    unsure: dict[int, tuple[str, ...]] = field(default_factory=dict)
    taken_from: set[int] = field(default_factory=set)

    def __post_init__(self) -> None:
        self.row = {line: i for i, line in enumerate(self.ids)}

    def now(self, theme: int) -> int:
        """The theme that stands for this one after merges."""
        while theme in self.taken_over:
            theme = self.taken_over[theme]
        return theme

    def there(self, theme: int) -> bool:
        """Whether the theme can take a line: it has lines, or the person made or pinned it."""
        return theme in self.pinned or theme in self.made or not self.empty(theme)

    def empty(self, theme: int) -> bool:
        """Whether no line is in the theme."""
        return not self.some and theme not in self.home.values()

    def put(self, lines: Iterable[str], theme: int, *, hold: bool) -> None:
        """Lines that are here go to the theme; the person's earlier word gives way to the later."""
        for line in lines:
            if line in self.row:
                self.home[line] = theme
                if hold:
                    self.held.add(line)
                    self.let(line)

    def let(self, line: str) -> None:
        """The line may be where it is, also where that theme has taken one over that it was let out of."""
        if line in self.barred:
            self.barred[line] = {theme for theme in self.barred[line] if self.now(theme) != self.home[line]}

    def closed(self) -> dict[str, set[int]]:
        """Line -> the themes, as they stand now, that the person let it out of."""
        return {line: {self.now(theme) for theme in themes} for line, themes in self.barred.items()}

    def middle(self, lines: Iterable[str]) -> np.ndarray | None:
        """(d,) mean direction of those of the lines that are here; None when none is."""
        import numpy as np

        rows = [self.row[line] for line in lines if line in self.row]
        if not rows:
            return None
        mean = self.points[rows].mean(axis=0)
        return mean / max(float(np.linalg.norm(mean)), 1e-9)

    def members(self, theme: int) -> list[str]:
        """Lines of a theme, in the order of `ids`."""
        return [line for line in self.ids if self.home.get(line) == theme]


def decided(
    ids: Sequence[str], points: np.ndarray, home: Mapping[str, int], decisions: Sequence[Decision],
    near: np.ndarray | None = None, heard: Mapping[int, Heard] | None = None,
) -> Overlay:  # fmt: skip
    """Apply decisions in order; the given `home` is not changed. A decision about things no longer there does nothing.

    Nothing but its arguments counts, so a decision is undone by leaving it out.
    """
    return _carried_out(decisions, Overlay(ids, points, dict(home), near=near, heard=heard or {}))


def decided_alone(line: str, found: int | None, decisions: Sequence[Decision]) -> tuple[bool, int | None]:
    """Whether the person said where this line belongs, and its theme by that, else the one that was `found` for it.

    As `decided`, for a line whose neighbours are not at hand: what makes a line follow others does nothing to it.
    """
    import numpy as np

    home = {} if found is None else {line: found}
    overlay = _carried_out(decisions, Overlay([line], np.ones((1, 1)), home, some=True))
    theme = overlay.home.get(line)
    moved = theme != (None if found is None else overlay.now(found))
    return moved or line in overlay.held, theme


def _carried_out(decisions: Sequence[Decision], overlay: Overlay) -> Overlay:
    found = Counter(overlay.home.values())
    for decision in taught(decisions):
        apply(decision, overlay)
    for theme in overlay.taken_from:
        _dissolve_leftover(overlay, theme, found[theme])
    for line, themes in overlay.barred.items():
        if overlay.home.get(line) in map(overlay.now, themes):
            del overlay.home[line]
    return overlay


def _dissolve_leftover(overlay: Overlay, theme: int, found: int) -> None:
    """What a theme begun leaves of another that was found is no theme, unless the person has said anything of it."""
    left = overlay.members(theme)
    said = theme in overlay.names or theme in overlay.pinned | overlay.made or not overlay.held.isdisjoint(left)
    if not said and len(left) < LEFTOVER * found:
        for line in left:
            del overlay.home[line]


@singledispatch
def apply(decision: Decision, overlay: Overlay) -> None:
    """Carry one decision out on the overlay."""
    raise TypeError(f"not a decision: {decision!r}")


@apply.register
def _merge(decision: Merge, overlay: Overlay) -> None:
    keep, gone = overlay.now(decision.keep), overlay.now(decision.gone)
    if keep == gone:
        return
    overlay.put(overlay.members(gone), keep, hold=False)
    overlay.taken_over[gone] = keep
    for line in overlay.held & overlay.barred.keys() & overlay.home.keys():
        overlay.let(line)
    for kind in (overlay.pinned, overlay.made):
        if gone in kind:
            kind.add(keep)
    if keep not in overlay.names and gone in overlay.names:
        overlay.names[keep] = overlay.names[gone]


@apply.register
def _split(decision: Split, overlay: Overlay) -> None:
    theme = overlay.now(decision.theme)
    going, staying = overlay.middle(decision.go), overlay.middle(decision.stay)
    if going is None:
        return
    settled = set(decision.stay) | set(decision.go) | overlay.held
    if staying is not None:
        later = [line for line in overlay.members(theme) if line not in settled]
        nearer = [line for line in later if overlay.points[overlay.row[line]] @ (going - staying) > 0]
        overlay.put(nearer, decision.new, hold=False)
    overlay.put(decision.go, decision.new, hold=True)
    overlay.made.add(decision.new)


@apply.register
def _move(decision: Move, overlay: Overlay) -> None:
    theme = overlay.now(decision.theme)
    if overlay.there(theme):
        overlay.put([decision.line], theme, hold=True)


@apply.register
def _take_out(decision: TakeOut, overlay: Overlay) -> None:
    theme = overlay.now(decision.theme)
    overlay.barred.setdefault(decision.line, set()).add(theme)
    if overlay.home.get(decision.line) == theme:
        del overlay.home[decision.line]


@apply.register
def _pin(decision: Pin, overlay: Overlay) -> None:
    theme = overlay.now(decision.theme)
    if overlay.empty(theme):
        overlay.put([line for line in decision.lines if line not in overlay.held], theme, hold=False)
    overlay.pinned.add(theme)


@apply.register
def _start(decision: Start, overlay: Overlay) -> None:
    middle = overlay.middle(decision.lines)
    if middle is None:
        return
    joining = _nearer_than_own(overlay, middle)
    overlay.put(joining, decision.theme, hold=False)
    overlay.put(decision.lines, decision.theme, hold=True)
    overlay.made.add(decision.theme)


def _nearer_than_own(overlay: Overlay, middle: np.ndarray) -> list[str]:
    centres = {theme: overlay.middle(overlay.members(theme)) for theme in set(overlay.home.values())}
    joining = []
    for line, theme in overlay.home.items():
        point, own = overlay.points[overlay.row[line]], centres[theme]
        if line not in overlay.held and own is not None and point @ middle > point @ own:
            joining.append(line)
    return joining


@apply.register
def _begin(decision: Begin, overlay: Overlay) -> None:
    said = [line for line in (*decision.lines, *decision.yes) if line not in decision.no]
    if overlay.some:
        for line in decision.no:
            overlay.barred.setdefault(line, set()).add(decision.theme)
    else:
        from keeper.study.themes.further.begun import gathered

        joining, overlay.unsure[decision.theme] = gathered(decision, said, overlay)
        overlay.taken_from.update(overlay.home[line] for line in (*joining, *said) if line in overlay.home)
        overlay.put(joining, decision.theme, hold=False)
        overlay.drawn.update(joining)
    overlay.put(said, decision.theme, hold=True)
    overlay.made.add(decision.theme)
    overlay.names[decision.theme] = decision.name


@apply.register
def _rename(decision: Rename, overlay: Overlay) -> None:
    overlay.names[overlay.now(decision.theme)] = decision.name
