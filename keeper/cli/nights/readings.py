"""Readings on the command line: the commands that note, list, begin and end them."""

import click

from keeper.cautions import OF_THE_BODY
from keeper.cli import telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.nights import noting
from keeper.cli.telling import DONE, WRONG
from keeper.cli.typed import DATE, WORDS, from_outside
from keeper.model import FORMS


@click.command(short_help="Note readings of a night: mood, sleep, whatever is yours.", epilog=OF_THE_BODY)
@click.argument("said", metavar="[\"NAME READING\"...]", nargs=-1, type=WORDS)
@click.option("--night", metavar="DATE", type=DATE, help="The night they belong to (default: tonight).")
@click.pass_obj
def note(named: NamedKeeper, said: tuple[str, ...], night: str | None) -> None:
    """Note readings: keeper note "mood 7" "sleep 23:30-6:45" "tea yes" "coffee -".

    All of them, or none. The name of a mark alone is a yes; a hyphen takes a
    reading back to not noted. Without readings (or with "-") they come by the
    pipe, one a row. Mood, stress and sleep begin when they are first noted;
    others with "keeper readings --begin NAME".
    """
    named.must_be_begun()
    wanted = named.night(night, to_write=True)
    rows = said if said not in ((), ("-",)) else from_outside("One reading a row, such as: mood 7").split("\n")
    told = noting.note(named, rows, wanted)
    telling.done(" ".join(filter(None, (told, named.why_still(night)))))


@click.command(short_help="List what is noted each night; begin or end one.")
@click.option("--begin", "name", metavar="NAME", type=WORDS, help="Begin one of your own, with tonight.")
@click.option("--as", "form", type=click.Choice(FORMS), help="Its form: a scale (0 to 10), hours, a count, an amount or a mark.")
@click.option("--unit", metavar="UNIT", type=WORDS, default="", help="What it is counted or measured in.")
@click.option("--guest", is_flag=True, help="It ends by itself after a month.")
@click.option("--body", is_flag=True, help="It is of the body or the mood.")
@click.option("--end", "ending", metavar="NAME", type=WORDS, help="End one; what was noted of it is kept.")
@click.pass_obj
def readings(named: NamedKeeper, name: str | None, form: str | None, ending: str | None, **told: str | bool) -> int:
    """List what is noted each night, in its order.

    In a pipe each is one row: name, form, unit, letter, first and last night,
    with tabs between. Returns 1 when there are none.
    """
    if name is not None and ending is not None:
        raise click.UsageError("--begin and --end each name a reading; give one of them.")
    if name is not None:
        telling.done(noting.begin(named, noting.Begun(name, form or "", **told)))
    elif ending is not None:
        telling.done(noting.end(named, ending))
    else:
        return DONE if noting.listed(named) else WRONG
    return DONE
