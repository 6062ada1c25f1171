"""Lines on the command line: keeping one, and moving it to where it belongs."""

from datetime import date
from pathlib import Path

import click

from keeper.actions import carrying, reading, rescue, writing
from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.typed import DATE, KIND, WORDS, came_by_pipe, from_outside
from keeper.dates.written import long_date
from keeper.errors import AlreadyKept, CannotWrite, KeeperError, UnreadableText
from keeper.model import Line, Night


@click.command(short_help="Keep a line, for tonight or another night.")
@click.argument("text", nargs=-1, type=WORDS)
@click.option("--night", metavar="DATE", type=DATE, help="The night it belongs to (default: tonight).")
@click.option("--kind", type=KIND, help="Its kind, or how that begins: gratitude, g (default: the first of the night).")
@click.option("--place", metavar="NAME", type=WORDS, help="Where you spent the night; a new name is a new place.")
@click.option("--add", "how", flag_value="add", help="Add to the line that is there.")
@click.option("--replace", "how", flag_value="replace", help="Replace the line that is there.")
@click.pass_obj
def write(named: NamedKeeper, text: tuple[str, ...], night: str | None, kind: str | None, place: str | None, how: str | None) -> None:
    """Keep a line: TEXT, or what comes in by the pipe when there is none (or "-").

    A night has one line of a kind. Where there is one, say --add or
    --replace; earlier wordings are always kept aside.
    """
    # Whatever can be found wrong before it is found before somebody types.
    named.must_be_begun()
    wanted, from_here = named.night(night, to_write=True), text not in ((), ("-",))
    asked = named.kind_to_write(kind, wanted)
    words = " ".join(text) if from_here else from_outside()
    try:
        kept = _keep(named, words, wanted, asked.key, place, how)
    except KeeperError as error:
        if isinstance(error, CannotWrite) or not (from_here or came_by_pipe()):
            raise _with_copy(error, rescue.rescue({(wanted, asked.name or asked.key): words}, named.folder, wanted)) from error
        raise
    telling.done(shown.kept_sentence(asked, kept, _where_from(named, kept), named.why_still(night)))


def _with_copy(error: KeeperError, path: Path | None) -> KeeperError:
    return type(error)(f"{error} A copy of the words is in {path}.") if path else error


@click.command(short_help="Move a line to another night, or let it be of another kind.")
@click.argument("night", metavar="DATE", type=DATE)
@click.option("--kind", type=KIND, help="The line to move, by its kind (default: the first of the night).")
@click.option("--to", "to_night", metavar="DATE", type=DATE, help="The night it belongs to.")
@click.option("--as", "to_kind", type=KIND, help="The kind it is.")
@click.pass_obj
def move(named: NamedKeeper, night: str, kind: str | None, to_night: str | None, to_kind: str | None) -> None:
    """Move the line of a night. Nothing is written over: where there is a line already, nothing is moved."""
    if to_night is None and to_kind is None:
        raise click.UsageError("Say where it belongs: --to DATE, --as KIND, or both.")
    here = named.night(night)
    line = _move(named, here, kind, named.night(to_night, to_write=True) if to_night else here, to_kind)
    telling.done(f"Moved: {line.kind_title}, {long_date(line.night)}.")


def _keep(named: NamedKeeper, text: str, night: date, kind: str, place: str | None, how: str | None) -> Night:
    """Keep a line, and where the night was spent if that is said.

    ``how`` says what becomes of a line that is there: ``add``, ``replace``
    or, with None, the writing is refused. Raises UnreadableText for words
    that cannot be kept or are none.
    """
    if not text.strip():
        raise UnreadableText("There are no words to keep.")
    writing.check_text(place or "")
    named.must_be_begun(now=True)
    with named.store.going_on(None):
        try:
            writing.write_once(named.store, night, kind, text, named.clock, how or "")
        except AlreadyKept as there:
            raise AlreadyKept(f"{there} To change it, say --add or --replace.") from there
        if place and place.strip():
            writing.set_place(named.store, night, place, named.clock)
    return reading.one_night(named.store, night)


def _where_from(named: NamedKeeper, night: Night) -> str:
    """From which night the place of a night was carried on, or that it was not; "" when it was said."""
    if night.place:
        return shown.carried_sentence(night, carrying.carried_from(named.store, night.date), named.tonight)
    return shown.left_sentence(carrying.carried(named.store, night.date, named.clock.moment())[1])


def _move(named: NamedKeeper, night: date, kind: str | None, to_night: date, to_kind: str | None) -> Line:
    """Let a line be another night's, or of another kind. Raises UnknownThing, AlreadyKept."""
    from keeper.actions.history.moving import move_line

    here = named.kind_to_write(kind, night).key
    there = named.kind_to_write(to_kind or here, to_night).key
    return move_line(named.store, night, here, to_night, there, named.clock)
