"""Other keepers on the command line: those known, and moving one to another folder."""

import os
import sys
from pathlib import Path

import click

from keeper.actions import opening
from keeper.cli import shown, telling
from keeper.cli.care.backing_up import progress
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.taking import heeding_interrupts
from keeper.dates import written
from keeper.errors import UnknownThing


@click.command(short_help="List the keepers known on this computer.")
@click.option("--forget", metavar="FOLDER", type=click.Path(path_type=Path), help="Take that one off the list; it is left alone itself.")
def keepers(forget: Path | None) -> int:
    """List the keepers that were opened on this computer: when last, and where they lie.

    Any of them opens by: keeper --in FOLDER. In a pipe each is one row: folder, day, and
    "gone" for one that is not there, with tabs between. Returns 1 when there are none.
    """
    from keeper.actions.keepers import known

    those = known.every()
    if forget:
        if forget.absolute() not in [one.folder for one in those]:
            raise UnknownThing(f"{forget} is not on the list.")
        known.forget(forget.absolute())
        telling.done(shown.wrapped(f"Off the list: {forget}. The keeper itself was left alone."))
        return 0
    for one in those:
        parts = (shown.readable(os.fspath(one.folder)), one.opened.isoformat(), "" if one.there else "gone")
        click.echo("\t".join(parts) if not sys.stdout.isatty() else _row(one))
    if not those:
        telling.aside("No keeper was opened in a window yet.")
    return 0 if those else 1


def _row(one) -> str:
    gone = ", gone" if not one.there else ""
    return f"{written.short_date(one.opened)}{gone}  {shown.readable(os.fspath(one.folder))}"


@click.command("move-keeper", short_help="Move the keeper to another folder.")
@click.argument("folder", metavar="FOLDER", type=click.Path(path_type=Path))
@click.pass_obj
def move(named: NamedKeeper, folder: Path) -> None:
    """Move the keeper to FOLDER, with all that belongs to it.

    FOLDER must be new or empty. All is copied and checked before the old one
    goes. No window may have the keeper open.
    """
    from keeper.actions.keepers.moving import move as move_keeper

    with heeding_interrupts() as stopped:
        target = folder.absolute()
        move_keeper(named.folder, target, named.clock_without_keeper().now().date(), progress(), stopped)
    told = f"The keeper lies in {target} now."
    if os.environ.get(opening.WHERE):
        told += f" The variable {opening.WHERE} still names another folder."
    telling.done(shown.wrapped(told))
