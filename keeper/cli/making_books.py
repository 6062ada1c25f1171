"""Making a book from the command line: what is left out of it, where it goes, and what is told."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.taking import heeding_interrupts
from keeper.cli.typed import WORDS
from keeper.dates import written
from keeper.errors import AlreadyKept, UnreadableDate

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from keeper.actions.paper.making import BookMade

_PARTS = {
    "photos": "photos", "map": "map", "themes": "themes", "readings": "readings", "index": "index",
    "month-pages": "month_pages", "answers": "answers",
}  # fmt: skip
"""What can be left out, as it is typed, with the name of the part."""

_SIZES = ("a5", "a4", "half-letter")
_LINES = ("all", "chosen")


@dataclass(frozen=True, slots=True)
class _Wanted:
    """A book as it was asked for."""

    when: str
    to: Path | None
    replace: bool
    small_photo: bool
    parts: dict[str, object]


@click.command(short_help="Make a year into a book (PDF), or a month into a page.")
@click.argument("when", metavar="YEAR|YEAR-MONTH", type=WORDS)
@click.option("--to", metavar="FILE", type=click.Path(path_type=Path), help="The file to write (default: keeper-YEAR.pdf in this folder).")
@click.option("--size", type=click.Choice(_SIZES), default="a5", show_default=True, help="The size of the page.")
@click.option("--lines", type=click.Choice(_LINES), help="All lines, or those chosen for each month.")
@click.option("--without", multiple=True, type=click.Choice(tuple(_PARTS)), help="Leave this out; may be repeated.")
@click.option("--title", type=WORDS, default="", help="The title (default: the year).")
@click.option("--name", type=WORDS, default="", help="Whose book it is.")
@click.option("--with-later-words", is_flag=True, help="Include what was said of lines on later nights.")
@click.option("--with-resting", is_flag=True, help="Include what rests.")
@click.option("--with-notebook", is_flag=True, help="Of a year, include the pages of the notebook, with their months.")
@click.option("--small-photo", is_flag=True, help="On a month\u2019s page, set the photo at 50 x 76 mm.")
@click.option("--replace", is_flag=True, help="Replace the file that is there.")
@click.pass_obj
def book(named: NamedKeeper, when: str, to: Path | None, replace: bool, small_photo: bool, without: tuple[str, ...],
         with_resting: bool, with_later_words: bool, with_notebook: bool, lines: str | None, **told: str) -> None:  # fmt: skip
    """Make a year into a typeset book, or a month into a single page to print.

    What rests stays out of it unless you include it. Themes are looked for first
    where they are not there yet.
    """
    left_out = dict.fromkeys((_PARTS[part] for part in without), False)
    parts = {
        **told, **left_out, "resting": with_resting, "later_words": with_later_words, "notebook": with_notebook,
        "lines": lines or ("chosen" if "-" in when else "all"),
    }  # fmt: skip
    _make(named, _Wanted(when, to, replace, small_photo, parts))


def _make(named: NamedKeeper, wanted: _Wanted) -> None:
    """Make the book of a year or the page of a month, and tell what came of it.

    Raises UnreadableDate, AlreadyKept, UnknownThing, CannotWrite.
    """
    month = wanted.when.count("-") == 1
    first = named.month(wanted.when if month else f"{_year(wanted.when)}-01")
    target = (wanted.to or Path(f"keeper-{wanted.when}.pdf")).absolute()
    if target.exists() and not wanted.replace:
        raise AlreadyKept(f"There is a file {target.name} already. To replace it, say --replace.")
    with heeding_interrupts() as stopped:
        progress = _progress if sys.stderr.isatty() else lambda *_: None
        if month:
            made = _sheet_made(named, first, target, wanted.parts, wanted.small_photo, progress, stopped)
        else:
            made = _book_made(named, first.year, target, wanted.parts, progress, stopped)
    for sentence in made.left_out:
        telling.aside(shown.wrapped(sentence))
    telling.done(shown.wrapped(f"{written.counted(made.pages, 'page')} in {made.path}."))


def _book_made(
    named: NamedKeeper, year: int, target: Path, parts: dict[str, object], progress: Callable[[float, str], None],
    stopped: Callable[[], bool],
) -> BookMade:  # fmt: skip
    """Make a year into a book. Raises UnknownThing, CannotWrite, Stopped."""
    from keeper.actions.paper import making as book

    return book.make_book(named.store, year, book.BookParts(**parts), target, named.clock, progress, stopped)


def _sheet_made(
    named: NamedKeeper, month: date, target: Path, parts: dict[str, object], small_photo: bool,
    progress: Callable[[float, str], None], stopped: Callable[[], bool],
) -> BookMade:  # fmt: skip
    """Make a month into a page to print. Raises UnknownThing, CannotWrite, Stopped."""
    from keeper.actions.paper import making as book

    wanted = book.BookParts(**{"answers": False, **parts})
    return book.make_month_sheet(named.store, month, target, named.clock, wanted, small_photo, progress, stopped)


def _year(typed: str) -> str:
    if not (typed.isascii() and typed.isdecimal() and len(typed) == 4):
        raise UnreadableDate(f"\u201c{typed[:40]}\u201d is not a year. Write a year as 2026, a month as 2026-11.")
    return typed


def _progress(share: float, words: str) -> None:
    # The rest of the row is blanked: an earlier word may have been longer.
    click.echo(f"\r{'' if share == 1 else words:40}\r", nl=False, err=True)
