"""The command that tells patterns: asked of what takes part, or of what is named."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import click

from keeper import cautions
from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.typed import WORDS

if TYPE_CHECKING:
    from keeper.review.patterns.candidates import Candidate
    from keeper.review.patterns.told import AskingTold, PatternTold


@click.command(short_help="Tell what goes with what, asked so that chance is not taken for it.", epilog=cautions.OF_THE_BODY)
@click.option("--among", "names", metavar="NAME", multiple=True, type=WORDS,
              help="Ask only of this; once for each reading, theme or person, and for weekday or season.")  # fmt: skip
@click.option("--list", "listed", is_flag=True, help="List what can take part.")
@click.option("--how", is_flag=True, help="Tell how it is asked.")
@click.pass_obj
def patterns(named: NamedKeeper, names: tuple[str, ...], listed: bool, how: bool) -> int:
    """Tell what goes with what, the strongest first, with the nights behind it.

    Without --among it is asked of what was chosen in the window (at first of
    all readings), and kept. In a pipe each is one row: what, with what, nights
    later, nights, strength, q and the sentence, with tabs between. Returns 1
    when nothing stands out.
    """
    if how:
        from keeper.review.patterns.whole import METHOD

        click.echo("\n".join(map(shown.wrapped, METHOD)))
        return 0
    known = {one.key: one for one in _candidates(named)}
    if listed:
        click.echo("\n".join(shown.one_row(one.name) for one in known.values()))
        return 0
    asking = _asked(named, names, known)
    return 0 if _tell(asking, known) else 1


def _candidates(named: NamedKeeper) -> tuple[Candidate, ...]:
    from keeper.actions.patterns.columns import candidates

    return candidates(named.store)


def _asked(named: NamedKeeper, names: tuple[str, ...], known: dict[str, Candidate]) -> AskingTold:
    from keeper.actions.patterns import asking, columns

    heard = _progress if sys.stderr.isatty() else lambda *_: None
    if not names:
        told = asking.ask(named.store, named.clock, heard)
    else:
        # Each once, however often it was named.
        chosen = {one.key: one for one in (columns.named(known.values(), name) for name in names)}
        if not asking.questions(chosen.values()):
            raise click.UsageError("One thing alone cannot be asked of: name another with --among, or weekday or season.")
        told = asking.ask_among(named.store, named.clock, list(chosen.values()), heard)
    heard(1.0, "")
    return told


def _progress(share: float, words: str) -> None:
    click.echo(f"\r{'' if share == 1 else words:40}\r", nl=False, err=True)


def _tell(asking: AskingTold, known: dict[str, Candidate]) -> bool:
    from keeper.review.patterns import whole

    told, moved = (tuple(one for one in its if {one.first, one.second} <= known.keys()) for its in whole.parted(asking))
    if sys.stdout.isatty():
        click.echo(_laid_out(asking, told, moved, known))
    else:
        telling.aside(whole.standing(asking, len(told)))
        if told or moved:
            click.echo("\n".join(_row(one, known) for one in (*told, *moved)))
        telling.aside(_cautions(asking, known))
    return bool(told)


def _laid_out(asking: AskingTold, told: tuple[PatternTold, ...], moved: tuple[PatternTold, ...], known: dict[str, Candidate]) -> str:
    from keeper.review.patterns import whole
    from keeper.review.patterns.sentences import sentence, small

    parts = [shown.wrapped(whole.standing(asking, len(told)))]
    parts += [f"{shown.wrapped(sentence(one, known))}\n{shown.wrapped(small(one, known), '    ', '    ')}" for one in (*told, *moved)]
    parts += [shown.wrapped(whole.STRONGER_AT_FIRST)] if told else []
    return "\n".join([*parts, _cautions(asking, known)])


def _cautions(asking: AskingTold, known: dict[str, Candidate]) -> str:
    from keeper.review.patterns import whole

    of_the_body = any(known[key].of_the_body for key, _ in asking.columns if key in known)
    return f"{shown.wrapped(whole.NO_CAUSE)}\n{shown.wrapped(cautions.under(of_the_body))}"


def _row(one: PatternTold, known: dict[str, Candidate]) -> str:
    from keeper.review.patterns.sentences import sentence

    names = (shown.one_row(known[key].name) for key in (one.first, one.second))
    numbers = (str(one.lag), str(one.nights), f"{one.strength:.3f}", f"{one.q:.3g}")
    return "\t".join((*names, *numbers, shown.one_row(sentence(one, known))))
