"""The question of a month on the command line."""

from datetime import date

import click

from keeper.actions import reading, writing
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
    before = _question(named, wanted)
    if not question and not unasked:
        click.echo(shown.wrapped(before or f"No question is set for {written.month_and_year(wanted)}."))
        return
    _ask(named, wanted, " ".join(question))
    telling.done(shown.asked_sentence(wanted, _question(named, wanted), before))


def _question(named: NamedKeeper, month: date) -> str:
    """The question of a month, or ""."""
    return reading.month_question(named.store, month) if named.begun or named.demo else ""


def _ask(named: NamedKeeper, month: date, question: str) -> None:
    """Set the question of a month; "" asks none."""
    named.must_be_begun(now=True)
    writing.ask_question(named.store, month, question)
