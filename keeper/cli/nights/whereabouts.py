"""Where nights were spent, said on the command line."""

from typing import TYPE_CHECKING

import click

from keeper.actions import writing
from keeper.cli import telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.shown import long_date, wrapped
from keeper.cli.typed import DATE, WORDS

if TYPE_CHECKING:
    from keeper.actions.places.where_between import SpanSaid

_NAMED = 5


@click.command(short_help="Say where one night was spent, or a span of them.")
@click.argument("place", nargs=-1, required=True, type=WORDS)
@click.option("--night", metavar="DATE", type=DATE, help="One night (default: tonight).")
@click.option("--from", "first", metavar="DATE", type=DATE, help="The first night (default: tonight).")
@click.option("--to", "--until", "last", metavar="DATE", type=DATE, help="The last night, or this month's end (default: tonight).")
@click.option("--over", is_flag=True, help="Change nights that were said to be elsewhere too.")
@click.pass_obj
def at(
    named: NamedKeeper, place: tuple[str, ...], night: str | None, first: str | None, last: str | None, over: bool
) -> None:
    """Say that nights were spent at PLACE; a new name is a new place.

    Nights said to be elsewhere stay so, and are told. No lines are needed.
    """
    if night and (first or last):
        raise click.UsageError("--night is for one night; --from and --to are the ends of several.")
    telling.done(_said(_say_where(named, " ".join(place), night or first, night or last, over)))


def _say_where(named: NamedKeeper, place: str, first: str | None, last: str | None, over: bool) -> "SpanSaid":
    """Say where the nights of a span were spent; an end that was not typed is tonight.

    Raises UnreadableDate, UnreadableText.
    """
    from keeper.actions.places import where_between

    begin, end = named.span(first or "tonight", last or "tonight")
    where_between.check_span(begin, end, named.tonight)
    writing.check_text(place)
    named.must_be_begun(now=True)
    return where_between.say_between(named.store, begin, end, place, named.clock, named.tonight, over)


def _said(done: "SpanSaid") -> str:
    """What was said, and which nights stayed elsewhere."""
    when = long_date(done.first)
    if done.first != done.last:
        when = f"{when} to {long_date(done.last)}, {_counted(done.nights)}"
    told = f"At {done.place.name}: {when}."
    if done.gave_way:
        told += f" {_counted(done.gave_way)} had been carried on elsewhere."
    if not done.kept:
        return wrapped(told)
    named = ", ".join(night.isoformat() for night in done.kept[:_NAMED])
    more = f" and {len(done.kept) - _NAMED:,} more" if len(done.kept) > _NAMED else ""
    return wrapped(f"{told} {_counted(len(done.kept))} stayed where you had said: {named}{more}. --over changes them too.")


def _counted(nights: int) -> str:
    return f"{nights:,} {'night' if nights == 1 else 'nights'}"
