"""The command ``keeper``: its options, and how mistakes are told; its verbs are listed in ``verbs``."""

import io
import os
import sys
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path

import click

from keeper import __version__
from keeper.cli import habits, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.telling import DONE, MISUSED, WRONG
from keeper.cli.typed import DATE
from keeper.cli.verbs import Verbs
from keeper.dates import written
from keeper.errors import KeeperError

__all__ = ["DONE", "MISUSED", "WRONG", "keeper", "main"]

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


def _open(named: NamedKeeper, night: date | None) -> int:
    named.let_go()
    if named.begin:
        named.must_be_begun(now=True)
    return named.open_window(named.folder, night=night, demo=named.demo)
