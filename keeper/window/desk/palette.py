"""Paper and one ink: every colour on screen, worked out from the two that are chosen.

Contrast is that of WCAG 2.2 (relative luminance): text at least 4.5:1, lines
that carry meaning at least 3:1.
"""

from dataclasses import dataclass
from functools import cache

TEXT_CONTRAST = 4.5
LINE_CONTRAST = 3.0
_INK_CONTRAST = 8.0

OKABE_ITO = ("#0072b2", "#e69f00", "#009e73", "#cc79a7", "#d55e00", "#56b4e9", "#f0e442", "#999999")
"""Okabe & Ito (2008), Color Universal Design; black is left to the ink."""


@dataclass(frozen=True, slots=True)
class Palette:
    """The colours of one light, as ``#rrggbb``.

    ``paper`` and ``ink``; ``quiet`` for the program's small words; ``line``
    for rules that carry meaning; ``faint`` for rules that do not; ``wash`` for
    what is picked out; ``tints`` tell places and themes apart.
    """

    dark: bool
    paper: str
    ink: str
    quiet: str
    line: str
    faint: str
    wash: str
    tints: tuple[str, ...]


@cache
def palette(ink: str, paper: str) -> Palette:
    """The palette of an ink on a paper, both as ``#rrggbb``.

    The ink is brought to a contrast of 8:1 with the paper where it falls short.
    """
    dark = contrast(paper, "#ffffff") > contrast(paper, "#000000")
    readable = _brought_to(ink, paper, _INK_CONTRAST, "#f6ecdc" if dark else "#000000")
    return Palette(
        dark=dark,
        paper=paper,
        ink=readable,
        quiet=_weakest(readable, paper, TEXT_CONTRAST + 0.3),
        line=_weakest(readable, paper, LINE_CONTRAST + 0.1),
        faint=mixed(paper, readable, 0.16),
        wash=mixed(paper, readable, 0.09),
        tints=tuple(_brought_to(mixed(tint, readable, 0.22), paper, LINE_CONTRAST + 0.1, readable) for tint in OKABE_ITO),
    )


def contrast(one: str, other: str) -> float:
    """The contrast ratio of two colours, 1 to 21 (WCAG 2.2)."""
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def mixed(one: str, other: str, share: float) -> str:
    """A colour between two; ``share`` 0 to 1 is the second's part."""
    parts = (round(a + (b - a) * share) for a, b in zip(_rgb(one), _rgb(other), strict=True))
    return "#" + "".join(f"{part:02x}" for part in parts)


def _luminance(colour: str) -> float:
    def linear(part: int) -> float:
        value = part / 255
        return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4

    red, green, blue = (linear(part) for part in _rgb(colour))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _rgb(colour: str) -> tuple[int, int, int]:
    return tuple(int(colour[place : place + 2], 16) for place in (1, 3, 5))


def _brought_to(colour: str, paper: str, wanted: float, towards: str) -> str:
    """The colour, moved no further towards another than the contrast asks."""
    for step in range(51):
        moved = mixed(colour, towards, step / 50)
        if contrast(moved, paper) >= wanted:
            return moved
    return towards


def _weakest(ink: str, paper: str, wanted: float) -> str:
    """The palest mixture of ink and paper that still has the contrast."""
    for step in range(100, -1, -1):
        pale = mixed(ink, paper, step / 100)
        if contrast(pale, paper) >= wanted:
            return pale
    return ink
