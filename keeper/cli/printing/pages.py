"""Pages to print by the command line."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.printing.files import progress, target_for
from keeper.cli.taking import heeding_interrupts
from keeper.cli.typed import DATE, WORDS
from keeper.dates import written
from keeper.days import first_of_month, last_of_month

WHAT = {"month": "month", "filled": "filled", "year": "year", "nights": "nights", "cards": "cards", "test": "ruler"}
"""What can be printed, as it is typed."""

SIDES = {"one": "one", "both": "both", "by-hand": "by hand", "by-hand-last-first": "by hand, last first"}

PARTS = ("question", "goals", "photo", "readings", "words", "marks")
"""What can be left out."""


@click.command("print", short_help="Make pages to print: a month to fill in, a year to tick, cards.")
@click.argument("what", metavar="WHAT", type=click.Choice(tuple(WHAT)))
@click.argument("when", metavar="[DATE]", required=False, type=DATE)
@click.option("--to", metavar="FILE", type=click.Path(path_type=Path), help="The file to write (default: keeper-WHAT-DATE.pdf in this folder).")
@click.option("--size", metavar="SIZE", type=WORDS, default="", help="a5, a6, a4, a7, letter, half-letter, or one of your own in mm: 120x170.")
@click.option("--holes", type=float, help="The margin for holes, in mm (default: 12, for cards 0).")
@click.option("--dots", is_flag=True, help="Dots 5 mm apart to write on, not rules.")
@click.option("--paper", type=click.Choice(("same", "a4", "letter")), default="same", help="The sheets in the printer (default: as large as the page).")
@click.option("--sides", type=click.Choice(tuple(SIDES)), default="one", show_default=True, help="Sides printed on; by hand: all fronts first, then the backs.")
@click.option("--booklet", is_flag=True, help="Two pages side by side, in the order of a booklet to fold.")
@click.option("--without", multiple=True, type=click.Choice(PARTS), help="Leave this out; may be repeated.")
@click.option("--with-places", is_flag=True, help="A column for places; of what is filled in, tell where you were.")
@click.option("--with-resting", is_flag=True, help="Of a filled month, include what rests.")
@click.option("--for", "ticked", metavar="TEXT", type=WORDS, default="", help="What a year is ticked for.")
@click.option("--replace", is_flag=True, help="Replace the file that is there.")
@click.pass_obj
def print_(named: NamedKeeper, what: str, when: str | None, to: Path | None, sides: str, dots: bool, without: tuple[str, ...],
           with_places: bool, with_resting: bool, replace: bool, holes: float | None, **paper: object) -> None:  # fmt: skip
    """Make pages to print, as a PDF at its true size.

    \b
    month   a month to fill in: numbered nights, your readings as columns
    filled  the same as it was kept
    year    a year to tick
    nights  a page for each night of DATE: a night, a month or a year
    cards   small cards with the lines of DATE in earlier years
    test    a page with rulers, to try the printer with

    A month's pages have a small code by which a scan of them is told to be of
    that month; it says no more than that. What rests and where you were stay
    out unless you include them.
    """
    from keeper.actions.printing.wanted import MonthParts, PagesWanted

    first, last = _span(named, WHAT[what], when)
    target = target_for(to, f"keeper-{what}-{_spelt(WHAT[what], first, last)}.pdf", replace)
    parts = MonthParts(**dict.fromkeys(without, False), places=with_places)
    wanted = PagesWanted(WHAT[what], first, last, ground="dots" if dots else "ruled", sides=SIDES[sides], parts=parts,
                         resting=with_resting, holes=(0.0 if what == "cards" else 12.0) if holes is None else holes, **paper)  # fmt: skip
    make(named, wanted, target)


def make(named: NamedKeeper, wanted, target: Path) -> None:
    """Make the pages and tell what came of it. Raises as ``actions.printing.making.make_pages``."""
    from keeper.actions.printing.making import make_pages

    with heeding_interrupts() as stopped:
        made = make_pages(named.store, wanted, target, progress(), stopped)
    for sentence in made.left_out:
        telling.aside(shown.wrapped(sentence))
    telling.done(shown.wrapped(f"{written.counted(made.pages, 'page')} in {made.path}."))


def _span(named: NamedKeeper, what: str, when: str | None) -> tuple[date, date]:
    first, last = named.span(when, when) if when else (named.tonight, named.tonight)
    if what in ("month", "filled"):
        return first_of_month(first), last_of_month(first)
    if what == "year":
        return date(first.year, 1, 1), date(first.year, 12, 31)
    return first, last


def _spelt(what: str, first: date, last: date) -> str:
    if what in ("month", "filled"):
        return f"{first:%Y-%m}"
    return str(first.year) if what == "year" else first.isoformat()
