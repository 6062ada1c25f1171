"""The columns as one table, in an order that hangs on nothing but what they hold."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True)
class Table:
    """Columns as rows of arrays (columns x nights).

    values: NaN where not noted; marks are 1 and 0. noted: 1 or 0. turned: values, marks turned so that the first one
    noted is 0: a mark and its opposite are then the same. signs: -1 where turned. marks: which rows are marks.
    """

    names: tuple[str, ...]
    values: np.ndarray
    noted: np.ndarray
    turned: np.ndarray
    signs: np.ndarray
    marks: np.ndarray

    @property
    def ordinary(self) -> np.ndarray:
        """1 on the nights on which a column has its commonest value (columns x nights)."""
        rows = np.zeros_like(self.noted)
        for row, values in zip(rows, self.turned, strict=True):
            known, counts = np.unique(values[~np.isnan(values)], return_counts=True)
            row[:] = values == known[counts.argmax()] if len(known) else 0
        return rows


def table(columns: Mapping[str, Sequence[float | None]], marks: Collection[str]) -> Table:
    """Read the columns. ValueError as `find_patterns` says."""
    if len({len(column) for column in columns.values()}) > 1:
        raise ValueError("the columns are not of the same length")
    if strange := set(marks) - set(columns):
        raise ValueError(f"no column is called {min(strange)!r}, which is said to be a mark")
    names = list(columns)
    # None becomes NaN; to add 0 makes -0 the same as 0.
    values = np.array([list(columns[name]) for name in names], float, ndmin=2) + 0.0
    if np.isinf(values).any():
        raise ValueError("a value is without end")
    is_mark = np.array([name in set(marks) for name in names], bool)
    values[is_mark] = np.where(np.isnan(values[is_mark]), np.nan, values[is_mark] > 0)
    return _in_order(names, _without_empty_ends(values), is_mark)


def _without_empty_ends(values: np.ndarray) -> np.ndarray:
    nights = np.flatnonzero(~np.isnan(values).all(0))
    return values[:, nights[0] : nights[-1] + 1] if len(nights) else values[:, :0]


def _in_order(names: list[str], values: np.ndarray, is_mark: np.ndarray) -> Table:
    turned, signs = values.copy(), np.ones(len(names))
    for i in np.flatnonzero(is_mark):
        known = values[i][~np.isnan(values[i])]
        if len(known) and known[0] == 1:
            turned[i], signs[i] = 1 - values[i], -1
    order = sorted(range(len(names)), key=lambda i: (not is_mark[i], turned[i].tobytes()))
    noted = (~np.isnan(values)).astype(float)
    return Table(
        tuple(names[i] for i in order), values[order], noted[order], turned[order], signs[order], is_mark[order]
    )
