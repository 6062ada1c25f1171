"""Taking in photos from the command line: what is told of each, and stopping half-way."""

import signal
import sys
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from datetime import date
from pathlib import Path

import click

from keeper.cli import shown, telling
from keeper.cli.desk import Desk
from keeper.errors import UnreadablePhoto, shown_name


def take_in(desk: Desk, file: Path, night: date | None) -> bool:
    """Take in one photo and tell what was guessed; whether it could be.

    Raises CannotWrite: then the next ones could not be kept either.
    """
    try:
        taken = desk.take_in(file, night)
    except UnreadablePhoto as error:
        telling.aside(str(error))
        return False
    telling.done(shown.wrapped(f"{shown_name(file)}: {taken.sentence}"))
    return True


def take_in_folders(desk: Desk, folders: Sequence[Path]) -> bool:
    """Take in the photos of folders and tell what became of them; whether all were looked at."""
    with heeding_interrupts() as stopped:
        summary = desk.take_in_folders(folders, _progress if sys.stderr.isatty() else lambda *_: None, stopped)
    for left in summary.left_out:
        telling.aside(f"{shown_name(left.path)} in {shown_name(left.path.parent)} {left.why}.")
    telling.done(shown.wrapped(summary.sentence))
    return not summary.ended_early


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
