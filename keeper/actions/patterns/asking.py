"""Asking what goes with what: kept, and asked anew only of columns that changed since."""

import json
from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import asdict, dataclass
from datetime import timedelta
from hashlib import blake2b
from math import nan
from struct import pack

from keeper.actions.apart import Progress, apart
from keeper.actions.patterns.columns import Columns, candidates, columns
from keeper.clock import Clock
from keeper.errors import UnknownThing
from keeper.model import Act
from keeper.review.patterns import told as plain
from keeper.review.patterns.candidates import READING, RHYTHMS, Candidate
from keeper.review.patterns.told import AskingTold
from keeper.store import Store
from keeper.store.patterns import decided, found
from keeper.store.patterns.decided import Question
from keeper.store.themes import found as themes
from keeper.study.patterns.pattern import Answer

LAGS = (0, 1, 2)
"""The nights between first and second that are asked of."""

FORM = 1
"""Of the engine and of what it gives; another one, and all is asked anew."""


def questions(chosen: Iterable[Candidate]) -> int:
    """How many questions these ask, at most: each ordered pair at each lag, at lag 0 once, and each column for each rhythm."""
    its = list(chosen)
    rhythms = sum(one.kind in RHYTHMS for one in its)
    many = len(its) - rhythms
    return many * (many - 1) * (len(LAGS) - 1) + many * (many - 1) // 2 + many * rhythms


def taking_part(store: Store) -> tuple[Candidate, ...]:
    """What takes part: what the person picked; before that all readings that are noted."""
    known = candidates(store)
    picked = set(decided.picked(store))
    if not picked:
        return tuple(one for one in known if one.tracker and one.tracker.ended is None)
    # What was picked before a reading ended and was taken up again may go by either.
    return tuple(one for one in known if not picked.isdisjoint({one.key, *(f"{READING}:{part.id}" for part in one.trackers)}))


def pick(store: Store, keys: Iterable[str]) -> None:
    """Let these take part, in the order in which they are listed. Raises UnknownThing for what is not there, or for nothing."""
    wanted, known = set(keys), [one.key for one in candidates(store)]
    if not wanted or wanted - set(known):
        raise UnknownThing("What is to take part is no longer there." if wanted else "Something has to take part.")
    decided.pick(store, [key for key in known if key in wanted], Act("What takes part in patterns", "patterns"))


def last_asking(store: Store) -> AskingTold | None:
    """What was told last; None before the first asking, or where it was kept by another form of this."""
    try:
        told = json.loads(found.told(store) or "null")
        return plain.from_plain(told["asking"]) if told and told["form"] == FORM else None
    except (ValueError, TypeError, KeyError):
        return None


def ask_apart(store: Store, clock: Clock, progress: Progress, stopped: Callable[[], bool]) -> AskingTold:
    """``ask`` in a process of its own; nothing at all where nothing was done since the last asking. Raises Stopped."""
    last = last_asking(store)
    if last and last.state == _state(store):
        return last
    return apart(store, ask, clock, progress=progress, stopped=stopped)


def ask(store: Store, clock: Clock, progress: Progress = lambda *_: None, stopped: Callable[[], bool] = lambda: False) -> AskingTold:
    """Ask all questions of what takes part whose columns changed, and set all answers among each other; kept.

    Raises Stopped between two columns, and CannotWrite; then the last asking stays.
    """
    state, chosen = _state(store), taking_part(store)
    progress(0.0, "reading what was noted")
    its, same_form = columns(store, chosen), last_asking(store) is not None
    prints = {key: _fingerprint(its, key) for key in its.values}
    before = found.fingerprints(store) if same_form else {}
    changed = {key for key in {*before, *prints} if before.get(key) != prints.get(key)}
    old = {question: answer for question, answer in found.answers(store).items() if not {*question[:2]} & changed} if same_form else {}
    asking, anew = _asked(its, chosen, changed, old, _Told(clock, state, progress))
    told = json.dumps({"form": FORM, "asking": plain.as_plain(asking)})
    found.keep(store, told, prints, anew, changed if same_form else {*prints, *found.fingerprints(store)})
    return asking


def ask_among(store: Store, clock: Clock, chosen: Collection[Candidate], progress: Progress = lambda *_: None) -> AskingTold:
    """Ask of these, and keep nothing."""
    its = columns(store, chosen)
    return _asked(its, chosen, set(its.values), {}, _Told(clock, "", progress))[0]


@dataclass(frozen=True)
class _Told:
    """What is known of an asking before it."""

    clock: Clock
    state: str
    progress: Progress


def _asked(
    its: Columns, chosen: Collection[Candidate], changed: set[str], old: Mapping[Question, str], of: _Told
) -> tuple[AskingTold, dict[Question, str]]:
    """What is told, and the answers that are new."""
    rhythms = sorted(one.kind for one in chosen if one.kind in RHYTHMS)
    anew = _answered(its, changed, rhythms, old, of.progress)
    # Of a rhythm that takes part no longer, answers are kept, for when it does again.
    every = {question: answer for question, answer in {**old, **anew}.items() if question[1] not in RHYTHMS or question[1] in rhythms}
    night = of.clock.now().date().isoformat()
    return _set_together(its, every, {one.key: one for one in chosen}, night, of.state), anew


def _answered(
    its: Columns, changed: set[str], rhythms: list[str], old: Mapping[Question, str], progress: Progress
) -> dict[Question, str]:
    """The answers to all questions with a changed column in them, as they are kept, and of rhythms that are new."""
    # They bring numpy along.
    from keeper.study.patterns.finding import answers
    from keeper.study.patterns.waves import waves

    among = changed & its.values.keys()
    its_answers = answers(its.values, its.marks, LAGS, among, lambda share: progress(0.05 + 0.85 * share, "asking")) if among else ()
    anew = {(one.first, one.second, one.lag): json.dumps(asdict(one)) for one in its_answers}
    for rhythm in rhythms:
        alone = {key: values for key, values in its.values.items() if (key, rhythm, 0) not in old}
        anew |= {(one.name, rhythm, 0): json.dumps(asdict(one)) for one in waves(alone, its.marks & alone.keys(), (rhythm,))}
    return anew


def _set_together(
    its: Columns, every: Mapping[Question, str], known: Mapping[str, Candidate], night: str, state: str
) -> AskingTold:
    from keeper.actions.patterns.telling import patterns_told
    from keeper.study.patterns.finding import told
    from keeper.study.patterns.waves import Wave

    of_pairs = [_answer(answer) for (_, second, _), answer in every.items() if second not in RHYTHMS]
    of_waves = [Wave(**json.loads(answer)) for (_, second, _), answer in every.items() if second in RHYTHMS]
    patterns, qs = told(of_pairs, [one.p for one in of_waves])
    noted = {key: sum(value is not None for value in its.values[key]) for key in known if key in its.values}
    nights = max(map(len, its.values.values()), default=0)
    last = its.first + timedelta(days=nights - 1) if nights else its.first
    its_told, moved = patterns_told(patterns, list(zip(of_waves, qs, strict=True)), its, known)
    return AskingTold(
        night, its.first.isoformat() if nights else "", last.isoformat() if nights else "", len(of_pairs) + len(of_waves),
        tuple((key, noted.get(key, 0)) for key in known), its_told, moved, state,
    )  # fmt: skip


def _answer(kept_as: str) -> Answer:
    told = json.loads(kept_as)
    return Answer(**{**told, "measure": plain.measure(told["measure"])})


def _fingerprint(its: Columns, key: str) -> str:
    """Of what is in a column, wherever the others begin and end."""
    values = its.values[key]
    noted = [day for day, value in enumerate(values) if value is not None]
    within = values[noted[0] : noted[-1] + 1]
    packed = pack(f"{len(within)}d", *(nan if value is None else value for value in within))
    first = (its.first + timedelta(days=noted[0])).isoformat()
    return blake2b(f"{FORM} {first} {key in its.marks} ".encode() + packed, digest_size=16).hexdigest()


def _state(store: Store) -> str:
    """A word that is another one as soon as anything was done, or themes were found anew."""
    build = themes.build(store)
    return f"{found.changes(store)} {build.id if build else ''} {build.lines if build else 0}"
