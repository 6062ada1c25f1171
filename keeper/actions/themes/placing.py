"""Placing: a new line finds its theme at once, without a rebuild."""

from collections.abc import Sequence

from keeper.actions.themes.decided import decided_so_far
from keeper.model import Line
from keeper.store import Store
from keeper.store.themes import decisions as theme_decisions
from keeper.store.themes import found as themes
from keeper.store.themes.found import Build
from keeper.study.themes import fitted as theme_model
from keeper.study.themes.decisions import Decision, decided_alone
from keeper.study.themes.fitted import Fitted
from keeper.study.themes.nouns import TakeOut

_PLACED_AT_ONCE = 200

_placing: tuple[str, Fitted] | None = None
"""What places a line, and the build it belongs to; read once for all threads."""


def place_line(store: Store, line: Line) -> int | None:
    """Find the theme of one line, as it is written; its number, or None when it is loose.

    Some milliseconds, but for the first time. Where themes were never found
    nothing is done.
    """
    fitted = fitted_of(store, themes.build(store))
    if fitted is None:
        return None
    member, second = _placed(fitted, decided_so_far(theme_decisions.standing(store)), line.id, line.text, None)
    themes.put(store, [member], second)
    return member[1]


def place_new(store: Store) -> int:
    """Find the themes of lines that have not looked for one yet; how many there were."""
    build = themes.build(store)
    waiting = themes.unplaced(store, _PLACED_AT_ONCE) if build and build.enough else []
    fitted = fitted_of(store, build) if waiting else None
    if fitted is None:
        return 0
    decisions = decided_so_far(theme_decisions.standing(store))
    placed = [_placed(fitted, decisions, *row) for row in waiting]
    themes.put(store, [member for member, _ in placed], [one for _, second in placed for one in second])
    return len(waiting)


def _placed(
    fitted: Fitted, decisions: Sequence[Decision], line_id: str, text: str, home: int | None
) -> tuple[themes.Membership, list[themes.Second]]:
    place = fitted.place(text)
    said, theme = decided_alone(line_id, place.theme if home is None else home, decisions)
    out = {one.theme for one in decisions if isinstance(one, TakeOut) and one.line == line_id}
    beside, near = (place.second, place.second_closeness) if theme is not None else (place.offered, 0.0)
    second = [(line_id, beside, near, theme is None)] if beside not in (None, theme, *out) else []
    return (line_id, theme, 1.0 if said else place.closeness), second


def fitted_of(store: Store, build: Build | None) -> Fitted | None:
    """What places a line, as a rebuild or redraw left it; None when there is nothing that can be read."""
    global _placing
    if build is None or not build.enough or build.form != theme_model.FORM:
        return None
    known = _placing
    if known is None or known[0] != build.id:
        try:
            known = (build.id, Fitted.from_bytes(themes.arrays(store)))
        except ValueError:
            return None
        _placing = known
    return known[1]
