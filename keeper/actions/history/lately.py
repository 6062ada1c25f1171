"""Lately: what was done, what was taken out, and what was worded otherwise, the latest first."""

from datetime import date, datetime

from keeper.actions.writing import write_line
from keeper.clock import Clock
from keeper.model import ActDone, Wording
from keeper.store import Store, lines
from keeper.store.history import acts

__all__ = ["bring_back", "earlier_or_gone", "earlier_wordings", "latest", "let_go_until"]

AT_ONCE = 50


def latest(
    store: Store, sought: str = "", before: int | None = None, taken_out: bool = False, limit: int = AT_ONCE
) -> tuple[ActDone, ...]:
    """What was done last, of all or of what was done before the act ``before``.

    ``sought`` are words that are told, or stood in what was changed or taken
    out; with ``taken_out`` only acts by which something is gone.
    """
    return acts.latest(store, limit, before, sought, taken_out)


def earlier_wordings(store: Store, sought: str = "", skip: int = 0, limit: int = AT_ONCE) -> tuple[Wording, ...]:
    """The earlier wordings of all lines, the latest replaced first; those with all words sought."""
    return lines.all_wordings(store, limit, skip, sought)


def earlier_or_gone(store: Store, sought: str = "", limit: int = AT_ONCE) -> tuple[tuple[Wording, ...], tuple[ActDone, ...]]:
    """Earlier wordings, and acts that stand by which something is gone, that have all words sought; the latest of each first."""
    gone = acts.latest(store, limit, None, sought, taken_out=True)
    return earlier_wordings(store, sought, limit=limit), tuple(one for one in gone if not one.undone)


def bring_back(store: Store, wording: Wording, clock: Clock) -> date:
    """Let a line be worded as it was before; what it says now becomes an earlier wording. Returns its night."""
    write_line(store, wording.night, wording.kind, wording.text, clock)
    return wording.night


def let_go_until(store: Store) -> datetime | None:
    """Until when nothing can be taken back because the keeper was given another shape; None when all can."""
    return acts.let_go_until(store)
