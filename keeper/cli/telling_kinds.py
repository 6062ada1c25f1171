"""Kinds of lines on the command line: telling them, and the few things that are done to them."""

import sys
from datetime import date

import click

from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.typed import WORDS
from keeper.dates import written
from keeper.model import LineKind


@click.command(short_help="List the kinds of line; add, rename or leave out one.")
@click.option("--add", metavar="NAME", type=WORDS, help="Add a kind of your own, asked for from tonight on.")
@click.option("--prompt", metavar="TEXT", type=WORDS, help="With --add: what its empty field asks.")
@click.option("--out-of-themes", is_flag=True, help="With --add: its lines belong to no theme.")
@click.option("--rename", nargs=2, metavar="NAME NEW", type=WORDS, help="Call a kind something else.")
@click.option("--leave-out", metavar="NAME", type=WORDS, help="Ask for a kind no more; its lines stay.")
@click.option("--take-up", metavar="NAME", type=WORDS, help="Ask again for one that was left out.")
@click.pass_obj
def kinds(named: NamedKeeper, **wanted: str | tuple[str, str] | bool | None) -> None:
    """List the kinds of line, in your order; how a NAME begins will do.

    In a pipe each is one row: name, first and last night, whether it is out of
    themes, and what it asks, with tabs between.
    """
    done = _change(named, wanted)
    telling.done(done) if done else click.echo(_told(named.kinds, named.tonight))


def _change(named: NamedKeeper, wanted: dict[str, str | tuple[str, str] | bool | None]) -> str:
    """Do the one thing that was asked for and return the sentence on it; "" for none.

    Raises UsageError for two at once, UnknownThing, UnreadableText, AlreadyKept, TooManyKinds.
    """
    asked = [name for name in ("add", "rename", "leave_out", "take_up") if wanted[name] is not None]
    if len(asked) > 1:
        raise click.UsageError("One thing at a time: --add, --rename, --leave-out or --take-up.")
    if not asked:
        if wanted["prompt"] is not None or wanted["out_of_themes"]:
            raise click.UsageError("--prompt and --out-of-themes go with --add.")
        return ""
    named.must_be_begun(now=True)
    return _WAYS[asked[0]](named, wanted)


def _add(named: NamedKeeper, wanted: dict) -> str:
    from keeper.actions import kinds

    kind = kinds.add(named.store, wanted["add"], named.tonight, prompt=wanted["prompt"] or "", in_themes=not wanted["out_of_themes"])
    return f"Added: {kind.title}, from tonight on."


def _rename(named: NamedKeeper, wanted: dict) -> str:
    from keeper.actions import kinds

    old, new = wanted["rename"]
    kind = named.kind(old)
    kinds.rename(named.store, kind.key, new)
    return f"{kind.title} is called {' '.join(new.split())} from now on; its lines are as they were."


def _leave_out(named: NamedKeeper, wanted: dict) -> str:
    from keeper.actions import kinds

    kind = named.kind(wanted["leave_out"])
    kinds.leave_out(named.store, kind.key, named.tonight)
    return f"Left out: {kind.title}. Its lines stay, and can be found."


def _take_up(named: NamedKeeper, wanted: dict) -> str:
    from keeper.actions import kinds

    kind = named.kind(wanted["take_up"])
    kinds.take_up(named.store, kind.key, named.tonight)
    return f"Taken up again: {kind.title}."


_WAYS = {"add": _add, "rename": _rename, "leave_out": _leave_out, "take_up": _take_up}


def _told(kinds: tuple[LineKind, ...], tonight: date) -> str:
    """The kinds in their order: laid out in a terminal, in a pipe a row each."""
    if not sys.stdout.isatty():
        return "\n".join("\t".join(_fields(kind)) for kind in kinds)
    return "\n".join(shown.wrapped(", ".join([kind.title, *filter(None, _facts(kind, tonight))]), "", "    ") for kind in kinds)


def _fields(kind: LineKind) -> tuple[str, ...]:
    ends = (one.isoformat() if one else "" for one in (kind.began, kind.ended))
    return (shown.one_row(kind.title), *ends, "" if kind.in_themes else "out of themes", shown.one_row(kind.prompt))


def _facts(kind: LineKind, tonight: date) -> tuple[str, ...]:
    since = f"from {written.full_date(kind.began)}" if kind.began else ""
    until = f"until {written.full_date(kind.ended)}" if kind.ended and tonight <= kind.ended else ""
    out = "left out" if kind.ended and kind.ended < tonight else ""
    return since, until, out, "" if kind.in_themes else "out of themes"
