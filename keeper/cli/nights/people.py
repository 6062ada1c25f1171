"""People whose names are marked, on the command line."""

import click

from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.typed import WORDS
from keeper.dates import written


@click.command(short_help="List the people marked, or tell of one.")
@click.argument("name", required=False, type=WORDS)
@click.pass_obj
def people(named: NamedKeeper, name: str | None) -> None:
    """List the people marked with their lines; with a NAME, when they were named first and last, and with whom."""
    from keeper.actions import people as known

    if name is None:
        rows = [f"{one.person.name}\t{one.lines}" for one in known.every(named.store)]
        click.echo("\n".join(rows) or "No name is marked yet.")
        return
    view = known.view_of(named.store, name)
    click.echo(f"{view.person.name}\nlines\t{len(view.nights)}")
    if view.nights:
        click.echo(f"first\t{written.full_date(view.nights[0])}\nlast\t{written.full_date(view.nights[-1])}")
    for other, times in view.together:
        click.echo(f"with {other.name}\t{times}")
