"""Words being typed that are no line: put by, kept with what they become, or forgotten."""

from collections.abc import Callable

from keeper.actions.writing import readable
from keeper.clock import Clock
from keeper.store import Store, drafts_of


def put_by(store: Store, what: str, ref: str, text: str, clock: Clock) -> None:
    """Put aside what is being typed, of whatever length. ``what`` it is for, and ``ref`` of which one."""
    drafts_of.keep(store, what, ref, readable(text), clock.moment().utc)


def waiting(store: Store, what: str, ref: str) -> str | None:
    """What was put aside and never kept, or None."""
    return drafts_of.one(store, what, ref)


def forget(store: Store, what: str, ref: str) -> None:
    """Forget what was put aside."""
    drafts_of.drop(store, what, ref)


def keeping(store: Store, what: str, ref: str, work: Callable[[], object], goes_on: int | None = None) -> int | None:
    """Do ``work``, which keeps the words, and forget their draft: both or neither. Raises what ``work`` raises.

    Words kept more than once as they are typed are one act: ``goes_on`` is its
    number, which is returned; None when nothing was changed.
    """
    with store.going_on(None, goes_on) as one:
        with store.writing():
            work()
            drafts_of.drop(store, what, ref)
        return one.number
