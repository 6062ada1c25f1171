"""What is done with the lines of a theme begun teaches it as answers do: taken out is "no", moved there is "yes"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from keeper.study.themes.nouns import Begin, Decision, Move, TakeOut


def taught(decisions: Sequence[Decision]) -> list[Decision]:
    """The same decisions; each theme begun with what was later said of its lines, of two sayings the last."""
    return [_with_later(one, decisions[at + 1 :]) if isinstance(one, Begin) else one for at, one in enumerate(decisions)]


def _with_later(begin: Begin, later: Sequence[Decision]) -> Begin:
    said = {one.line: isinstance(one, Move) for one in later if isinstance(one, Move | TakeOut) and one.theme == begin.theme}
    if not said:
        return begin
    yes = tuple(line for line in begin.yes if line not in said) + tuple(line for line, inside in said.items() if inside)
    no = tuple(line for line in begin.no if line not in said) + tuple(line for line, inside in said.items() if not inside)
    return replace(begin, yes=yes, no=no, skipped=tuple(line for line in begin.skipped if line not in said))
