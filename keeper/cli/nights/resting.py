"""Resting on the command line: a night's lines, a span of nights, or a person."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

import click

from keeper.actions import people, resting, writing
from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.typed import DATE, KIND, WORDS
from keeper.dates import written
from keeper.model import Person


@dataclass(frozen=True)
class Asked:
    """What was typed: a night, with a kind perhaps, or both ends of a span, or a name."""

    night: str | None
    kind: str | None
    first: str | None
    last: str | None
    person: str | None

    def __post_init__(self) -> None:
        ways = (self.night is not None, not (self.first is None and self.last is None), self.person is not None)
        if sum(ways) != 1:
            raise click.UsageError("Name one thing: a DATE, a span (--from, --until) or a --person.")
        if ways[1] and (self.first is None or self.last is None):
            raise click.UsageError("A span has two ends: --from DATE and --until DATE.")
        if self.kind and not ways[0]:
            raise click.UsageError("--kind is for the lines of one night.")


def _asked(command: Callable) -> Callable:
    """The argument and options that both verbs have."""
    for option in (
        click.option("--person", metavar="NAME", type=WORDS, help="Whatever speaks of this person."),
        click.option("--until", "last", metavar="DATE", type=DATE, help="The last night of a span, or its month."),
        click.option("--from", "first", metavar="DATE", type=DATE, help="The first night of a span, or its month."),
        click.option("--kind", type=KIND, help="Only the line of this kind."),
        click.argument("night", metavar="[DATE]", required=False, type=DATE),
    ):
        command = option(command)
    return command


@click.command(short_help="Let a night's lines, a span of nights or a person rest.")
@_asked
@click.pass_obj
def rest(named: NamedKeeper, **wanted: str | None) -> None:
    """Let a night's lines rest: not brought up again, but still found.

    Or all nights of a span (--from, --until), or whatever speaks of a person
    (--person); a name that was not marked before is marked.
    """
    telling.done(_rest(named, Asked(**wanted)))


@click.command(short_help="Let what rests be brought up again.")
@_asked
@click.pass_obj
def wake(named: NamedKeeper, **wanted: str | None) -> None:
    """Let a night's resting lines, a span or a person be brought up again.

    A span is woken by the same ends with which it was let rest.
    """
    telling.done(_wake(named, Asked(**wanted)))


def _rest(named: NamedKeeper, wanted: Asked) -> str:
    """Let it rest, and the sentence that says so. Raises UnknownThing, UnreadableDate."""
    return f"Resting: {_done(named, wanted, _rest_lines, resting.rest_span, _rest_person)}"


def _wake(named: NamedKeeper, wanted: Asked) -> str:
    """Let it be brought up again, and the sentence that says so. Raises UnknownThing, UnreadableDate."""
    return f"Awake: {_done(named, wanted, _wake_lines, resting.wake_span, _wake_person)}"


def _done(named: NamedKeeper, wanted: Asked, to_lines: Callable, to_span: Callable, to_person: Callable) -> str:
    if wanted.person is not None:
        person, lines = to_person(named, wanted.person)
        return shown.wrapped(f"{person.name} ({written.counted(lines, 'line')}).")
    if wanted.night is None:
        first, last = named.span(wanted.first, wanted.last)
        to_span(named.store, first, last)
        return f"{written.long_date(first)} to {written.long_date(last)}."
    night = named.night(wanted.night)
    to_lines(named, night, wanted.kind)
    return f"{written.long_date(night)}."


def _rest_lines(named: NamedKeeper, night: date, kind: str | None) -> None:
    """Let the night's lines rest. Raises UnknownThing when there are none."""
    with named.store.going_on(None):
        for line in named.lines_of(night, kind):
            writing.rest_line(named.store, line.id)


def _wake_lines(named: NamedKeeper, night: date, kind: str | None) -> None:
    """Let the night's lines be brought up again. Raises UnknownThing when there are none."""
    with named.store.going_on(None):
        for line in named.lines_of(night, kind):
            writing.wake_line(named.store, line.id)


def _rest_person(named: NamedKeeper, name: str) -> tuple[Person, int]:
    """Let a person rest, marked first if need be; how many lines name them.

    Raises UnknownThing for a name that is neither marked nor in any line.
    """
    person = people.rest_by_name(named.store, name)
    return person, people.lines_naming(named.store, person)


def _wake_person(named: NamedKeeper, name: str) -> tuple[Person, int]:
    """Let a person be brought up again; how many lines name them. Raises UnknownThing."""
    person = people.wake_by_name(named.store, name)
    return person, people.lines_naming(named.store, person)
