"""What was done, on the command line: told, taken back, done again; a line moved."""

from collections.abc import Callable, Iterable

from keeper.actions.history import lately, undoing
from keeper.cli import shown
from keeper.cli.named_keeper import NamedKeeper
from keeper.dates import written
from keeper.errors import KeeperError, UnknownThing
from keeper.model import ActDone


def undo(named: NamedKeeper, number: int | None) -> str:
    """Take back what was done last, or what has this number; the sentence that says what. Raises CannotTurn, UnknownThing."""
    return _turned(named, number, False, undoing.undo, "There is nothing to take back.")


def redo(named: NamedKeeper, number: int | None) -> str:
    """Do again what was taken back last, or what has this number; the sentence that says what. Raises CannotTurn, UnknownThing."""
    return _turned(named, number, True, undoing.redo, "There is nothing to do again.")


def _turned(named: NamedKeeper, number: int | None, undone: bool, last: Callable, nothing: str) -> str:
    if number is None:
        turned = last(named.store)
    else:
        done = undoing.one(named.store, number)
        if done is None:
            raise UnknownThing(f"Nothing that was done has the number {number}; \u201ckeeper lately\u201d lists it.")
        if done.undone != undone:
            raise UnknownThing("That stands already." if undone else "That is undone already.")
        turned = undoing.turn(named.store, number)
    if turned is None:
        raise KeeperError(nothing)
    return turned.sentence


def listed(named: NamedKeeper, words: str, taken_out: bool, limit: int) -> tuple[ActDone, ...]:
    """What was done last."""
    return lately.latest(named.store, words, taken_out=taken_out, limit=limit)


def rows(named: NamedKeeper, done: Iterable[ActDone], laid_out: bool) -> str:
    """What was done, a row each; in a pipe with tabs between."""
    zone = named.clock.now().tzinfo
    told = []
    for one in done:
        at = one.at.astimezone(zone)
        when = f"{written.shorter_date(at.date())}, {at:%H:%M}"
        beside = ["by the command line"] if one.done_from != "window" else []
        beside += ["undone"] if one.undone else []
        if laid_out:
            told.append(shown.wrapped(" \u00b7 ".join([one.act.told, *beside]), f"{one.number:>6}  {when:<20}  ", " " * 30))
        else:
            told.append("\t".join((str(one.number), at.isoformat(timespec="seconds"), one.act.told, ", ".join(beside))))
    return "\n".join(told)


def let_go(named: NamedKeeper) -> str:
    """A sentence on what can no longer be taken back; "" when there is none."""
    until = lately.let_go_until(named.store)
    if until is None:
        return ""
    day = written.full_date(until.astimezone(named.clock.now().tzinfo).date())
    return f"What was done before {day} can no longer be undone: the keeper was brought up to date then."
