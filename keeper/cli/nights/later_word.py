"""A later word on the command line: what is thought now of an old line."""

from datetime import date

import click

from keeper.actions.remembering import later as later_words
from keeper.cli import telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.typed import DATE, KIND, WORDS, from_outside
from keeper.dates.written import long_date
from keeper.errors import UnknownThing
from keeper.model import Line


@click.command(short_help="Say under an old line what you think of it now.")
@click.argument("night", metavar="DATE", type=DATE)
@click.argument("text", nargs=-1, type=WORDS)
@click.option("--kind", type=KIND, help="The line it goes under, by its kind (default: the first of the night).")
@click.option("--looks", metavar="NUMBER", type=WORDS, help="How the mood noted that night looks today; \u201c\u201d takes it back.")
@click.option("--said", metavar="DATE", type=DATE, help="Change what was said on this night, instead of tonight\u2019s.")
@click.pass_obj
def later(named: NamedKeeper, night: str, text: tuple[str, ...], kind: str | None, looks: str | None, said: str | None) -> None:
    """Keep a later word under the line of an earlier night: TEXT, or what comes in by the pipe for "-".

    The line itself stays as it is. Tonight has one later word under each line:
    said again, it takes the place of what was said before; "" takes it out.
    What was said on another night is changed with --said.
    "keeper show DATE" shows them with the line.
    """
    if not text and looks is None:
        raise click.UsageError("Say what you think of it now: TEXT, or --looks NUMBER.")
    wanted = named.night(night)
    words = None if not text else from_outside() if text == ("-",) else " ".join(text)
    line = _say_later(named, wanted, kind, words, looks, said)
    telling.done(f"Under {line.kind_title}, {long_date(line.night)}.")


def _say_later(named: NamedKeeper, night: date, kind: str | None, text: str | None, looks: str | None, said: str | None) -> Line:
    """Say what is thought of a line, and how its mood looks, tonight or as on the night ``said``; None of either says nothing of it.

    Raises UnknownThing, UnreadableText, UnreadableReading.
    """
    line, *_ = named.lines_of(night, kind)
    said_on = named.night(said)
    if said and said_on not in {one.said_on for one in line.later}:
        raise UnknownThing(f"Nothing was said of that line on {said_on.isoformat()}.")
    with named.store.going_on(None):
        if text is not None:
            later_words.write(named.store, line.id, said_on, text, named.clock)
        if looks is not None:
            later_words.look_anew(named.store, line.id, said_on, looks, named.clock)
    return line
