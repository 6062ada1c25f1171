"""An act as it was noted."""

from dataclasses import dataclass
from datetime import datetime

from keeper.model import Act


@dataclass(frozen=True)
class ActDone:
    """An act as it was noted: when (aware, UTC), and whether in the window or by the command line.

    One that is ``undone`` may be ``overtaken``: something was done since, and
    it is no longer the next to be done again.
    """

    number: int
    act: Act
    at: datetime
    done_from: str
    undone: bool = False
    overtaken: bool = False
