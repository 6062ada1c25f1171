"""Twenty trackers over ten years, and the sums of patterns as a bare loop over all pairs would do them."""

from itertools import product

import numpy as np
from scipy.special import gammainc, gammaincc, ndtri
from simulated_years import HARD, nothing

NIGHTS = 3650
MARKS = [f"{name} {part}" for part in range(2) for name in "abcde"]
LAGS = (0, 1, 2)


def ten_years() -> dict[str, list[float | None]]:
    """Ten readings and ten marks."""
    columns = {}
    for part in range(3):
        made = nothing(np.random.default_rng([5, part]), NIGHTS, HARD)
        columns |= {f"{name} {part}": column for name, column in made.items()}
    readings = [name for name in columns if name.split()[0] not in "abcde"][:10]
    return {name: columns[name] for name in (*readings, *MARKS)}


def bare_loop(values: dict[str, np.ndarray], marks: list[str]) -> list[tuple[float, float]]:
    """Rank correlation, what the mark makes of the medians or shares, and p, pair by pair."""
    left = {name: less_drift(column) for name, column in values.items()}
    found = []
    for lag, (a, b) in product(LAGS, product(values, values)):
        if a == b or (lag == 0 and a > b):
            continue
        x, y = values[a][: NIGHTS - lag], values[b][lag:]
        both = ~np.isnan(x) & ~np.isnan(y)
        r = np.corrcoef(ranks(x[both]), ranks(y[both]))[0, 1]
        mark, other = (x[both], y[both]) if a in marks else (y[both], x[both])
        if a in marks and b in marks:
            other[mark > 0].mean() / other[mark == 0].mean()
        elif a in marks or b in marks:
            np.median(other[mark > 0]) - np.median(other[mark == 0])
        found.append((r, chance(left[a][: NIGHTS - lag], left[b][lag:], both)))
    return found


def ranks(x: np.ndarray) -> np.ndarray:
    """Ties share their middle rank."""
    _, which, counts = np.unique(x, return_inverse=True, return_counts=True)
    return (np.cumsum(counts) - (counts - 1) / 2)[which]


def less_drift(x: np.ndarray) -> np.ndarray:
    """Normal scores less the mean of 91 nights and of the weekday."""
    noted = ~np.isnan(x)
    out = np.zeros_like(x)
    out[noted] = ndtri(ranks(x[noted]) / (noted.sum() + 1))
    window = np.ones(91)
    out = (out - np.convolve(out, window, "same") / np.maximum(np.convolve(noted, window, "same"), 1)) * noted
    for day in range(7):
        out[day::7] -= out[day::7].sum() / noted[day::7].sum()
    return out * noted


def chance(x: np.ndarray, y: np.ndarray, both: np.ndarray) -> float:
    """The tail of type III of two columns freed of the likeness of the second."""
    power = y @ y
    one, two = y[1:] @ y[:-1] / power, y[2:] @ y[:-2] / power
    second = (two - one * one) / (1 - one * one)
    factors = one * (1 - second), second
    a, b = (freed(column, both, factors) for column in (x, y))
    n = both.sum()
    a, b = a[both] - a[both].mean(), b[both] - b[both].mean()
    va, vb, ab = a @ a, b @ b, a @ b
    rest = b - ab / va * a
    spread = max(1, n * (a * a) @ (rest * rest) / (va * (rest @ rest)))
    z = ab / np.sqrt(va * vb) * np.sqrt((n - 1) / spread)
    g = np.sqrt(n) * (a * a) @ a * ((b * b) @ b) / (va * vb) ** 1.5 / spread**1.5 + 1e-3
    at = max(4 / g**2 + 2 * z / g, 0)
    return 2 * min(gammainc(4 / g**2, at), gammaincc(4 / g**2, at))


def freed(column: np.ndarray, both: np.ndarray, factors: tuple[float, float]) -> np.ndarray:
    """Less what the two nights before let expect."""
    expected, filled = np.zeros_like(column), column * both
    for _ in range(5):
        expected[1:] = factors[0] * filled[:-1]
        expected[2:] += factors[1] * filled[:-2]
        filled = np.where(both, column, expected)
    return column - expected
