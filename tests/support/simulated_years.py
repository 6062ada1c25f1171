"""Years of made-up readings in which nothing goes with anything, or one thing does.

Written after the engine's numbers were chosen on other years: other seeds, other shapes of course, season and cluster.
Every year has four readings ("first", "second", "third", "fourth") and five marks ("a" to "e"), 8 % of nights not noted.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from keeper.study.patterns import find_patterns

READINGS, MARKS = ("first", "second", "third", "fourth"), ("a", "b", "c", "d", "e")
NOT_NOTED = 0.08
YEAR = 365.2425
LATENT = {0.35: 0.383, 0.25: 0.275}
"""How the courses are linked for Spearman's correlation of the readings to be so on average: they are rounded when noted."""

Rng = np.random.Generator
Columns = dict[str, list[float | None]]


@dataclass(frozen=True)
class Tally:
    """Of simulated years: the share with a false alarm, the share in which the link was told, its correlation as noted,
    as told when it was told, and as it is likely to be met again (means)."""

    false_alarms: float
    found: float
    noted: float
    told: float
    likely: float


@dataclass(frozen=True)
class Kind:
    """How hard a year is: how its readings' courses run, and its marks."""

    course: Callable[[Rng, int], np.ndarray]
    mark: Callable[[Rng, int, float], np.ndarray]


def course_easy(rng: Rng, nights: int) -> np.ndarray:
    """Every night by itself."""
    return rng.standard_normal(nights)


def course_middle(rng: Rng, nights: int) -> np.ndarray:
    """As hard, but nights resemble the one before less (.3 to .6)."""
    return course_hard(rng, nights, (0.3, 0.6))


def course_hard(rng: Rng, nights: int, alike: tuple[float, float] = (0.6, 0.85)) -> np.ndarray:
    """Nights resemble the one before (.6 to .85); a yearly wave, not quite a sine; a drift over the whole."""
    likeness = rng.uniform(*alike)
    season = rng.choice([-1, 1]) * rng.uniform(0.3, 1) * yearly(nights, rng.normal(0, 20))
    drift = rng.normal(0, 0.4) * np.linspace(-1, 1, nights)
    return standardised(running_on(rng, nights, likeness) + season + drift)


def yearly(nights: int, shift: float = 0) -> np.ndarray:
    """A wave with a long low and a short high, the same for all columns but for some days."""
    turn = 2 * np.pi * (np.arange(nights) - shift) / YEAR
    return np.cos(turn) + 0.3 * np.cos(2 * turn)


def running_on(rng: Rng, nights: int, likeness: float) -> np.ndarray:
    """A course of variance 1 whose nights resemble the one before; now and then with a jolt."""
    steps = rng.standard_t(6, nights + 100) * np.sqrt(4 / 6)
    out = np.empty(nights + 100)
    out[0] = steps[0]
    for t in range(1, len(out)):
        out[t] = likeness * out[t - 1] + np.sqrt(1 - likeness**2) * steps[t]
    return out[100:]


def mark_easy(rng: Rng, nights: int, rate: float) -> np.ndarray:
    """A draw each night."""
    return (rng.random(nights) < rate).astype(float)


def mark_hard(rng: Rng, nights: int, rate: float) -> np.ndarray:
    """Rare, in clusters of two to five nights on average, more of them in one half of the year; or a course over a bar."""
    if rng.random() < 0.4:
        course = course_hard(rng, nights)
        return (course > np.quantile(course, 1 - rate)).astype(float)
    length, out, night = rng.uniform(2, 5), np.zeros(nights), 0
    beginning = np.clip(rate / length / (1 - rate) * (1 + 0.6 * yearly(nights, rng.normal(0, 20))), 0, 1)
    while night < nights:
        if rng.random() < beginning[night]:
            lasts = rng.geometric(1 / length)
            out[night : night + lasts] = 1
            night += lasts
        night += 1
    return out


EASY, MIDDLE, HARD = Kind(course_easy, mark_easy), Kind(course_middle, mark_hard), Kind(course_hard, mark_hard)


def nothing(rng: Rng, nights: int, kind: Kind) -> Columns:
    """A year in which nothing goes with anything."""
    courses = [kind.course(rng, nights) for _ in READINGS]
    return _noted(rng, courses, [kind.mark(rng, nights, rng.uniform(0.07, 0.3)) for _ in MARKS])


def one_link(rng: Rng, nights: int, kind: Kind, spearman: float = 0.35) -> Columns:
    """The same, but "second" follows "first" one night later."""
    courses = [kind.course(rng, nights) for _ in READINGS]
    rho = LATENT[spearman]
    courses[1][1:] = rho * courses[0][:-1] + np.sqrt(1 - rho**2) * courses[1][1:]
    return _noted(rng, courses, [kind.mark(rng, nights, rng.uniform(0.07, 0.3)) for _ in MARKS])


def standardised(course: np.ndarray) -> np.ndarray:
    """With mean 0 and variance 1."""
    return (course - course.mean()) / course.std()


def _noted(rng: Rng, courses: list[np.ndarray], marks: list[np.ndarray]) -> Columns:
    # A scale of 0 to 10, hours in halves, a count with many noughts, an amount.
    forms = (
        lambda z: np.clip(np.rint(6 + 1.7 * z), 0, 10),
        lambda z: np.rint(2 * (7.1 + 0.9 * z)) / 2,
        lambda z: np.maximum(np.rint(1 + 1.3 * z), 0),
        lambda z: np.round(np.exp(1.2 + 0.5 * z), 1),
    )
    values = [form(course) for form, course in zip(forms, courses, strict=True)] + marks
    return {name: _with_gaps(rng, column) for name, column in zip(READINGS + MARKS, values, strict=True)}


def _with_gaps(rng: Rng, column: np.ndarray) -> list[float | None]:
    left_out = rng.random(len(column)) < NOT_NOTED
    return [None if out else float(value) for value, out in zip(column, left_out, strict=True)]


def tally(make: Callable[..., Columns], years: int, nights: int, seed: int, **how) -> Tally:
    """Ask `find_patterns` of so many years. With a link, whatever is told of its two columns is no false alarm."""
    linked = {"first", "second"} if make is one_link else set()
    alarms, noted, told, likely = 0, [], [], []
    for year in range(years):
        patterns = find_patterns(make(np.random.default_rng([seed, year]), nights, **how), marks=MARKS)
        alarms += any(one.stands_out and {one.first, one.second} != linked for one in patterns)
        link = next(one for one in patterns if (one.first, one.second, one.lag) == ("first", "second", 1))
        noted.append(link.strength)
        if link.stands_out:
            told.append(link.strength)
            likely.append(link.likely)
    return Tally(alarms / years, len(told) / years, *(float(np.mean(of or [0])) for of in (noted, told, likely)))
