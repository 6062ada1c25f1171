"""A night on the command line: what is kept of it."""

from datetime import date

import click

from keeper.actions import reading
from keeper.actions.readings import trackers as readings
from keeper.actions.readings import wording
from keeper.cli import shown
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.typed import DATE
from keeper.model import Wording
from keeper.review.night import NightPage


@click.command()
@click.argument("night", metavar="[DATE]", required=False, type=DATE)
@click.option("--earlier", is_flag=True, help="Show earlier wordings too.")
@click.pass_obj
def show(named: NamedKeeper, night: str | None, earlier: bool) -> None:
    """Show what is kept of a night (of tonight)."""
    wanted = named.night(night)
    click.echo(shown.night_text(_page(named, wanted), _wordings(named, wanted) if earlier else (), _readings(named, wanted)))


def _readings(named: NamedKeeper, night: date) -> str:
    """The readings of a night; "" where none was noted."""
    found = readings.of_night(named.store, night)
    noted = [wording.told(one.tracker, one.reading) for one in found if one.reading]
    left = [one.tracker.name for one in found if one.reading is None]
    if not noted:
        return ""
    rows = [("Readings", ", ".join(noted)), *([("Not noted", ", ".join(left))] if left else [])]
    return "\n".join(shown.wrapped(text, word.ljust(12), " " * 12) for word, text in rows)


def _page(named: NamedKeeper, night: date) -> NightPage:
    """All that is kept of a night, and what waits."""
    return reading.night_page(named.store, night, named.tonight)


def _wordings(named: NamedKeeper, night: date) -> tuple[Wording, ...]:
    """Earlier wordings of all the night's lines."""
    return tuple(wording for kind in named.kinds for wording in reading.wordings(named.store, night, kind.key))
