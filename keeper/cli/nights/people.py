"""People whose names are marked, on the command line."""

from __future__ import annotations

from pathlib import Path

import click

from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.taking import heeding_interrupts
from keeper.cli.typed import WORDS
from keeper.dates import written


@click.command(short_help="List the people marked, tell of one, or take their birthdays in and out.")
@click.argument("name", required=False, type=WORDS)
@click.option("--born", metavar="DATE", type=WORDS, help="The birthday of NAME, with or without the year.")
@click.option("--about", metavar="WORDS", type=WORDS, help="A line about who NAME is.")
@click.option("--give", "out", metavar="FILE", type=click.Path(path_type=Path),
              help="Write all birthdays and days to remember to FILE: .vcf (cards) or .ics (a calendar).")
@click.option("--read-in", "into", metavar="FILE", type=click.Path(path_type=Path),
              help="Look at a file of cards or a calendar, and tell what it would bring.")
@click.option("--keep", is_flag=True, help="With --read-in: keep it. Without this nothing is written.")
@click.option("--everybody", is_flag=True, help="With --read-in: also those whose names are in no line.")
@click.pass_obj
def people(
    named: NamedKeeper, name: str | None, born: str | None, about: str | None, out: Path | None, into: Path | None, keep: bool, everybody: bool,
) -> int:  # fmt: skip
    """List the people marked with their lines and days to remember; with a NAME, when they were named first and last, with whom, and their days."""
    if (keep or everybody) and into is None:
        raise click.UsageError("--keep and --everybody go with --read-in.")
    if (born or about) and name is None:
        raise click.UsageError("--born and --about go with a NAME.")
    if out or into:
        if name or (out and into):
            raise click.UsageError("Either a NAME, or --give, or --read-in.")
        return _read_in(named, into, keep, everybody) if into else _give(named, out)
    if name is None:
        _list(named)
    else:
        _change(named, name, born, about)
        _tell(named, name)
    return 0


def _list(named: NamedKeeper) -> None:
    from keeper.actions import people as known
    from keeper.actions.one_person import days
    from keeper.actions.one_person.cards_told import said

    kept: dict[str, list[str]] = {}
    for day in days.every(named.store):
        kept.setdefault(day.person_id, []).append(f"{day.what} {said(day)}")
    rows = ["\t".join((one.person.name, str(one.lines), *kept.get(one.person.id, ()))) for one in known.every(named.store)]
    click.echo("\n".join(rows) or "No name is marked yet.")


def _change(named: NamedKeeper, name: str, born: str | None, about: str | None) -> None:
    from keeper.actions import people as known
    from keeper.actions.one_person import days
    from keeper.cli.own_spelling import own_spelling

    person = known.view_of(named.store, name).person if born or about else None
    if person and born:
        days.remember(named.store, person.id, "", born, named.tonight, own_spelling())
    if person and about:
        days.describe(named.store, person.id, about)


def _tell(named: NamedKeeper, name: str) -> None:
    from keeper.actions import people as known
    from keeper.actions.one_person import days, page
    from keeper.actions.one_person.cards_told import said

    view = known.view_of(named.store, name)
    its = page.person_page(named.store, view.person.id)
    click.echo(f"{view.person.name}\nlines\t{len(view.nights)}")
    if its.about:
        click.echo(f"who\t{shown.one_row(its.about)}")
    if view.nights:
        click.echo(f"first\t{written.full_date(view.nights[0])}\nlast\t{written.full_date(view.nights[-1])}")
    for day in its.days:
        click.echo(f"{days.titled(day.what)}\t{said(day)}")
    for _, place, nights in page.around(named.store, view.person.id).places:
        click.echo(f"at {place}\t{nights}")
    for other, times in view.together:
        click.echo(f"with {other.name}\t{times}")


def _give(named: NamedKeeper, out: Path) -> int:
    from keeper.actions.one_person import cards

    telling.done(shown.wrapped(cards.give(named.store, out.absolute(), named.clock)))
    return 0


def _read_in(named: NamedKeeper, file: Path, keep: bool, everybody: bool) -> int:
    from keeper.actions.one_person import cards, cards_looked, cards_told

    named.must_be_begun(now=True)
    with heeding_interrupts() as stopped:
        looked = cards_looked.look(named.store, file.absolute(), named.tonight, stopped)
    for sentence in cards_told.would_bring(looked, everybody):
        click.echo(shown.wrapped(sentence))
    for trouble in looked.troubles:
        telling.aside(shown.wrapped(trouble))
    if keep:
        many = cards.keep(named.store, looked, everybody)
        telling.done(shown.wrapped(f"Kept of {written.counted(many, 'person', 'people')}. \u201ckeeper undo\u201d undoes it."))
    else:
        telling.done(shown.wrapped("Nothing was written; --keep keeps it."))
    return 1 if looked.troubles else 0
