"""The words of a month or a year, listed or as a picture, by the command line."""

from pathlib import Path

import click

from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.printing.files import target_for
from keeper.cli.typed import WORDS
from keeper.dates import written
from keeper.errors import CannotWrite

_INK, _QUIET, _PAPER = "#1f2a44", "#5f6577", "#fbf8f1"


@click.command(short_help="List the words of a month or a year, or draw them.")
@click.argument("which", metavar="WHICH", type=WORDS)
@click.argument("file", metavar="[FILE]", required=False, type=click.Path(path_type=Path))
@click.option("--replace", is_flag=True, help="Replace the file that is there.")
@click.pass_obj
def words(named: NamedKeeper, which: str, file: Path | None, replace: bool) -> None:
    """List the words of a month (2026-05) or a year (2026): how often each, and about when mostly.

    With a FILE that ends in .svg, draw them, each over the part where it was mostly written.
    """
    from keeper.actions import word_pictures

    first, last = named.span(which, which)
    year = (last - first).days > 31
    picture = word_pictures.picture_of_year(named.store, first.year) if year else word_pictures.picture_of_month(named.store, first)
    if not picture.placed:
        click.echo("There are no words yet.")
    elif file is None:
        rows = (f"{one.word}\t{one.times}\t{written.full_date(picture.about(one))}" for one in picture.placed)
        click.echo("\n".join(rows))
    else:
        called = str(first.year) if year else written.month_and_year(first)
        inks = word_pictures.Inks(_PAPER, _QUIET, lambda one: _INK)
        _write(target_for(file.with_suffix(".svg"), "", replace), word_pictures.as_svg(picture.band, inks, f"The words of {called}"))


def _write(target: Path, drawn: str) -> None:
    try:
        target.write_text(drawn, encoding="utf-8")
    except OSError as error:
        raise CannotWrite(f"The picture cannot be written to {target}: {(error.strerror or str(error)).lower()}.") from error
    telling.done(shown.wrapped(f"The picture is in {target}."))
