"""What a year looks like from afar."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True)
class Tick:
    """How much one night holds; what the ribbon draws."""

    night: date
    lines: int
    photos: int
    place_id: str | None
    place_name: str
