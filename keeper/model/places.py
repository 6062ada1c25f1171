"""Places that became one."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True)
class PlaceMerge:
    """One place that became part of another, ``into_id``, until it is taken apart.

    ``gone`` is what was kept of it, by name; ``gave`` what the remaining place
    was without until this one gave it.
    """

    id: str
    into_id: str
    gone: Mapping[str, object]
    gave: Mapping[str, object]
    on: date

    @property
    def name(self) -> str:
        """What the place was called."""
        return self.gone["name"]


ROOFS = ("home", "with someone", "room", "inn", "canvas", "on board", "in care")
"""What a place can be, in the order in which it is asked."""


@dataclass(frozen=True, slots=True)
class PlacePage:
    """What the person says of a place: a note, what it is (one of ROOFS, or ""), and the photo that stands for it."""

    note: str = ""
    roof: str = ""
    photo_id: str | None = None
