"""The command ``keeper``: its options, its verbs, and how mistakes are told."""

import io
import os
import sys
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path

import click

from keeper import __version__
from keeper.actions import rescue, trouble
from keeper.cautions import OF_THE_BODY
from keeper.cli import (
    habits,
    making_books,
    noting,
    resting,
    shown,
    taking,
    telling,
    telling_kinds,
    telling_themes,
    whereabouts,
)
from keeper.cli.care import backing_up, other_keepers
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.taking_in import verbs as taking_in
from keeper.cli.typed import DATE, KIND, MONTH, WORDS, came_by_pipe, from_outside
from keeper.dates import written
from keeper.errors import CannotWrite, KeeperError
from keeper.model import FORMS

DONE, WRONG, MISUSED = 0, 1, 2
"""What the command returns: done; it could not be done; it was not understood."""

_NAMES = {"help_option_names": ["-h", "--help"], "max_content_width": 100}


def main(args: Sequence[str], open_window: Callable[..., int]) -> int:
    """Do what the arguments say and return DONE, WRONG or MISUSED.

    ``open_window`` is ``keeper.start.open_window``. Every mistake becomes a
    sentence on standard error, never a traceback.
    """
    telling.forgive_terminals()
    written.follow(habits.habits)
    try:
        return _run(list(args), open_window)
    except click.ClickException as error:
        telling.aside(_usage(error))
        return error.exit_code
    except KeeperError as error:
        telling.aside(str(error))
    except (click.Abort, KeyboardInterrupt):
        telling.aside("Stopped before it was done.")
    except OSError as error:
        telling.not_told(error)
    except Exception as problem:
        telling.aside(f"Something unexpected went wrong ({type(problem).__name__}).")
    return WRONG


def _run(args: list[str], open_window: Callable[..., int]) -> int:
    result = keeper.main(args, prog_name="keeper", standalone_mode=False, obj=open_window)
    sys.stdout.flush()
    return result if isinstance(result, int) else DONE


def _usage(error: click.ClickException) -> str:
    with io.StringIO() as told:
        error.show(file=told)
        return told.getvalue().rstrip("\n")


class Verbs(click.Group):
    """Notes what nobody expected to go wrong, in the keeper it happened to."""

    def invoke(self, ctx: click.Context) -> object:
        try:
            return super().invoke(ctx)
        except (click.ClickException, click.exceptions.Exit, click.Abort, KeeperError, OSError):
            raise
        except Exception as problem:
            if not isinstance(ctx.obj, NamedKeeper):
                raise
            raise KeeperError(trouble.note(ctx.obj.folder, problem)) from problem


@click.group(cls=Verbs, context_settings=_NAMES, invoke_without_command=True)
@click.option("--in", "folder", metavar="FOLDER", type=click.Path(path_type=Path), help="Use the keeper in this folder.")
@click.option("--begin", is_flag=True, help="Begin a keeper in that folder if it has none.")
@click.option("--demo", is_flag=True, help="Use the demo keeper; your own is not touched.")
@click.version_option(__version__, message="Keeper of Days %(version)s")
@click.pass_context
def keeper(context: click.Context, folder: Path | None, begin: bool, demo: bool) -> int | None:
    """One line before bed, and all the looking back.

    Without a command the window opens. DATE is a night: 2026-11-14, 14.11.2026 in
    the order of your system, "14 Nov 2026", "yesterday", "last sunday".
    """
    if folder and demo:
        raise click.UsageError("--in and --demo each name a keeper; give one of them.")
    context.obj = context.with_resource(NamedKeeper(folder, demo, context.obj, begin))
    return _open(context.obj, None) if context.invoked_subcommand is None else None


@keeper.command(short_help="Keep a line, for tonight or another night.")
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
        kept = named.write(words, wanted, asked.key, place, how)
    except KeeperError as error:
        if isinstance(error, CannotWrite) or not (from_here or came_by_pipe()):
            raise _with_copy(error, rescue.rescue({(wanted, asked.name or asked.key): words}, named.folder, wanted)) from error
        raise
    telling.done(shown.kept_sentence(asked, kept, named.where_from(kept), named.why_still(night)))


def _with_copy(error: KeeperError, path: Path | None) -> KeeperError:
    return type(error)(f"{error} A copy of the words is in {path}.") if path else error


@keeper.command()
@click.argument("night", metavar="[DATE]", required=False, type=DATE)
@click.option("--earlier", is_flag=True, help="Show earlier wordings too.")
@click.pass_obj
def show(named: NamedKeeper, night: str | None, earlier: bool) -> None:
    """Show what is kept of a night (of tonight)."""
    wanted = named.night(night)
    readings = noting.of_night(named, wanted)
    click.echo(shown.night_text(named.page(wanted), named.wordings(wanted) if earlier else (), readings))


@keeper.command(short_help="Note readings of a night: mood, sleep, whatever is yours.", epilog=OF_THE_BODY)
@click.argument("said", metavar="[\"NAME READING\"...]", nargs=-1, type=WORDS)
@click.option("--night", metavar="DATE", type=DATE, help="The night they belong to (default: tonight).")
@click.pass_obj
def note(named: NamedKeeper, said: tuple[str, ...], night: str | None) -> None:
    """Note readings: keeper note "mood 7" "sleep 23:30-6:45" "tea yes" "coffee -".

    All of them, or none. The name of a mark alone is a yes; a hyphen takes a
    reading back to not noted. Without readings (or with "-") they come by the
    pipe, one a row. Mood, stress and sleep begin when they are first noted;
    others with "keeper readings --begin NAME".
    """
    named.must_be_begun()
    wanted = named.night(night, to_write=True)
    rows = said if said not in ((), ("-",)) else from_outside("One reading a row, such as: mood 7").split("\n")
    told = noting.note(named, rows, wanted)
    telling.done(" ".join(filter(None, (told, named.why_still(night)))))


@keeper.command(short_help="List what is noted each night; begin or end one.")
@click.option("--begin", "name", metavar="NAME", type=WORDS, help="Begin one of your own, with tonight.")
@click.option("--as", "form", type=click.Choice(FORMS), help="Its form: a scale (0 to 10), hours, a count, an amount or a mark.")
@click.option("--unit", metavar="UNIT", type=WORDS, default="", help="What it is counted or measured in.")
@click.option("--guest", is_flag=True, help="It ends by itself after a month.")
@click.option("--body", is_flag=True, help="It is of the body or the mood.")
@click.option("--end", "ending", metavar="NAME", type=WORDS, help="End one; what was noted of it is kept.")
@click.pass_obj
def readings(named: NamedKeeper, name: str | None, form: str | None, ending: str | None, **told: str | bool) -> int:
    """List what is noted each night, in its order.

    In a pipe each is one row: name, form, unit, letter, first and last night,
    with tabs between. Returns 1 when there are none.
    """
    if name is not None and ending is not None:
        raise click.UsageError("--begin and --end each name a reading; give one of them.")
    if name is not None:
        telling.done(noting.begin(named, noting.Begun(name, form or "", **told)))
    elif ending is not None:
        telling.done(noting.end(named, ending))
    else:
        return DONE if noting.listed(named) else WRONG
    return DONE


@keeper.command(short_help="Find lines by their words, kind, place and dates.")
@click.argument("words", nargs=-1, type=WORDS)
@click.option("--kind", type=KIND, help="Only lines of this kind.")
@click.option("--place", metavar="NAME", type=WORDS, help="Only nights at this place.")
@click.option("--theme", metavar="NAME", type=WORDS, help="Only lines of this theme; how its name begins will do.")
@click.option("--from", "first", metavar="DATE", type=DATE, help="Only from this night on.")
@click.option("--to", "last", metavar="DATE", type=DATE, help="Only up to this night, or this month's end.")
@click.option("--best", is_flag=True, help="Best match first, not newest first.")
@click.option("--limit", type=click.IntRange(1, 1_000_000), default=50, show_default=True, help="How many at most.")
@click.pass_obj
def find(named: NamedKeeper, words: tuple[str, ...], limit: int, **narrowed: str | bool | None) -> int:
    """Find lines that hold all of WORDS, or words that begin so.

    Where few do, the nearest are told beneath: with some of the words, others
    of their stems, or a letter or two that are other.

    Words in one pair of quotes are sought exactly as they stand together. In a
    terminal lines are laid out; in a pipe each is one row: night, kind, place
    and text, with tabs between, and "nearest" behind that where it is no more.
    Returns 1 when no line has every word.
    """
    sought = named.sought(words, **narrowed)
    for typed, night in named.read_as.items():
        click.echo(f"{typed} is read as {shown.long_date(night)}.", err=True)
    found, count = named.find(sought, limit)
    if not found:
        telling.aside("Nothing found.")
        return WRONG
    if not count:
        telling.aside("No line has every word; these are the nearest.")
    click.echo(shown.found_text(found) if sys.stdout.isatty() else shown.found_rows(found))
    # Not compared with what was found: a damaged line is left out of it.
    if count > limit:
        telling.aside(f"{written.number(len(found))} of {written.number(count)}; --limit shows more.")
    return DONE if count else WRONG


@keeper.command(short_help="Say where one night was spent, or a span of them.")
@click.argument("place", nargs=-1, required=True, type=WORDS)
@click.option("--night", metavar="DATE", type=DATE, help="One night (default: tonight).")
@click.option("--from", "first", metavar="DATE", type=DATE, help="The first night (default: tonight).")
@click.option("--to", "--until", "last", metavar="DATE", type=DATE, help="The last night, or this month's end (default: tonight).")
@click.option("--over", is_flag=True, help="Change nights that were said to be elsewhere too.")
@click.pass_obj
def at(
    named: NamedKeeper, place: tuple[str, ...], night: str | None, first: str | None, last: str | None, over: bool
) -> None:
    """Say that nights were spent at PLACE; a new name is a new place.

    Nights said to be elsewhere stay so, and are told. No lines are needed.
    """
    if night and (first or last):
        raise click.UsageError("--night is for one night; --from and --to are the ends of several.")
    telling.done(whereabouts.said(named.say_where(" ".join(place), night or first, night or last, over)))


@keeper.command(short_help="Take in photos, and folders of them.")
@click.argument("files", metavar="FILE...", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--night", metavar="DATE", type=DATE, help="The night they belong to (default: that of their own date).")
@click.option("--anyway", is_flag=True, help="Take photos too of which only a part can be seen.")
@click.pass_obj
def photo(named: NamedKeeper, files: tuple[Path, ...], night: str | None, anyway: bool) -> int:
    """Take in photos: JPEG, PNG, WebP, HEIC, AVIF, TIFF, GIF or BMP. The files stay as they are.

    FILE may be a folder; it is gone through to the bottom, and each photo goes
    to the night of its own date. Returns 1 when one that was named could not
    be taken in; the others are.
    """
    folders = [file for file in files if file.is_dir()]
    if folders and night:
        raise click.UsageError("The photos of a folder go to the nights of their own dates; --night is for files.")
    wanted = named.night(night, to_write=True) if night else None
    went_well = taking.take_in(named, [file for file in files if file not in folders], wanted, anyway)
    if folders:
        went_well = taking.take_in_folders(named, folders, anyway) and went_well
    return DONE if went_well else WRONG


@keeper.command(short_help="List the themes: what keeps coming back.")
@click.option("--again", is_flag=True, help="Look for the themes again, even if that is not due.")
@click.pass_obj
def themes(named: NamedKeeper, again: bool) -> int:
    """List the themes: how many lines, since when, when last.

    In a pipe each is one row: name, lines, nights, first and last night, and
    growing or fading, with tabs between. Returns 1 when there are none.
    """
    return DONE if telling_themes.look_and_tell(named, again) else WRONG


@keeper.command(short_help="List the kinds of line; add, rename or leave out one.")
@click.option("--add", metavar="NAME", type=WORDS, help="Add a kind of your own, asked for from tonight on.")
@click.option("--prompt", metavar="TEXT", type=WORDS, help="With --add: what its empty field asks.")
@click.option("--out-of-themes", is_flag=True, help="With --add: its lines belong to no theme.")
@click.option("--rename", nargs=2, metavar="NAME NEW", type=WORDS, help="Call a kind something else.")
@click.option("--leave-out", metavar="NAME", type=WORDS, help="Ask for a kind no more; its lines stay.")
@click.option("--take-up", metavar="NAME", type=WORDS, help="Ask again for one that was left out.")
@click.pass_obj
def kinds(named: NamedKeeper, **wanted: str | tuple[str, str] | bool | None) -> None:
    """List the kinds of line, in your order; how a NAME begins will do.

    In a pipe each is one row: name, first and last night, whether it is out of
    themes, and what it asks, with tabs between.
    """
    done = telling_kinds.change(named, wanted)
    telling.done(done) if done else click.echo(telling_kinds.told(named.kinds, named.tonight))


@keeper.command("open", short_help="Open the window on a night.")
@click.argument("night", metavar="[DATE]", required=False, type=DATE)
@click.pass_obj
def open_(named: NamedKeeper, night: str | None) -> int:
    """Open the window on a night; a window that is open already comes forward."""
    return _open(named, named.night(night) if night else None)


@keeper.command()
@click.pass_obj
def where(named: NamedKeeper) -> None:
    """Print the keeper's folder."""
    # As the system spells it, text or not: a script goes there.
    folder = os.fspath(named.folder)
    click.echo(folder if folder.isprintable() else os.fsencode(folder))
    if not named.begun:
        telling.aside("Nothing is kept there yet.")


@keeper.command()
@click.argument("question", nargs=-1, type=WORDS)
@click.option("--month", metavar="YEAR-MONTH", type=MONTH, help="Which month (default: this one).")
@click.option("--none", "unasked", is_flag=True, help="Ask nothing that month.")
@click.pass_obj
def ask(named: NamedKeeper, question: tuple[str, ...], month: str | None, unasked: bool) -> None:
    """Show the question of a month, or set it to QUESTION."""
    if question and unasked:
        raise click.UsageError("Give a question or --none, not both.")
    wanted = named.month(month)
    before = named.question(wanted)
    if not question and not unasked:
        click.echo(shown.wrapped(before or f"No question is set for {written.month_and_year(wanted)}."))
        return
    named.ask(wanted, " ".join(question))
    telling.done(shown.asked_sentence(wanted, named.question(wanted), before))


@keeper.command(short_help="Let a night's lines, a span of nights or a person rest.")
@resting.asked
@click.pass_obj
def rest(named: NamedKeeper, **wanted: str | None) -> None:
    """Let a night's lines rest: not brought up again, but still found.

    Or all nights of a span (--from, --until), or whatever speaks of a person
    (--person); a name that was not marked before is marked.
    """
    telling.done(resting.rest(named, resting.Asked(**wanted)))


@keeper.command(short_help="Let what rests be brought up again.")
@resting.asked
@click.pass_obj
def wake(named: NamedKeeper, **wanted: str | None) -> None:
    """Let a night's resting lines, a span or a person be brought up again.

    A span is woken by the same ends with which it was let rest.
    """
    telling.done(resting.wake(named, resting.Asked(**wanted)))


@keeper.command(short_help="Make a year into a book (PDF), or a month into a page.")
@click.argument("when", metavar="YEAR|YEAR-MONTH", type=WORDS)
@click.option("--to", metavar="FILE", type=click.Path(path_type=Path), help="The file to write (default: keeper-YEAR.pdf in this folder).")
@click.option("--size", type=click.Choice(making_books.SIZES), default="a5", show_default=True, help="The size of the page.")
@click.option("--lines", type=click.Choice(making_books.LINES), help="All lines, or those chosen for each month.")
@click.option("--without", multiple=True, type=click.Choice(tuple(making_books.PARTS)), help="Leave this out; may be repeated.")
@click.option("--title", type=WORDS, default="", help="The title (default: the year).")
@click.option("--name", type=WORDS, default="", help="Whose book it is.")
@click.option("--with-resting", is_flag=True, help="Include what rests.")
@click.option("--small-photo", is_flag=True, help="On a month\u2019s page, set the photo at 50 x 76 mm.")
@click.option("--replace", is_flag=True, help="Replace the file that is there.")
@click.pass_obj
def book(named: NamedKeeper, when: str, to: Path | None, replace: bool, small_photo: bool, without: tuple[str, ...],
         with_resting: bool, lines: str | None, **told: str) -> None:  # fmt: skip
    """Make a year into a typeset book, or a month into a single page to print.

    What rests stays out of it unless you include it. Themes are looked for first
    where they are not there yet.
    """
    left_out = dict.fromkeys((making_books.PARTS[part] for part in without), False)
    parts = {**told, **left_out, "resting": with_resting, "lines": lines or ("chosen" if "-" in when else "all")}
    making_books.make(named, making_books.Wanted(when, to, replace, small_photo, parts))


@keeper.command(short_help="Move a line to another night, or let it be of another kind.")
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
    line = named.move(here, kind, named.night(to_night, to_write=True) if to_night else here, to_kind)
    telling.done(f"Moved: {line.kind_title}, {written.long_date(line.night)}.")


@keeper.command(short_help="Take back what was done last.")
@click.argument("number", required=False, type=click.IntRange(1))
@click.pass_obj
def undo(named: NamedKeeper, number: int | None) -> None:
    """Take back what was done last, in the window or here; or what has this NUMBER in "keeper lately".

    Where something done since leans on it, nothing is changed, and that is named.
    """
    from keeper.cli.care import history

    telling.done(history.undo(named, number))


@keeper.command(short_help="Do again what was undone last.")
@click.argument("number", required=False, type=click.IntRange(1))
@click.pass_obj
def redo(named: NamedKeeper, number: int | None) -> None:
    """Do again what was undone last; or what has this NUMBER in "keeper lately"."""
    from keeper.cli.care import history

    telling.done(history.redo(named, number))


@keeper.command(short_help="List what was done: when, and from where.")
@click.argument("words", nargs=-1, type=WORDS)
@click.option("--taken-out", is_flag=True, help="Only what took something out.")
@click.option("--limit", type=click.IntRange(1, 1_000_000), default=20, show_default=True, help="How many at most.")
@click.pass_obj
def lately(named: NamedKeeper, words: tuple[str, ...], taken_out: bool, limit: int) -> int:
    """List what was done last, each with its number for "keeper undo"; only what has all WORDS.

    In a pipe each is one row with tabs between. Returns 1 when there is nothing.
    """
    from keeper.cli.care import history

    done = history.listed(named, " ".join(words), taken_out, limit)
    if sentence := history.let_go(named):
        telling.aside(sentence)
    if not done:
        telling.aside("Nothing found." if words or taken_out else "Nothing was done yet.")
        return WRONG
    click.echo(history.rows(named, done, sys.stdout.isatty()))
    return DONE


@keeper.command(short_help="Tell what can be saved of a broken keeper, and mend it.")
@click.option("--now", is_flag=True, help="Mend it; without this nothing is changed.")
@click.option("--doubtful", is_flag=True, help="Take lines too that may not be what was written.")
@click.option("--left-over", is_flag=True, help="Take lines too that you may have taken out.")
@click.option("--without-backup", is_flag=True, help="Do not look into the backups.")
@click.pass_obj
def mend(named: NamedKeeper, now: bool, doubtful: bool, left_over: bool, without_backup: bool) -> None:
    """Tell what can be saved of a keeper whose file is broken.

    With --now a new one is made of it, from its newest good backup and all
    that is read in the file; the broken file is kept beside it.
    """
    from keeper.cli.care import mending

    mending.look_and_mend(named, now, doubtful, left_over, not without_backup)


for verb in (backing_up.backups, backing_up.bring_back, other_keepers.keepers, other_keepers.move, taking_in.read_in, taking_in.in_tray):
    keeper.add_command(verb)


def _open(named: NamedKeeper, night: date | None) -> int:
    named.let_go()
    if named.begin:
        named.must_be_begun(now=True)
    return named.open_window(named.folder, night=night, demo=named.demo)
