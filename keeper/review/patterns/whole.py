"""The page of patterns: how matters stand, the sentences, what was asked and how, and the cautions."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from keeper.dates import written
from keeper.review.patterns.candidates import Candidate
from keeper.review.patterns.told import MOVED, AskingTold, PatternTold

STRONGER_AT_FIRST = "What stands out first tends to look stronger than it is: a pattern met a second time is worth more."

NO_CAUSE = (
    "A pattern is no cause: two things may go together because a third moves both, or by the way one lives. "
    "A fair try tells more."
)

METHOD = (
    "Every pair was asked on the same night, one evening later and two evenings later, each once. Readings are set in order "
    "(normal scores of their ranks); season and slow drift (the mean of 91 nights) and the day of the week are taken out, and so "
    "is what the two nights before let expect (Cochrane & Orcutt 1949), since a night resembles its neighbours.",
    "What is left is held against all orders it could have come in (Pearson\u2019s type III; where a mark comes in clusters, White "
    "1980). Among so many questions chance alone would answer some; so a pattern is told only where, of all that is told, "
    "about 5 % may be chance (Benjamini & Hochberg 1995).",
    "A reading is told of by the fifth of its nights to one side, wherever that lies. \u201cTypically\u201d is a difference of medians, \u201con average\u201d one "
    "of means, where medians are too coarse (Welch 1947); of marks it is told how many times as often (Katz and others 1978); \u201cbetween\u201d is where "
    "they lie in 95 % of cases, wider where nights resemble each other (Bartlett 1946; Pyper & Peterman 1998). What is likely to "
    "be met again allows for having been picked (Zhong & Prentice 2008). The day of the week is asked by an F-test, the season by whether several "
    "years swing one way (Hotelling 1931).",
    "What works over months only is not seen, nor what is not of one direction, such as too little and too much alike.",
)
"""How it is asked, in words."""


@dataclass(frozen=True)
class Shown:
    """A pattern on the page: its sentence, what stands small below, and how it is known."""

    told: PatternTold
    sentence: str
    small: str
    watched: str = ""


@dataclass(frozen=True)
class PatternsView:
    """The page.

    ``asked``: whether anything was asked yet. ``standing``: one sentence on the whole. ``told``: what stands out, strongest
    first; ``moved``: the plainest of what a rhythm moves, of ``moved_of``; ``put_away``: what was put away. ``due``: sentences on what an eye was kept on.
    ``taking``: what takes part, ``questions``: how many questions that is at most; ``was``: what was asked, in rows.
    """

    asked: bool
    standing: str
    told: tuple[Shown, ...]
    moved: tuple[Shown, ...]
    put_away: tuple[Shown, ...]
    due: tuple["Due", ...]
    taking: tuple[Candidate, ...]
    questions: int
    was: tuple[str, ...]
    of_the_body: bool
    moved_of: int = 0


@dataclass(frozen=True)
class Due:
    """Something an eye was kept on, as many nights later as was wanted."""

    question: tuple[str, str, int]
    sentence: str
    then: str
    now: str


def standing(asking: AskingTold | None, told: int) -> str:
    """How many questions were asked, and how many answers stand out."""
    if asking is None:
        return "Nothing was asked yet."
    if not asking.questions:
        return "There are not enough nights yet to ask anything: 40 nights noted of both, and 20 on either side of a mark."
    among = f"Among {written.counted(asking.questions, 'question')}"
    if not told:
        return f"{among} nothing stands out from chance."
    return f"{among} {'one answer stands' if told == 1 else written.number(told) + ' answers stand'} out from chance."


def what_was_asked(asking: AskingTold | None, known: Mapping[str, Candidate]) -> tuple[str, ...]:
    """Rows on what was asked: when, over which nights, of what."""
    if asking is None or not asking.columns:
        return ()
    its = [f"{known[key].name} ({written.counted(nights, 'night')})" for key, nights in asking.columns if key in known and nights]
    rhythms = [known[key].name for key, nights in asking.columns if key in known and not nights]
    when = f"Asked on {written.full_date(date.fromisoformat(asking.night))}"
    if asking.first:
        when += f", over the nights of {written.span(date.fromisoformat(asking.first), date.fromisoformat(asking.last))}"
    rows = [f"{when}: {written.counted(asking.questions, 'question')}."]
    rows.append(f"What took part: {', '.join([*its, *rhythms])}.")
    return tuple(rows)


def parted(asking: AskingTold | None) -> tuple[tuple[PatternTold, ...], tuple[PatternTold, ...]]:
    """What stands out, and what is only moved by a rhythm."""
    told = asking.told if asking else ()
    return tuple(one for one in told if one.kind != MOVED), tuple(one for one in told if one.kind == MOVED)


def then_and_now(then: str, now: str, nights: int) -> str:
    """What was told when an eye began to be kept on something, and what is now."""
    in_now = f"{written.counted(nights, 'night')} more {'is' if nights == 1 else 'are'} in."
    if then == now:
        return f"{in_now} Then as now: {now}"
    return f"{in_now} Then: {then} {f'Now: {now}' if now else 'Now it no longer stands out from chance.'}"
