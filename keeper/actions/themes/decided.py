"""The person's decisions about themes, from rows to what the study understands."""

import hashlib
from collections.abc import Iterable, Sequence
from dataclasses import asdict, replace

from keeper.store.themes.decisions import KeptDecision
from keeper.study.themes.nouns import Begin, Decision, Merge, Move, Pin, Rename, Split, Start, TakeOut

KINDS: dict[str, type] = {
    "merge": Merge, "split": Split, "move": Move, "take out": TakeOut, "pin": Pin, "start": Start, "rename": Rename, "begin": Begin,
}  # fmt: skip

UNPIN, UNNAME, LEAVE_OUT, LET_IN, ANSWER = "unpin", "unname", "leave out", "let in", "answer"
"""Decisions of which the study hears only the effect."""

YES, NO, SKIPPED = "yes", "no", "skipped"
"""What may be answered when the person is asked whether a line belongs to a theme they began."""

_WHAT = {kind: what for what, kind in KINDS.items()}


def as_row(decision: Decision) -> tuple[str, dict]:
    """What a decision is, and its detail, as they are kept."""
    return _WHAT[type(decision)], asdict(decision)


def _read(kept: KeptDecision) -> Decision:
    told = {name: value for name, value in kept.detail.items() if not name.startswith("_")}
    detail = {name: tuple(value) if isinstance(value, list) else value for name, value in told.items()}
    return KINDS[kept.what](**detail)


def decided_so_far(standing: Iterable[KeptDecision]) -> tuple[Decision, ...]:
    """The decisions in force, in order: a pin or a name that was taken back is not among them.

    ValueError for an answer that is none.
    """
    taken_back = {UNPIN: Pin, UNNAME: Rename}
    found: list[Decision] = []
    for kept in standing:
        if kept.what in KINDS:
            found.append(_read(kept))
        elif kept.what in taken_back:
            gone, theme = taken_back[kept.what], kept.detail["theme"]
            found = [one for one in found if not (isinstance(one, gone) and one.theme == theme)]
        elif kept.what == ANSWER:
            theme, line, says = kept.detail["theme"], kept.detail["line"], kept.detail["says"]
            if says not in (YES, NO, SKIPPED):
                raise ValueError(says)
            found = [_answered(one, line, says) if isinstance(one, Begin) and one.theme == theme else one for one in found]
    return tuple(found)


def _answered(begin: Begin, line: str, says: str) -> Begin:
    """The theme begun with an answer about a line; the later answer counts."""
    parts = {name: tuple(one for one in getattr(begin, name) if one != line) for name in (YES, NO, SKIPPED)}
    return replace(begin, **{**parts, says: (*parts[says], line)})


def left_out(standing: Iterable[KeptDecision]) -> tuple[str, ...]:
    """The words that say nothing of a theme, by the person's word."""
    words: dict[str, None] = {}
    for kept in standing:
        if kept.what == LEAVE_OUT:
            words[kept.detail["word"]] = None
        elif kept.what == LET_IN:
            words.pop(kept.detail["word"], None)
    return tuple(sorted(words))


def mark_of(standing: Iterable[KeptDecision]) -> str:
    """A short mark that is another one when other decisions stand."""
    ids = [kept.id for kept in standing if kept.what not in (LEAVE_OUT, LET_IN)]
    return hashlib.sha256("\n".join(ids).encode()).hexdigest()[:16]


def lines_named(decisions: Iterable[Decision]) -> set[str]:
    """The ids of all lines that a decision puts somewhere."""
    return {line for decision in decisions for line in _named(decision)}


def _named(decision: Decision) -> Sequence[str]:
    if isinstance(decision, Move):
        return (decision.line,)
    if isinstance(decision, Split):
        return decision.go
    if isinstance(decision, Begin):
        return (*decision.lines, *decision.yes)
    return decision.lines if isinstance(decision, Start) else ()
