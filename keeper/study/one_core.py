"""Sums on one core: the same however many a machine has, and none held up by the others.

Added up in another order, numbers differ in their last digits, and lines on the border then fall to the other side; with
as many parts as a machine has cores, each would tell of other themes. Many small sums are quicker so, too: shared out
among cores that have other work, they mostly wait.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import ParamSpec, TypeVar

P, R = ParamSpec("P"), TypeVar("R")


def on_one_core(way: Callable[P, R]) -> Callable[P, R]:
    """The same function, whose linear algebra and clustering run on one core while it does."""

    @wraps(way)
    def kept_to_one(*args: P.args, **named: P.kwargs) -> R:
        # What is not yet loaded could not be told.
        import sklearn.cluster  # noqa: F401
        from threadpoolctl import threadpool_limits

        with threadpool_limits(limits=1):
            return way(*args, **named)

    return kept_to_one
