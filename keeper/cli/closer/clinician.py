"""A page for a clinician from the command line: as a PDF, as a table, or both."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from keeper.cautions import OF_THE_BODY
from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.taking import heeding_interrupts
from keeper.cli.typed import DATE, WORDS
from keeper.dates import written
from keeper.errors import AlreadyKept
from keeper.model import Tracker

if TYPE_CHECKING:
    from keeper.actions.clinician.chosen import Chosen


@click.command(short_help="Make a page for a clinician: readings, counts, what stands out.", epilog=OF_THE_BODY)
@click.option("--from", "first", metavar="DATE", type=DATE, help="The first night (default: 90 nights before the last).")
@click.option("--until", "--to", "last", metavar="DATE", type=DATE, help="The last night, or this month\u2019s end (default: tonight).")
@click.option("--reading", "names", metavar="NAME", type=WORDS, multiple=True, help="Only this reading; may be repeated.")
@click.option("--pdf", metavar="FILE", type=click.Path(path_type=Path), help="Write the page to this file.")
@click.option("--csv", metavar="FILE", type=click.Path(path_type=Path), help="Write the same as a table to this file.")
@click.option("--readings-only", is_flag=True, help="Without what stands out and what was tried.")
@click.option("--replace", is_flag=True, help="Replace files that are there.")
@click.pass_obj
def clinician(
    named: NamedKeeper, first: str | None, last: str | None, names: tuple[str, ...], pdf: Path | None, csv: Path | None,
    readings_only: bool, replace: bool,
) -> None:  # fmt: skip
    """Make one or two printed pages to take to a clinician, or the same as a table (CSV), or both.

    What stands out is what was asked last on the page of patterns.
    """
    if pdf is None and csv is None:
        raise click.UsageError("Say where it goes: --pdf FILE, --csv FILE, or both.")
    pdf, csv = (one.absolute() if one else None for one in (pdf, csv))
    for target in (pdf, csv):
        if target and target.exists() and not replace:
            raise AlreadyKept(f"There is a file {target.name} already. To replace it, say --replace.")
    from keeper.actions.clinician import making

    chosen = _chosen(named, first, last, names, not readings_only)
    with heeding_interrupts() as stopped:
        if pdf:
            made = making.make_page(named.store, chosen, pdf, named.tonight, stopped=stopped)
            for sentence in made.left_out:
                telling.aside(shown.wrapped(sentence))
            telling.done(shown.wrapped(f"{written.counted(made.pages, 'page')} in {made.path}."))
        if csv:
            nights = making.make_table(named.store, chosen, csv, named.tonight)
            telling.done(shown.wrapped(f"{written.counted(nights, 'night')} in {csv}."))


def _chosen(named: NamedKeeper, first: str | None, last: str | None, names: tuple[str, ...], patterns: bool) -> Chosen:
    from keeper.actions.clinician import chosen

    end = named.span(last, last)[1] if last else named.tonight
    begin = named.night(first) if first else end - chosen.USUAL
    offered = chosen.offered(named.store, begin, end)
    its = [_named(named, name, offered) for name in names] if names else offered[: chosen.MOST_READINGS]
    if len(its) < len(offered) and not names:
        left = ", ".join(one.name for one in offered[chosen.MOST_READINGS :])
        telling.aside(shown.wrapped(f"{chosen.MOST_READINGS} readings have room; left out: {left}."))
    return chosen.Chosen(begin, end, tuple(one.id for one in its), patterns)


def _named(named: NamedKeeper, name: str, offered: Sequence[Tracker]) -> Tracker:
    from keeper.actions.readings import trackers

    same = [one for one in offered if one.name.casefold() == " ".join(name.split()).casefold()]
    return same[0] if same else trackers.named(trackers.every(named.store), name)
