"""Where nights were spent, told on the command line."""

from typing import TYPE_CHECKING

from keeper.cli.shown import long_date, wrapped

if TYPE_CHECKING:
    from keeper.actions.places.where_between import SpanSaid

_NAMED = 5


def said(done: "SpanSaid") -> str:
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
