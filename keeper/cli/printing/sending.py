"""A page to send, by the command line."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.printing.files import progress, target_for
from keeper.cli.taking import heeding_interrupts
from keeper.cli.typed import WORDS

WHAT = ("month", "year", "theme", "place", "person")


@click.command("send", short_help="Make a month, year, theme, place or person into a page to send.")
@click.argument("what", metavar="WHAT", type=click.Choice(WHAT))
@click.argument("which", metavar="WHICH", type=WORDS)
@click.argument("file", metavar="FILE", type=click.Path(path_type=Path))
@click.option("--with-places", "positions", is_flag=True, help="Tell where you were, and where that lies.")
@click.option("--with-readings", "readings", is_flag=True, help="Of a month or a year, include the readings.")
@click.option("--with-resting", "resting", is_flag=True, help="Include what rests.")
@click.option("--without-photos", is_flag=True, help="Leave the photos out.")
@click.option("--size", type=click.Choice(("a5", "a4", "half-letter")), default="a5", show_default=True, help="The size of a PDF\u2019s page.")
@click.option("--replace", is_flag=True, help="Replace the file that is there.")
@click.pass_obj
def send(named: NamedKeeper, what: str, which: str, file: Path, without_photos: bool, replace: bool, **more: object) -> None:
    """Make a page to send of a month (2026-05), a year (2026), or a theme, place or person by name.

    FILE ends in .html for one file that stands alone and that any browser
    shows, or in .pdf. Photos go without what they say of when and where. Where
    you were, readings and what rests stay out unless you include them; your own
    words are always as you wrote them.
    """
    from keeper.actions.sending.making import SentWanted, make_sent

    month: date | None = named.span(which, which)[0] if what in ("month", "year") else None
    wanted = SentWanted(what, month, "" if month else which, photos=not without_photos, **more)
    with heeding_interrupts() as stopped:
        made = make_sent(named.store, wanted, target_for(file, "", replace), progress(), stopped)
    for sentence in made.left_out:
        telling.aside(shown.wrapped(sentence))
    telling.done(shown.wrapped(f"The page is in {made.path}."))
