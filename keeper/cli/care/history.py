"""What was done, on the command line: told, taken back, done again."""

import sys
from collections.abc import Callable, Iterable

import click

from keeper.actions.history import undoing
from keeper.actions.history.lately import latest, let_go_until
from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.telling import DONE, WRONG
from keeper.cli.typed import WORDS
from keeper.dates import written
from keeper.errors import KeeperError, UnknownThing
from keeper.model import ActDone


@click.command(short_help="Take back what was done last.")
@click.argument("number", required=False, type=click.IntRange(1))
@click.pass_obj
def undo(named: NamedKeeper, number: int | None) -> None:
    """Take back what was done last, in the window or here; or what has this NUMBER in "keeper lately".

    Where something done since leans on it, nothing is changed, and that is named.
    """
    telling.done(_undo(named, number))


@click.command(short_help="Do again what was undone last.")
@click.argument("number", required=False, type=click.IntRange(1))
@click.pass_obj
def redo(named: NamedKeeper, number: int | None) -> None:
    """Do again what was undone last; or what has this NUMBER in "keeper lately"."""
    telling.done(_redo(named, number))


@click.command(short_help="List what was done: when, and from where.")
@click.argument("words", nargs=-1, type=WORDS)
@click.option("--taken-out", is_flag=True, help="Only what took something out.")
@click.option("--limit", type=click.IntRange(1, 1_000_000), default=20, show_default=True, help="How many at most.")
@click.pass_obj
def lately(named: NamedKeeper, words: tuple[str, ...], taken_out: bool, limit: int) -> int:
    """List what was done last, each with its number for "keeper undo"; only what has all WORDS.

    In a pipe each is one row with tabs between. Returns 1 when there is nothing.
    """
    done = _listed(named, " ".join(words), taken_out, limit)
    if sentence := _let_go(named):
        telling.aside(sentence)
    if not done:
        telling.aside("Nothing found." if words or taken_out else "Nothing was done yet.")
        return WRONG
    click.echo(_rows(named, done, sys.stdout.isatty()))
    return DONE


def _undo(named: NamedKeeper, number: int | None) -> str:
    """Take back what was done last, or what has this number; the sentence that says what. Raises CannotTurn, UnknownThing."""
    return _turned(named, number, False, undoing.undo, "There is nothing to take back.")


def _redo(named: NamedKeeper, number: int | None) -> str:
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


def _listed(named: NamedKeeper, words: str, taken_out: bool, limit: int) -> tuple[ActDone, ...]:
    """What was done last."""
    return latest(named.store, words, taken_out=taken_out, limit=limit)


def _rows(named: NamedKeeper, done: Iterable[ActDone], laid_out: bool) -> str:
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


def _let_go(named: NamedKeeper) -> str:
    """A sentence on what can no longer be taken back; "" when there is none."""
    until = let_go_until(named.store)
    if until is None:
        return ""
    day = written.full_date(until.astimezone(named.clock.now().tzinfo).date())
    return f"What was done before {day} can no longer be undone: the keeper was brought up to date then."
