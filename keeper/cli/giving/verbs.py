"""``keeper give`` and ``keeper receive``."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from keeper.cli import shown, telling
from keeper.cli.care.backing_up import progress
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.taking import heeding_interrupts
from keeper.cli.typed import DATE
from keeper.dates import written

if TYPE_CHECKING:
    from keeper.actions.giving.taking import Difference
    from keeper.actions.giving.wanted import ToGive

_PARTS = ("database", "text", "tables", "json", "calendar", "globe", "photos")
_MOST_TOLD = 40


@click.command(short_help="Give everything, or a part, to a folder in open formats.")
@click.argument("folder", metavar="FOLDER", type=click.Path(path_type=Path))
@click.option("--only", multiple=True, type=click.Choice(_PARTS), help="Only this part; may be repeated.")
@click.option("--without", multiple=True, type=click.Choice(_PARTS), help="Leave this part out; may be repeated.")
@click.option("--from", "first", metavar="DATE", type=DATE, help="Only from this night, or the first of a month or year, on.")
@click.option("--to", "last", metavar="DATE", type=DATE, help="Only up to this night, or the last of a month or year.")
@click.option("--without-resting", is_flag=True, help="Without what rests.")
@click.option("--without-positions", is_flag=True, help="Without coordinates, in the photos\u2019 own notes too.")
@click.option("--replace", is_flag=True, help="Replace the archive that is there.")
@click.pass_obj
def give(named: NamedKeeper, folder: Path, replace: bool, **said: object) -> None:
    """Write an archive to FOLDER, which must not be there yet; to one file where its name ends in .zip.

    It holds the database, the words as text, tables, JSON, a calendar, stays
    and journeys, and the photos, with a README and a list by which it can be
    checked (BagIt). It is read back before it has its name.
    """
    from keeper.actions.giving.making import give as give_out

    with heeding_interrupts() as stopped:
        given = give_out(named.store, folder.absolute(), _wanted(named, **said), named.clock, progress(), stopped, replace)
    for held in given.held:
        telling.aside(shown.wrapped(held.sentence))
    telling.done(shown.wrapped(f"{given.sentence} {written.size(given.bytes)} in {given.path}."))


def _wanted(
    named: NamedKeeper, only: tuple[str, ...], without: tuple[str, ...], first: str | None, last: str | None,
    without_resting: bool, without_positions: bool,
) -> ToGive:  # fmt: skip
    from keeper.actions.giving.wanted import ToGive

    parts = frozenset(only or _PARTS) - frozenset(without)
    ends = _ends(named, first, last)
    return ToGive(parts, *ends, not without_resting, not without_positions)


def _ends(named: NamedKeeper, first: str | None, last: str | None) -> tuple[date | None, date | None]:
    """The first and the last night; of a month or a year, its ends. Raises UnreadableDate."""
    if first and last:
        return named.span(first, last)
    return named.span(first, first)[0] if first else None, named.span(last, last)[1] if last else None


@click.command(short_help="Take in an archive that was given.")
@click.argument("folder", metavar="FOLDER", type=click.Path(path_type=Path))
@click.option("--look", is_flag=True, help="Tell what it would bring and what differs; nothing is changed.")
@click.option("--theirs", is_flag=True, help="Where lines differ, let the archive\u2019s words stand.")
@click.pass_obj
def receive(named: NamedKeeper, folder: Path, look: bool, theirs: bool) -> None:
    """Take in the archive in FOLDER, or in one file (.zip), after all of it was checked.

    What stands here stays. Where a line of the archive says something else,
    its words become an earlier wording; with --theirs it is the other way
    round. The same archive adds nothing a second time; "keeper undo" undoes it.
    """
    from keeper.actions.giving import taking

    if not look:
        named.must_be_begun(now=True)
    with heeding_interrupts() as stopped:
        seen = taking.look(named.store, folder.absolute(), progress(), stopped)
        _tell_differences(seen.differences)
        if look:
            telling.done(shown.wrapped(seen.sentence))
            return
        chosen = [(one.night, one.kind) for one in seen.differences if one.kind] if theirs else []
        taken = taking.take(named.store, folder.absolute(), named.clock, chosen, progress(), stopped)
    telling.done(shown.wrapped(taken.sentence))


def _tell_differences(those: tuple[Difference, ...]) -> None:
    for one in those[:_MOST_TOLD]:
        where = f"{one.night.isoformat()}, " if one.night else ""
        telling.aside(shown.wrapped(f"{where}{one.what}. Here: {one.here}"))
        telling.aside(shown.wrapped(f"In the archive: {one.there}"))
    if len(those) > _MOST_TOLD:
        telling.aside(f"And {written.counted(len(those) - _MOST_TOLD, 'more difference')}.")
