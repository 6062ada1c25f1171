"""Taking in photos from the command line: what is told of each, and stopping half-way."""

import signal
import sys
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.telling import DONE, WRONG
from keeper.cli.typed import DATE
from keeper.errors import CannotWrite, CutOffPhoto, UnreadablePhoto, shown_name

if TYPE_CHECKING:
    from keeper.actions.photos.kept import Summary, TakenIn

_ANYWAY = "Say --anyway to take what there is of it."


@click.command(short_help="Take in photos, and folders of them.")
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
    went_well = _take_in(named, [file for file in files if file not in folders], wanted, anyway)
    if folders:
        went_well = _take_in_folders(named, folders, anyway) and went_well
    return DONE if went_well else WRONG


def _take_in(named: NamedKeeper, files: Sequence[Path], night: date | None, cut_off: bool) -> bool:
    """Take in photos one by one and tell what was guessed of each; whether all could be.

    Raises CannotWrite, with how many are left: they could not be kept either.
    """
    went_well = True
    for number, file in enumerate(files):
        try:
            taken = _taken_in(named, file, night, cut_off)
        except UnreadablePhoto as error:
            went_well = False
            telling.aside(f"{error} {_ANYWAY}" if isinstance(error, CutOffPhoto) else str(error))
        except CannotWrite as error:
            raise CannotWrite(f"{error} {_left(len(files) - number, len(files))}") from error
        else:
            telling.done(shown.wrapped(f"{shown_name(file)}: {taken.sentence}"))
    return went_well


def _left(rest: int, count: int) -> str:
    if count == 1:
        return "Nothing was taken in."
    return f"{rest} of {count} {'was' if rest == 1 else 'were'} not taken in."


def _take_in_folders(named: NamedKeeper, folders: Sequence[Path], cut_off: bool) -> bool:
    """Take in the photos of folders and tell what became of them; whether all were looked at."""
    with heeding_interrupts() as stopped:
        progress = _progress if sys.stderr.isatty() else lambda *_: None
        summary = taken_in_of(named, folders, progress, stopped, cut_off)
    for left in summary.left_out:
        more = f" {_ANYWAY}" if left.cut_off else ""
        telling.aside(f"{shown_name(left.path)} in {shown_name(left.path.parent)} {left.why}.{more}")
    telling.done(shown.wrapped(summary.sentence))
    return not summary.ended_early


def _taken_in(named: NamedKeeper, file: Path, night: date | None, cut_off: bool) -> "TakenIn":
    """Take in a photo, for the night given or its own. Raises UnreadablePhoto, CannotWrite."""
    from keeper.actions.photos.kept import check_kind, take_in
    from keeper.actions.photos.nearest_town import nearest

    named.must_be_begun()
    # Before a keeper is begun for what is no picture.
    check_kind(file)
    named.must_be_begun(now=True)
    return take_in(named.store, file, named.clock, night, named.rollover, nearest, cut_off)


def taken_in_of(
    named: NamedKeeper, folders: Sequence[Path], progress: Callable[[float, str], None], stopped: Callable[[], bool],
    cut_off: bool,
) -> "Summary":  # fmt: skip
    """Take in the photos of folders, each with the night of its own date."""
    from keeper.actions.photos.kept import take_in_many

    named.must_be_begun(now=True)
    return take_in_many(named.store, folders, named.clock, named.rollover, progress, stopped, cut_off=cut_off)


def _progress(share: float, words: str) -> None:
    click.echo(f"\r{words}", nl=share == 1, err=True)


@contextmanager
def heeding_interrupts() -> Iterator[Callable[[], bool]]:
    """Ctrl-C asks the work to stop where it can, and does not break it off."""
    asked = threading.Event()
    before = signal.signal(signal.SIGINT, lambda *_: asked.set())
    try:
        yield asked.is_set
    finally:
        signal.signal(signal.SIGINT, before)
