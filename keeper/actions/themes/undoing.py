"""Taking back what the person decided about themes: the last decision, or any."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from keeper.actions import told_as
from keeper.actions.themes.decided import ANSWER, LEAVE_OUT, LET_IN, UNNAME, UNPIN, decided_so_far
from keeper.clock import Clock
from keeper.store import Store
from keeper.store.history import acts, turning
from keeper.store.themes import decisions as theme_decisions
from keeper.store.themes import found as themes
from keeper.store.themes.decisions import KeptDecision
from keeper.study.themes.nouns import Pin, Rename


@dataclass(frozen=True, slots=True)
class DecisionTold:
    """A decision in a few words, such as "lines moved to Bread", and the day on which it was made."""

    id: str
    told: str
    day: date


def decisions(store: Store, clock: Clock) -> tuple[DecisionTold, ...]:
    """All decisions that stand, latest first; what was decided in one go is one."""
    offset = timedelta(minutes=clock.moment().offset_minutes)
    found: dict[str, DecisionTold] = {}
    for kept in theme_decisions.standing(store):
        found.setdefault(kept.detail.get("_group", kept.id), DecisionTold(kept.id, _told(kept), (kept.at + offset).date()))
    return tuple(reversed(found.values()))


def last_decision(store: Store) -> str:
    """The last decision in a few words; "" when there is none."""
    last = theme_decisions.last(store)
    return _told(last) if last else ""


def undo_last(store: Store, clock: Clock) -> str:
    """Take the last decision back; a sentence that says which. "" when there is none."""
    last = theme_decisions.last(store)
    return undo(store, last.id, clock) if last else ""


def undo(store: Store, decision_id: str, clock: Clock) -> str:
    """Take a decision back, whatever was decided after it; a sentence that says which. "" when it stands no more.

    A later decision that speaks of a theme that is then not there does nothing.
    """
    with store.unnoted():
        standing = theme_decisions.standing(store)
        wanted = next((one for one in standing if one.id == decision_id), None)
        act = acts.of_row(store, "theme_decision", decision_id) if wanted else None
        if act is not None:
            turning.turn(store, act)
            show_decided(store)
    if wanted is not None and act is None:
        _undo_older(store, wanted, clock)
    return f"Took back: {_told(wanted)}." if wanted else ""


def _undo_older(store: Store, wanted: KeptDecision, clock: Clock) -> None:
    """Take back what was decided before acts were noted, or is let go since: that is an act of its own."""
    with store.writing(told_as.of_theme(f"{_told(wanted)}, undone")):
        for one in _together(theme_decisions.standing(store), wanted):
            theme_decisions.undo(store, one.id, clock.moment().utc)
        show_decided(store)


def show_decided(store: Store) -> None:
    """Let the names and pins that stand be seen at once; all else is seen when the decisions are laid over the themes."""
    standing = decided_so_far(theme_decisions.standing(store))
    pinned = {one.theme for one in standing if isinstance(one, Pin)}
    names = {one.theme: one.name for one in standing if isinstance(one, Rename)}
    for theme in themes.every(store):
        if theme.pinned != (theme.number in pinned):
            themes.pin(store, theme.number, theme.number in pinned)
        if names.get(theme.number, theme.name) != theme.name:
            themes.call(store, theme.number, names[theme.number])


def _together(standing: Sequence[KeptDecision], wanted: KeptDecision) -> tuple[KeptDecision, ...]:
    """The decisions that were made in one go with this one."""
    group = wanted.detail.get("_group")
    return tuple(one for one in standing if one.id == wanted.id or (group and one.detail.get("_group") == group))


_TOLD = {
    "merge": "{1} merged into {0}", "split": "{0} split in two", "move": "lines moved to {0}",
    "take out": "lines removed from {0}", "pin": "{0} pinned", UNPIN: "{0} unpinned",
    "start": "a theme started", "rename": "a theme called \u201c{name}\u201d", UNNAME: "a theme\u2019s name removed",
    "begin": "a theme begun as \u201c{name}\u201d", ANSWER: "an answer about {0}", LEAVE_OUT: "\u201c{word}\u201d left out", LET_IN: "\u201c{word}\u201d let back in",
}  # fmt: skip


def _told(kept: KeptDecision) -> str:
    if kept.detail.get("_told"):
        return kept.detail["_told"]
    names = kept.detail.get("_names", ())
    quoted = [f"\u201c{name}\u201d" for name in names] + ["a theme", "a theme"]
    return _TOLD[kept.what].format(*quoted, **{k: v for k, v in kept.detail.items() if k in ("name", "word")})
