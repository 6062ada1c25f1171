"""Patterns as sentences: people's words for sides, lags, differences and rhythms, each with the nights behind it."""

import math
from collections.abc import Mapping

from keeper.dates import written
from keeper.review.patterns.candidates import Candidate
from keeper.review.patterns.told import LINK, MOVED, PatternTold
from keeper.study.patterns.pattern import BELOW, DRIFT, MEANS, RISKS, SEASON, WEEKDAY, YES, Cut, Measure

Known = Mapping[str, Candidate]
"""Candidates by their keys."""

LATER = {0: "", 1: " the next evening", 2: " two evenings later"}

_EXACT = 1e-9
_MOST_PLACES = 4


def sentence(told: PatternTold, known: Known) -> str:
    """The one sentence that says it."""
    first = known[told.first]
    if told.kind == MOVED:
        return _moved(told, first, known[told.second])
    if told.kind != LINK:
        return _wave(told, first)
    second = known[told.second]
    if told.hidden or told.contrast is None or _tells_nothing(told.contrast):
        return _ranks(told, first, second)
    return _risk(told, first, second) if told.contrast.kind == RISKS else _difference(told, first, second)


def small(told: PatternTold, known: Known) -> str:
    """What stands small below it: the nights, what is likely to be met again, and when else it shows."""
    parts = [f"From {written.counted(told.nights, 'night')}."]
    if told.kind == LINK and told.share < 0.95:
        parts.append(f"What is met again is likely to be about {written.percent(told.share)} of this.")
    if told.also:
        parts.append(f"It shows {_listed([lag_words(lag) for lag in told.also])} too.")
    return " ".join(parts)


def lag_words(lag: int) -> str:
    """When the second comes, after the first."""
    return (LATER[lag].strip() or "on the same night") if lag in LATER else f"{written.number(lag)} evenings later"


def side(cut: Cut, candidate: Candidate) -> str:
    """After "the 41 nights ": which nights of it are told of."""
    if cut.side == YES:
        return candidate.with_it
    if candidate.tracker and candidate.tracker.form == "hours":
        return f"of {f'under {_clock(cut.beyond)} of {candidate.name}' if cut.side == BELOW else f'{_clock(cut.at)} of {candidate.name} or more'}"
    unit = f" {candidate.tracker.unit}" if candidate.tracker and candidate.tracker.unit else ""
    return f"with {candidate.name} at {written.shortest(cut.at)}{unit} or {'less' if cut.side == BELOW else 'more'}"


def _clock(hours: float) -> str:
    minutes = round(hours * 60)
    if minutes % 60:
        return f"{minutes // 60}:{minutes % 60:02} hours"
    return written.counted(minutes // 60, "hour")


def _where(told: PatternTold, first: Candidate) -> tuple[str, str, str]:
    """Such as "After", "the 41 nights of under 6 hours of sleep", "212 others"."""
    of, others = told.contrast.with_mark, told.contrast.without
    return (
        "After" if told.lag else "On", f"the {written.counted(of.nights, 'night')} {side(told.cut, first)}",
        f"{written.counted(others.nights, 'other')}",
    )  # fmt: skip


def _later(lag: int) -> str:
    return LATER.get(lag, f" {written.number(lag)} evenings later")


def _difference(told: PatternTold, first: Candidate, second: Candidate) -> str:
    when, nights, others = _where(told, first)
    measured = told.contrast
    # Medians are what is typical.
    of_what = "on average" if measured.kind == MEANS else "typically"
    lower = measured.value < 0
    value, near, far = (abs(one) for one in (measured.value, *((measured.high, measured.low) if lower else (measured.low, measured.high))))
    places = _places(value, near, far)
    told_as = f"{of_what} {amount(value, second, places)} {_more(lower, second)} (between {_between(near, far, second, places)})"
    return f"{when} {nights}, {second.noun}{_later(told.lag)} was {told_as} than {when.lower()} {others}."


def _more(lower: bool, second: Candidate) -> str:
    form = second.tracker.form if second.tracker else ""
    if form == "hours":
        return "shorter" if lower else "longer"
    return ("less" if lower else "more") if form in ("count", "amount") else ("lower" if lower else "higher")


def _places(*values: float) -> int:
    """So many decimals that none of them becomes nothing: one, or more where they are small."""
    least = min((value for value in values if value > _EXACT), default=1.0)
    return min(max(1, math.ceil(-math.log10(least))), _MOST_PLACES)


def amount(value: float, of: Candidate, places: int = 1) -> str:
    """How much of a difference, with its unit."""
    form = of.tracker.form if of.tracker else ""
    if form == "hours":
        return _span(value)
    unit = f" {of.tracker.unit}" if form in ("count", "amount") and of.tracker.unit else ""
    return f"{written.shortest(value, places)}{unit}"


def _between(near: float, far: float, of: Candidate, places: int) -> str:
    if not of.tracker or of.tracker.form != "hours":
        return f"{written.shortest(near, places)} and {written.shortest(far, places)}"
    ends = [_span(near), _span(far)]
    # The same unit once, behind the second.
    unit = ends[1].rpartition(" ")[2]
    return f"{ends[0].removesuffix(f' {unit}')} and {ends[1]}"


def _span(hours: float) -> str:
    minutes = round(hours * 60)
    if minutes < 60:
        return written.counted(minutes, "minute")
    return _clock(hours)


def _risk(told: PatternTold, first: Candidate, second: Candidate) -> str:
    when, nights, others = _where(told, first)
    of, rest = told.contrast.with_mark, told.contrast.without
    hits, other_hits = (round(one.value * one.nights) for one in (of, rest))
    came = f"{second.came[0]}{_later(told.lag)}"
    if not hits:
        return f"{when} none of {nights}, {came}; {when.lower()} {written.number(other_hits)} of {others} {second.came[1]}."
    if not other_hits:
        return f"{when} {written.number(hits)} of {nights}, {came}; {when.lower()} none of {others}."
    measured = told.contrast
    between = f"(between {_times(measured.low)} and {_times(measured.high)})"
    return f"{when} {written.number(hits)} of {nights}, {came}: {_times(measured.value)} times as often {between} as {when.lower()} {others}."


def _times(value: float) -> str:
    return written.shortest(value, 1) if value < 10 else written.number(round(value))


def _tells_nothing(measured: Measure) -> bool:
    same = 1.0 if measured.kind == RISKS else 0.0
    return not (measured.low > same + _EXACT or measured.high < same - _EXACT)


def _ranks(told: PatternTold, first: Candidate, second: Candidate) -> str:
    value = told.within if told.hidden else told.strength
    degree = _degree(second, value > 0)
    goes = f"goes with {f'{second.noun} {degree}' if second.is_mark else f'{degree} {second.noun}'}{_later(told.lag)}"
    what = first.noun if first.is_mark else f"{_degree(first, True)} {first.noun}"
    if told.hidden:
        return (
            f"Within the seasons, {what} {goes} (rank correlation {_signed(value)}); over the whole record "
            "the season hides it."
        )
    between = f"between {_signed(told.low)} and {_signed(told.high)}"
    return f"{_capital(what)} {goes}, over {written.counted(told.nights, 'night')} (rank correlation {_signed(value)}, {between})."


def _signed(value: float) -> str:
    return written.shortest(value).replace("-", "\u2212")


def _degree(candidate: Candidate, up: bool) -> str:
    if candidate.is_mark:
        return "more often" if up else "less often"
    scale = candidate.tracker is not None and candidate.tracker.form == "scale"
    return ("higher" if up else "lower") if scale else ("more" if up else "less")


def _moved(told: PatternTold, first: Candidate, second: Candidate) -> str:
    both = f"{_capital(first.noun)} and {second.noun}"
    if told.rhythm == WEEKDAY:
        return f"{both} both follow the day of the week; beyond that they do not go together."
    if told.rhythm == DRIFT or 0 in told.peaks:
        return f"{both} both drift over the months; from night to night they do not go together."
    months = [written.MONTHS[month - 1] for month in told.peaks]
    if months[0] == months[1]:
        return f"{both} are both {_top(first, second)} around {months[0]}; within the seasons they do not go together."
    return (
        f"{_capital(first.noun)} is {_top(first)} around {months[0]}, {second.noun} around {months[1]}; within the seasons they do "
        "not go together."
    )


def _top(*its: Candidate) -> str:
    return "most often there" if all(one.is_mark for one in its) else "highest"


def _wave(told: PatternTold, first: Candidate) -> str:
    groups = [(group.value, place) for place, group in enumerate(told.groups) if group.nights]
    (low, at_low), (high, at_high) = min(groups), max(groups, key=lambda pair: (pair[0], -pair[1]))
    if told.rhythm == SEASON:
        name, most, least = "season", f"in {written.MONTHS[at_high]}", f"in {written.MONTHS[at_low]}"
    else:
        name, most, least = "day of the week", f"on {written.WEEKDAYS[at_high]}s", f"on {written.WEEKDAYS[at_low]}s"
    if first.is_mark:
        return f"{_capital(first.noun)} goes with the {name}: most often {most} ({written.percent(high)} of them), least {least} ({written.percent(low)})."
    return f"{_capital(first.noun)} goes with the {name}: highest {most} ({level(high, first)} on average), lowest {least} ({level(low, first)})."


def level(value: float, of: Candidate, places: int = 1) -> str:
    """A value of it, as it is noted."""
    if of.tracker and of.tracker.form == "hours":
        return _clock(value)
    unit = f" {of.tracker.unit}" if of.tracker and of.tracker.unit else ""
    return f"{written.shortest(value, places)}{unit}"


def _listed(words: list[str]) -> str:
    return f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else words[0]


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
