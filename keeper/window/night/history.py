"""What the person did on the nights' pages, so that the last of it can be taken back wherever it was."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

MOST = 500
"""Steps that are remembered."""


@dataclass(frozen=True, slots=True)
class Typed:
    """A step within the text of a field; ``level`` is the text's own count of steps with this one done."""

    night: date
    kind: str
    level: int


@dataclass(frozen=True, slots=True)
class Decided:
    """A step that was written at once; ``back`` takes it back, ``again`` does it again, ``part`` has the focus then."""

    night: date
    part: str
    back: Callable[[], None]
    again: Callable[[], None]


Step = Typed | Decided


class NightHistory:
    """The steps done, and those taken back."""

    def __init__(self) -> None:
        self._done: list[Step] = []
        self._undone: list[Step] = []

    def did(self, step: Step) -> None:
        """A step was done; what was taken back before it cannot be done again."""
        self._done = [*self._done[1 - MOST :], step]
        self._undone = []

    def forget(self, night: date, kind: str) -> None:
        """The text of a field is another: no step within it means anything now."""
        self._done = [step for step in self._done if not _within(step, night, kind)]
        self._undone = [step for step in self._undone if not _within(step, night, kind)]

    def next(self, by: int) -> Step | None:
        """The step to take back (-1) or to do again (1), moved to the other side; None when there is none."""
        source, target = (self._done, self._undone) if by < 0 else (self._undone, self._done)
        if not source:
            return None
        target.append(source.pop())
        return target[-1]


def _within(step: Step, night: date, kind: str) -> bool:
    return isinstance(step, Typed) and (step.night, step.kind) == (night, kind)
