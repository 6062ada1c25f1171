"""Where what is made goes, and how far it is."""

import sys
from collections.abc import Callable
from pathlib import Path

import click

from keeper.errors import AlreadyKept


def target_for(to: Path | None, usual: str, replace: bool) -> Path:
    """The file to write. Raises AlreadyKept for one that is there and may not be replaced."""
    target = (to or Path(usual)).absolute()
    if target.exists() and not replace:
        raise AlreadyKept(f"There is a file {target.name} already. To replace it, say --replace.")
    return target


def progress() -> Callable[[float, str], None]:
    """Tells on a terminal how far something is; elsewhere nothing."""
    return _told if sys.stderr.isatty() else lambda *_: None


def _told(share: float, words: str) -> None:
    # The rest of the row is blanked: an earlier word may have been longer.
    click.echo(f"\r{'' if share == 1 else words:40}\r", nl=False, err=True)
