"""Mending a broken keeper from the command line: told first, done when it is said."""

import sys
from datetime import datetime

import click

from keeper.actions import opening
from keeper.actions.damage import checking, mending, telling
from keeper.cli import shown
from keeper.cli import telling as told
from keeper.cli.named_keeper import NamedKeeper
from keeper.errors import KeeperError, NotAKeeper


@click.command(short_help="Tell what can be saved of a broken keeper, and mend it.")
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
    _look_and_mend(named, now, doubtful, left_over, not without_backup)


def _look_and_mend(named: NamedKeeper, now: bool, doubtful: bool, left_over: bool, with_backup: bool) -> None:
    """Tell what can be saved of the keeper, and save it if that was said. Raises NotAKeeper, CannotWrite."""
    if not named.begun:
        raise NotAKeeper(opening.none_yet(named.folder))
    if _is_well(named):
        told.done(f"Nothing is wrong with the keeper in {named.folder}.")
        return
    survey = mending.look(named.folder, _progress(), with_backup)
    _tell(survey)
    if not now:
        told.done(shown.wrapped(_HOW))
        return
    taken = telling.takeable((*survey.choice.doubtful * doubtful, *survey.choice.left_over * left_over))
    mended = mending.mend(survey, taken, datetime.now(), _progress())
    kept = mending.put_into_place(named.folder) or mended.room
    told.done(shown.wrapped(f"Mended: the keeper holds {mended.lines:,} lines. The broken file is kept in {kept}."))


_HOW = (
    "Nothing was changed. To mend it, say: keeper mend --now. With --doubtful the lines that are doubtful come too, "
    "with --left-over those you may have taken out."
)


def _is_well(named: NamedKeeper) -> bool:
    try:
        with opening.open_kept(named.folder) as store:
            return not checking.look_over(store, datetime.now().date(), all_of_it=True)
    except KeeperError:
        return False


def _tell(survey: mending.Survey) -> None:
    sentences = telling.told(survey)
    for sentence in (*sentences.saved, *sentences.lacking):
        click.echo(shown.wrapped(sentence))
    _list("Doubtful, what was written may have been otherwise", survey.choice.doubtful)
    _list("Left over, you may have taken these out", survey.choice.left_over)


def _list(heading: str, lines: tuple[mending.Carved, ...]) -> None:
    if lines:
        click.echo(shown.wrapped(f"\n{heading}:"))
    for one in lines:
        click.echo(shown.wrapped(f"{telling.key_told(*one.key)}: {one.text}", "  ", "    "))


def _progress():
    if not sys.stderr.isatty():
        return lambda *_: None
    return lambda share, words: click.echo(f"\r{share:4.0%}", nl=share == 1, err=True)

