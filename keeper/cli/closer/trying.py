"""Finding out by trying, on the command line: shown, begun and stopped."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from datetime import timedelta
from typing import TYPE_CHECKING

import click

from keeper import cautions
from keeper.cautions import NEVER_TRIED
from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.typed import DATE, WORDS
from keeper.errors import UnknownThing

if TYPE_CHECKING:
    from keeper.actions.trying.beginning import WantedPlan
    from keeper.actions.trying.results import Known


@click.command("try", short_help="Find out by trying: nights with and without one thing, by lot.", epilog=NEVER_TRIED)
@click.option("--begin", "mark", metavar="NAME", type=WORDS, help="Try this: something noted as yes or no.")
@click.option("--see", "reading", metavar="NAME", type=WORDS, help="The reading to see it in.")
@click.option("--blocks", type=int, default=8, show_default=True, help="How many blocks of nights.")
@click.option("--nights", type=int, default=7, show_default=True, help="Nights in a block, 1 to 14.")
@click.option("--from", "first", metavar="DATE", type=DATE, help="The first night (default: tomorrow).")
@click.option("--night-after", is_flag=True, help="Read it the night after.")
@click.option("--no-treatment", is_flag=True, help="Confirm that it is no medicine, no treatment, and nothing prescribed.")
@click.option("--stop", is_flag=True, help="Stop what is tried now.")
@click.pass_obj
def try_(
    named: NamedKeeper, mark: str | None, reading: str | None, blocks: int, nights: int, first: str | None, night_after: bool,
    no_treatment: bool, stop: bool,
) -> int:  # fmt: skip
    """Show what is tried and what came of what was tried; begin or stop it.

    The program draws by lot in which blocks of nights you do it. With --begin
    alone it is told how sure that could be; with --no-treatment it begins. In a
    pipe each trying is one row: what, reading, first and last night, blocks,
    nights in a block, whether it is over, difference, its ends, and p, with
    tabs between. Returns 1 when there are none.
    """
    if bool(mark) != bool(reading):
        raise click.UsageError("--begin says what is tried, --see the reading to see it in; give both.")
    if mark and stop:
        raise click.UsageError("--begin or --stop; not both.")
    if stop:
        telling.done(shown.wrapped(_stopped(named)))
    elif mark:
        _begin(named, _wanted(named, mark, reading, (blocks, nights), first, night_after), no_treatment)
    else:
        return _listed(named)
    return 0


def _wanted(named: NamedKeeper, mark: str, reading: str, size: Sequence[int], first: str | None, later: bool) -> WantedPlan:
    from keeper.actions.readings import trackers
    from keeper.actions.trying.beginning import WantedPlan

    named.must_be_begun()
    every = trackers.in_force(named.store, named.tonight)
    # By the evening most of tonight may have been done already, or left.
    begins = named.night(first) if first else named.tonight + timedelta(1)
    return WantedPlan(trackers.named(every, mark).id, trackers.named(every, reading).id, begins, *size, int(later))


def _begin(named: NamedKeeper, plan: WantedPlan, agreed: bool) -> None:
    from keeper.actions.trying import beginning, results, wording
    from keeper.actions.trying.sureness import how_sure

    beginning.check(named.store, plan, named.tonight)
    for sentence in wording.sure(how_sure(named.store, plan, named.tonight)):
        click.echo(shown.wrapped(sentence))
    if not agreed:
        click.echo(shown.wrapped(NEVER_TRIED))
        click.echo(shown.wrapped("Nothing has begun. To confirm that this is none of these and begin, say --no-treatment."))
        return
    made = beginning.begin(named.store, plan, beginning.any_seed(), named.tonight, agreed)
    known = next(one for one in results.every(named.store, named.tonight) if one.trying.id == made.id)
    telling.done(shown.wrapped(f"The lot is drawn. {wording.plan(known)}. {_now(named, known)}"))


def _now(named: NamedKeeper, known: Known) -> str:
    from keeper.actions.trying.tonight import where
    from keeper.dates.written import full_date

    told = where(known.trying, known.mark.name, named.tonight)
    if told:
        return f"Tonight: {told}."
    begins = named.tonight < known.trying.first
    return f"It begins on {full_date(known.trying.first)}." if begins else f"Tonight\u2019s {known.reading.name} is the last that is read."


def _stopped(named: NamedKeeper) -> str:
    from keeper.actions.trying import beginning, results

    under_way = next((one for one in results.every(named.store, named.tonight) if not one.over), None)
    if under_way is None:
        raise UnknownThing("Nothing is tried now.")
    return beginning.stop(named.store, under_way.trying.id, named.tonight)


def _listed(named: NamedKeeper) -> int:
    from keeper.actions.trying import results

    known = results.every(named.store, named.tonight) if named.begun or named.demo else ()
    for one in known:
        click.echo(_told(named, one) if sys.stdout.isatty() else _row(named, one))
    telling.aside(shown.wrapped(cautions.under(any(one.reading.body for one in known))) if known else "Nothing was tried yet.")
    return 0 if known else 1


def _told(named: NamedKeeper, one: Known) -> str:
    from keeper.actions.trying import results, wording

    if not one.over:
        return shown.wrapped(f"{wording.plan(one)}. {_now(named, one)} {wording.WHY_NOT_BEFORE}") + "\n"
    said = wording.came_of_it(results.came_of(named.store, one.trying.id, named.tonight))
    return shown.wrapped(f"{wording.plan(one)}. {' '.join(said)}") + "\n"


def _row(named: NamedKeeper, one: Known) -> str:
    from keeper.actions.trying import results

    trying = one.trying
    tried = results.came_of(named.store, trying.id, named.tonight, sureness=False).tried if one.over else None
    numbers = [f"{value:.6g}" for value in (tried.difference, tried.low, tried.high, tried.p)] if tried else [""] * 4
    return "\t".join((
        one.mark.name, one.reading.name, trying.first.isoformat(), trying.until.isoformat(), str(len(trying.withs)),
        str(trying.length), "over" if one.over else "", *numbers,
    ))  # fmt: skip
