"""Taking back what the person decided about themes: the last decision, or any."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from keeper.actions.themes.decided import LEAVE_OUT, LET_IN, UNNAME, UNPIN, decided_so_far
from keeper.clock import Clock
from keeper.store import Store
from keeper.store.themes import decisions as theme_decisions
from keeper.store.themes import found as themes
from keeper.store.themes.decisions import KeptDecision
from keeper.study.themes.nouns import Pin


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
    with store.writing():
        last = theme_decisions.last(store)
        return undo(store, last.id, clock) if last else ""


def undo(store: Store, decision_id: str, clock: Clock) -> str:
    """Take a decision back, whatever was decided after it; a sentence that says which. "" when it stands no more.

    A later decision that speaks of a theme that is then not there does nothing.
    """
    with store.writing():
        standing = theme_decisions.standing(store)
        wanted = next((one for one in standing if one.id == decision_id), None)
        if wanted is None:
            return ""
        for one in _together(standing, wanted):
            theme_decisions.undo(store, one.id, clock.moment().utc)
        if wanted.what in (UNPIN, "pin"):
            _pin_as_decided(store, wanted.detail["theme"])
    return f"Undone: {_told(wanted)}."


def _pin_as_decided(store: Store, number: int) -> None:
    left = decided_so_far(theme_decisions.standing(store))
    themes.pin(store, number, any(isinstance(one, Pin) and one.theme == number for one in left))


def _together(standing: Sequence[KeptDecision], wanted: KeptDecision) -> tuple[KeptDecision, ...]:
    """The decisions that were made in one go with this one."""
    group = wanted.detail.get("_group")
    return tuple(one for one in standing if one.id == wanted.id or (group and one.detail.get("_group") == group))


_TOLD = {
    "merge": "{1} merged into {0}", "split": "{0} split in two", "move": "lines moved to {0}",
    "take out": "lines removed from {0}", "pin": "{0} pinned", UNPIN: "{0} unpinned",
    "start": "a theme started", "rename": "a theme called \u201c{name}\u201d", UNNAME: "a theme\u2019s name removed",
    LEAVE_OUT: "\u201c{word}\u201d left out", LET_IN: "\u201c{word}\u201d let back in",
}  # fmt: skip


def _told(kept: KeptDecision) -> str:
    names = kept.detail.get("_names", ())
    quoted = [f"\u201c{name}\u201d" for name in names] + ["a theme", "a theme"]
    return _TOLD[kept.what].format(*quoted, **{k: v for k, v in kept.detail.items() if k in ("name", "word")})
