"""Themes that the person begins, on the command line: begun by words, and asked about line by line."""

from __future__ import annotations

import sys

import click

from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.telling import DONE, WRONG
from keeper.dates import written

_SAID = {"y": "yes", "yes": "yes", "n": "no", "no": "no", "s": "skipped", "skip": "skipped", "": "skipped"}


def begin(named: NamedKeeper, name: str, words: str) -> int:
    """Begin a theme by words, look for its lines, and tell how many there are."""
    from keeper.actions.themes import begun, making
    from keeper.actions.themes.asking import theme_view

    named.must_be_begun()
    number = begun.begin(named.store, name, (), begun.words_typed(words), named.clock)
    making.look_again(named.store, named.clock)
    lines = written.counted(theme_view(named.store, number).thread.lines, "line")
    asked = len(begun.asking(named.store, number).lines)
    more = f" keeper themes --ask \u201c{name}\u201d goes through those it is least sure of." if asked else ""
    telling.done(shown.wrapped(f"\u201c{name}\u201d is begun, with {lines} so far.{more}"))
    return DONE


def ask(named: NamedKeeper, name: str) -> int:
    """Ask about the lines least sure, one by one; each answer is kept at once."""
    from keeper.actions.themes import begun, making
    from keeper.actions.themes.asking import named as number_of
    from keeper.actions.themes.asking import theme_view

    named.must_be_begun()
    making.look_again(named.store, named.clock)
    number = number_of(named.store, name)
    asking = begun.asking(named.store, number)
    if not asking.lines:
        telling.aside(f"There is no line to ask about for \u201c{asking.name}\u201d.")
        return WRONG
    answered = 0
    for found in asking.lines[: begun.ROUND]:
        said = _said(f"{found.line.night.isoformat()}  {shown.one_row(found.line.text)}", asking.name)
        if said is None:
            break
        begun.answer(named.store, number, found.line.id, said, named.clock)
        answered += 1
    making.look_again(named.store, named.clock)
    lines = written.counted(theme_view(named.store, number).thread.lines, "line")
    telling.done(shown.wrapped(f"{written.counted(answered, 'answer')} kept. \u201c{asking.name}\u201d has {lines}."))
    return DONE


def _said(line: str, name: str) -> str | None:
    """What was answered; None when nobody answers any more."""
    click.echo(shown.wrapped(line))
    while True:
        click.echo(f"Does it belong to \u201c{name}\u201d? (y)es, (n)o, (s)kip, (q)uit: ", nl=False)
        typed = sys.stdin.readline()
        word = typed.strip().casefold()
        if not typed or word in ("q", "quit"):
            click.echo()
            return None
        if word in _SAID:
            return _SAID[word]
