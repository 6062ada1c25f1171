"""The commands ``around``, ``after`` and ``changes``: the same sentences as on the pages, and the numbers as rows."""

from __future__ import annotations

from collections.abc import Sequence

import click

from keeper import cautions
from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.typed import WORDS
from keeper.errors import UnreadableReading
from keeper.review.courses.values import NOTHING_YET, Figures
from keeper.review.patterns.whole import NO_CAUSE

DONE, WRONG = 0, 1

_NUMBERS = click.option("--numbers", is_flag=True, help="The numbers behind it too, as rows with tabs between.")


@click.command(short_help="Tell how a reading goes around the nights with a mark.", epilog=cautions.LABEL)
@click.argument("mark", type=WORDS)
@click.argument("reading", type=WORDS)
@click.option("--nights", default=7, show_default=True, metavar="N", help="So many nights before and after.")
@_NUMBERS
@click.pass_obj
def around(named: NamedKeeper, mark: str, reading: str, nights: int, numbers: bool) -> int:
    """Tell how READING goes in the nights before and after each night with MARK.

    Against other nights of the same seasons. MARK can also be a theme, a
    person or "change of place". Returns 1 where nothing can be said yet.
    """
    from keeper.actions.courses import asked
    from keeper.actions.courses.around import around_mark

    there = asked.what_can_be_asked(named.store)
    its = asked.named(there.marks, mark), asked.named(there.readings, reading)
    told = around_mark(named.store, *(one.key for one in its), nights)
    return _tell(told.sentences, told.figures, numbers, told.reading.body or told.mark.of_the_body, NO_CAUSE)


@click.command(short_help="Tell how often a mark comes after another.", epilog=cautions.LABEL)
@click.argument("mark", type=WORDS)
@click.argument("other", type=WORDS)
@click.option("--within", default=2, show_default=True, metavar="K", help="In so many nights after.")
@click.option("--phase", nargs=2, type=(int, int), default=None, metavar="FIRST LAST", help="Only these nights after a mark: 1 14.")
@click.option("--of", "of_phase", type=WORDS, help="The mark from which the phase counts.")
@_NUMBERS
@click.pass_obj
def after(named: NamedKeeper, mark: str, other: str, within: int, phase: tuple[int, int] | None, of_phase: str | None,
          numbers: bool) -> int:  # fmt: skip
    """Tell how often OTHER comes within some nights after MARK, and otherwise.

    With --phase and --of only some nights after a third mark take part.
    Returns 1 where nothing can be said yet.
    """
    from keeper.actions.courses import asked
    from keeper.actions.courses.after import PhaseAsked, after_mark

    if (phase is None) != (of_phase is None):
        raise UnreadableReading("A phase needs both: its nights (--phase 1 14) and the mark from which they count (--of NAME).")
    marks = asked.what_can_be_asked(named.store).marks
    first, second = asked.named(marks, mark), asked.named(marks, other)
    wanted = PhaseAsked(asked.named(marks, of_phase).key, *phase) if phase else None
    told = after_mark(named.store, first.key, second.key, within, wanted)
    return _tell(told.sentences, told.figures, numbers, first.of_the_body or second.of_the_body, NO_CAUSE)


@click.command(short_help="Tell when the level of a reading shifted.", epilog=cautions.LABEL)
@click.argument("reading", type=WORDS)
@_NUMBERS
@click.pass_obj
def changes(named: NamedKeeper, reading: str, numbers: bool) -> int:
    """Tell when the level of READING shifted, and how the latest month stands to the usual.

    Returns 1 where nothing can be said yet.
    """
    from keeper.actions.courses import asked
    from keeper.actions.courses.changes import changes_of

    there = asked.what_can_be_asked(named.store).readings
    told = changes_of(named.store, asked.named(there, reading).key)
    return _tell(told.sentences, told.figures, numbers, told.reading.body)


def _tell(sentences: Sequence[str], figures: Figures, numbers: bool, body: bool, first: str = "") -> int:
    click.echo(shown.wrapped("\n".join(sentences)))
    if numbers and figures.rows:
        click.echo("\n".join("\t".join(shown.one_row(part) for part in row) for row in (figures.heads, *figures.rows)))
    telling.aside(shown.wrapped(f"{first} {cautions.under(body)}".strip()))
    return WRONG if sentences[0].startswith(NOTHING_YET) else DONE
