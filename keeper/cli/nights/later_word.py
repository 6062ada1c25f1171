"""A later word on the command line: what is thought now of an old line."""

from datetime import date

import click

from keeper.actions.remembering import later as later_words
from keeper.cli import telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.typed import DATE, KIND, WORDS, from_outside
from keeper.dates.written import long_date
from keeper.model import Line


@click.command(short_help="Say under an old line what you think of it now.")
@click.argument("night", metavar="DATE", type=DATE)
@click.argument("text", nargs=-1, type=WORDS)
@click.option("--kind", type=KIND, help="The line it goes under, by its kind (default: the first of the night).")
@click.option("--looks", metavar="NUMBER", type=WORDS, help="How the mood noted that night looks today; \u201c\u201d takes it back.")
@click.pass_obj
def later(named: NamedKeeper, night: str, text: tuple[str, ...], kind: str | None, looks: str | None) -> None:
    """Keep a later word under the line of an earlier night: TEXT, or what comes in by the pipe for "-".

    The line itself stays as it is. Tonight has one later word under each line:
    said again, it takes the place of what was said before; "" takes it out.
    "keeper show DATE" shows them with the line.
    """
    if not text and looks is None:
        raise click.UsageError("Say what you think of it now: TEXT, or --looks NUMBER.")
    wanted = named.night(night)
    words = None if not text else from_outside() if text == ("-",) else " ".join(text)
    line = _say_later(named, wanted, kind, words, looks)
    telling.done(f"Under {line.kind_title}, {long_date(line.night)}.")


def _say_later(named: NamedKeeper, night: date, kind: str | None, text: str | None, looks: str | None) -> Line:
    """Say tonight what is thought of a line, and how its mood looks; None of either says nothing of it.

    Raises UnknownThing, UnreadableText, UnreadableReading.
    """
    line, *_ = named.lines_of(night, kind)
    with named.store.going_on(None):
        if text is not None:
            later_words.write(named.store, line.id, named.tonight, text, named.clock)
        if looks is not None:
            later_words.look_anew(named.store, line.id, named.tonight, looks, named.clock)
    return line
