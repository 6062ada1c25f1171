"""The page of patterns, put together from the last asking and what the person decided."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from keeper.actions.patterns.asking import last_asking, questions, taking_part
from keeper.actions.patterns.columns import candidates, columns
from keeper.dates import written
from keeper.errors import UnknownThing
from keeper.review.patterns import whole
from keeper.review.patterns.candidates import RHYTHMS, Candidate
from keeper.review.patterns.sentences import sentence, small
from keeper.review.patterns.told import PatternTold
from keeper.review.patterns.whole import Due, PatternsView, Shown
from keeper.store import Store
from keeper.store.patterns import decided as kept_decided
from keeper.store.patterns.decided import Decision, Question

if TYPE_CHECKING:
    from keeper.review.patterns.chart import PatternChart


def patterns_view(store: Store) -> PatternsView:
    """What the last asking told, as it is shown; what is gone or rests since is not shown."""
    known = {one.key: one for one in candidates(store)}
    asking, decided = last_asking(store), kept_decided.decisions(store)
    standing, moved = whole.parted(asking)
    standing, moved = (tuple(one for one in its if {one.first, one.second} <= known.keys()) for its in (standing, moved))
    away = {frozenset(question[:2]) for question, one in decided.items() if one.put_away}
    told, put_away = ([one for one in standing if (_pair(one) in away) == is_away] for is_away in (False, True))
    taking, due = taking_part(store), kept_decided.due(store)
    watched = {question: _watched(one.watched_nights, question in due) for question, one in decided.items() if one.watched_nights}
    return PatternsView(
        asking is not None, whole.standing(asking, len(standing)), _shown(told, known, watched),
        _shown([one for one in moved if _pair(one) not in away], known, watched),
        _shown([*put_away, *(one for one in moved if _pair(one) in away)], known, watched),
        tuple(_due(question, decided[question], standing, known) for question in due), taking, questions(taking),
        whole.what_was_asked(asking, known), any(one.of_the_body for one in taking), asking.moved if asking else 0,
    )  # fmt: skip


def _pair(told: PatternTold) -> frozenset[str]:
    return frozenset((told.first, told.second))


def _shown(its: list[PatternTold], known: Mapping[str, Candidate], watched: Mapping[Question, str]) -> tuple[Shown, ...]:
    return tuple(Shown(one, sentence(one, known), small(one, known), watched.get(one.question, "")) for one in its)


def _watched(many: int, is_due: bool) -> str:
    are_in = f"{written.counted(many, 'night')} more {'is' if many == 1 else 'are'} in"
    return f"An eye was kept on it; {are_in}." if is_due else f"An eye is kept on it until {are_in}."


def _due(question: Question, decision: Decision, standing: tuple[PatternTold, ...], known: Mapping[str, Candidate]) -> Due:
    its = [one for one in standing if {one.first, one.second} == {*question[:2]}]
    now = next((sentence(one, known) for one in (*(one for one in its if one.question == question), *its)), "")
    told = whole.then_and_now(decision.watched_told, now, decision.watched_nights)
    return Due(question, told, decision.watched_told, now)


def pattern_chart(store: Store, told: PatternTold) -> "PatternChart":
    """The chart of a pattern. Raises UnknownThing where what it is of has gone."""
    known = {one.key: one for one in candidates(store)}
    wanted = [known[key] for key in (told.first, told.second) if key in known]
    its = columns(store, [one for one in wanted if one.kind not in RHYTHMS])
    needed = {key for key in (told.first, told.second) if key not in RHYTHMS}
    if len(wanted) < 2 or not needed <= its.values.keys():
        raise UnknownThing("What this pattern is of is no longer there.")
    # Brought in with the first chart only.
    from keeper.review.patterns.chart import chart_of

    return chart_of(told, its.first, {key: its.values[key] for key in needed}, known)

