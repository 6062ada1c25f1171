"""Finding on the command line: what is looked for, and how what was found is told."""

import sys

import click

from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.telling import DONE, WRONG
from keeper.cli.typed import DATE, KIND, WORDS
from keeper.dates import written


@click.command(short_help="Find lines by their words, kind, place and dates.")
@click.argument("words", nargs=-1, type=WORDS)
@click.option("--kind", type=KIND, help="Only lines of this kind.")
@click.option("--place", metavar="NAME", type=WORDS, help="Only nights at this place.")
@click.option("--theme", metavar="NAME", type=WORDS, help="Only lines of this theme; how its name begins will do.")
@click.option("--from", "first", metavar="DATE", type=DATE, help="Only from this night on.")
@click.option("--to", "last", metavar="DATE", type=DATE, help="Only up to this night, or this month's end.")
@click.option("--best", is_flag=True, help="Best match first, not newest first.")
@click.option("--limit", type=click.IntRange(1, 1_000_000), default=50, show_default=True, help="How many at most.")
@click.pass_obj
def find(named: NamedKeeper, words: tuple[str, ...], limit: int, **narrowed: str | bool | None) -> int:
    """Find lines that hold all of WORDS, or words that begin so.

    Where few do, the nearest are told beneath: with some of the words, others
    of their stems, or a letter or two that are other.

    Words in one pair of quotes are sought exactly as they stand together. In a
    terminal lines are laid out; in a pipe each is one row: night, kind, place
    and text, with tabs between, and "nearest" behind that where it is no more.
    Returns 1 when no line has every word.
    """
    sought = named.sought(words, **narrowed)
    for typed, night in named.read_as.items():
        click.echo(f"{typed} is read as {shown.long_date(night)}.", err=True)
    found, count = named.find(sought, limit)
    if not found:
        telling.aside("Nothing found.")
        return WRONG
    if not count:
        telling.aside("No line has every word; these are the nearest.")
    click.echo(shown.found_text(found) if sys.stdout.isatty() else shown.found_rows(found))
    # Not compared with what was found: a damaged line is left out of it.
    if count > limit:
        telling.aside(f"{written.number(len(found))} of {written.number(count)}; --limit shows more.")
    return DONE if count else WRONG
