"""A night on the command line: what is kept of it."""

from datetime import date

import click

from keeper.actions.readings import trackers as readings
from keeper.actions.readings import wording
from keeper.cli import shown
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.typed import DATE


@click.command()
@click.argument("night", metavar="[DATE]", required=False, type=DATE)
@click.option("--earlier", is_flag=True, help="Show earlier wordings too.")
@click.pass_obj
def show(named: NamedKeeper, night: str | None, earlier: bool) -> None:
    """Show what is kept of a night (of tonight)."""
    wanted = named.night(night)
    click.echo(shown.night_text(named.page(wanted), named.wordings(wanted) if earlier else (), _readings(named, wanted)))


def _readings(named: NamedKeeper, night: date) -> str:
    """The readings of a night; "" where none was noted."""
    found = readings.of_night(named.store, night)
    noted = [wording.told(one.tracker, one.reading) for one in found if one.reading]
    left = [one.tracker.name for one in found if one.reading is None]
    if not noted:
        return ""
    rows = [("Readings", ", ".join(noted)), *([("Not noted", ", ".join(left))] if left else [])]
    return "\n".join(shown.wrapped(text, word.ljust(12), " " * 12) for word, text in rows)
