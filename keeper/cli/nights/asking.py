"""The question of a month on the command line."""

import click

from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.typed import MONTH, WORDS
from keeper.dates import written


@click.command()
@click.argument("question", nargs=-1, type=WORDS)
@click.option("--month", metavar="YEAR-MONTH", type=MONTH, help="Which month (default: this one).")
@click.option("--none", "unasked", is_flag=True, help="Ask nothing that month.")
@click.pass_obj
def ask(named: NamedKeeper, question: tuple[str, ...], month: str | None, unasked: bool) -> None:
    """Show the question of a month, or set it to QUESTION."""
    if question and unasked:
        raise click.UsageError("Give a question or --none, not both.")
    wanted = named.month(month)
    before = named.question(wanted)
    if not question and not unasked:
        click.echo(shown.wrapped(before or f"No question is set for {written.month_and_year(wanted)}."))
        return
    named.ask(wanted, " ".join(question))
    telling.done(shown.asked_sentence(wanted, named.question(wanted), before))
