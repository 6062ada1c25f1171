"""What is never brought up unasked."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class Resting:
    """Something that rests.

    ``what`` is line, photo, place, person or span; ``ref`` its id, "" for a
    span. ``first`` and ``last`` are the ends of a span, or the night of a line
    or photo (None: a photo of no night). ``told`` are its words: a line's
    text, a photo's caption or file name, a name; "" for a span. ``kind`` is a
    line's, ``kind_name`` the person's name for that.
    """

    what: str
    ref: str
    told: str
    first: date | None = None
    last: date | None = None
    kind: str = ""
    kind_name: str = ""
