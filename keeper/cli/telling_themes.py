"""Themes on the command line: looking for them when that is due, and telling them."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import click

from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.cli.telling import DONE, WRONG
from keeper.dates import written

if TYPE_CHECKING:
    from collections.abc import Callable

    from keeper.review.themes import ThemesView, Thread


@click.command(short_help="List the themes: what keeps coming back.")
@click.option("--again", is_flag=True, help="Look for the themes again, even if that is not due.")
@click.option("--begin", "begun", metavar="NAME", help="Begin a theme; its words are said with --words.")
@click.option("--words", metavar="WORDS", help="The words by which a theme begins, with commas or spaces between.")
@click.option("--ask", "asked", metavar="NAME", help="Be asked about the lines least sure of a theme that you began.")
@click.pass_obj
def themes(named: NamedKeeper, again: bool, begun: str | None, words: str | None, asked: str | None) -> int:
    """List the themes: how many lines, since when, when last.

    In a pipe each is one row: name, lines, nights, first and last night, and
    growing or fading, with tabs between. Returns 1 when there are none.
    """
    if words and not begun:
        raise click.UsageError("--words goes with --begin NAME.")
    if begun or asked:
        from keeper.cli import beginning_themes as beginning

        return beginning.begin(named, begun, words or "") if begun else beginning.ask(named, asked)
    return DONE if _look_and_tell(named, again) else WRONG


def _look_and_tell(named: NamedKeeper, again: bool) -> bool:
    """Look for the themes if need be, and tell them; whether there are any."""
    view = _looked_for(named, again, _progress if sys.stderr.isatty() else lambda *_: None)
    if not view.threads:
        telling.aside(_why_none(view))
        return False
    click.echo(_laid_out(view) if sys.stdout.isatty() else _rows(view))
    return True


def _looked_for(named: NamedKeeper, again: bool, progress: Callable[[float, str], None]) -> ThemesView:
    """The themes, looked for first where that is due or asked for."""
    from keeper.actions.themes import asking as themes

    # Of a keeper that can only be read, what was found before is told.
    if again or not named.store.only_read:
        act = themes.rebuild_themes if again else themes.look_again
        act(named.store, named.clock, progress)
    return themes.themes_view(named.store)


def _progress(share: float, words: str) -> None:
    # The rest of the row is blanked: an earlier word may have been longer.
    click.echo(f"\r{'' if share == 1 else words:40}\r", nl=False, err=True)


def _why_none(view: ThemesView) -> str:
    if view.enough:
        return "No theme stands out from chance yet."
    from keeper.actions.themes.asking import ENOUGH
    from keeper.review.themes import TOO_LITTLE_IN_COMMON

    if view.kept >= ENOUGH:
        return TOO_LITTLE_IN_COMMON
    return "Not enough yet to tell what keeps coming back."


def _laid_out(view: ThemesView) -> str:
    from keeper.review.themes import standing_out

    parts = [f"{shown.wrapped(_name(one))}\n{shown.wrapped(_facts(one), '    ', '    ')}" for one in view.threads]
    return "\n".join([*parts, f"Lines in no theme: {written.number(view.loose)}. The themes are {standing_out(view.sure)}."])


def _name(thread: Thread) -> str:
    return f"{thread.name} (pinned)" if thread.pinned else thread.name


def _facts(thread: Thread) -> str:
    parts = [written.counted(thread.lines, "line"), f"since {written.month_and_year(thread.first)}"]
    parts += [f"last on {thread.last.isoformat()}", thread.change.word if thread.change else ""]
    return ", ".join(part for part in parts if part)


def _rows(view: ThemesView) -> str:
    return "\n".join(
        "\t".join((shown.one_row(one.name), str(one.lines), str(one.nights), one.first.isoformat(), one.last.isoformat(),
                   one.change.word if one.change else ""))
        for one in view.threads
    )  # fmt: skip
