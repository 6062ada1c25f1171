"""A page of a notebook, as a picture."""

from dataclasses import dataclass
from datetime import date

WHOLE = (0.0, 0.0, 1.0, 1.0)
"""A cut that leaves nothing out."""


@dataclass(frozen=True)
class Scan:
    """A scan or photo of a page, kept by the SHA-256 of its file, and the nights it belongs to, both ends included.

    ``page`` counts from 0 within a PDF. The file is never changed: ``turns``
    are quarters to the right (0 to 3), ``angle`` degrees to the right by which
    it is straightened after that, and ``cut`` is what is shown then: left, top,
    right and bottom, in parts of the whole. ``name`` is what the file was called.
    """

    id: str
    sha256: str
    ending: str
    bytes: int
    page: int
    name: str
    first: date
    last: date
    turns: int = 0
    angle: float = 0.0
    cut: tuple[float, float, float, float] = WHOLE
