"""A picture of words: where each word stands over its span of nights and how large, as plain data.

Words stand like reeds over a ribbon of nights: each as near as it can to the
part of the span where it was mostly written, and as low as it can. How large
each is, and what room is taken, is reckoned as by the library wordcloud (A.
Mueller). No chance is in it: the same words give the same picture.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from keeper.errors import MissingLibrary
from keeper.study.word_picture.fonts import font_of

if TYPE_CHECKING:
    from numpy import ndarray

WIDTH, TALLEST = 960, 400
"""The picture's own measure; it is drawn at any size, and as low as its words are."""

MOST = 64
REACH = 0.3
"""How far a word may stand from its own part, as a share of the width."""

_SMALLEST, _LARGEST = 13, 84
_SCALING = 0.6
"""By how much of what it is said less a word is smaller (wordcloud's relative_scaling)."""
_SHRINK = 0.88
_AIR, _CELL = 6, 2
_CLIMB = 0.75
"""A step up weighs so much of a step aside."""
_PART = 0.25
"""The share of the span in which a word is mostly written is looked for."""


@dataclass(frozen=True, slots=True)
class Spoken:
    """A word, how often it was said, and when: 0 at the beginning of the span, 1 at its end."""

    word: str
    times: int
    when: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Placed:
    """A word in the picture.

    ``left``, ``top``, ``width`` and ``height`` are the box that its ink fills;
    ``x`` and ``y`` where its baseline begins. ``at`` is the part of the span
    (0 to 1) where it was mostly written, ``weight`` 1 for the most frequent.
    """

    word: str
    times: int
    size: int
    left: float
    top: float
    width: float
    height: float
    x: float
    y: float
    weight: float
    at: float


def mostly(when: Sequence[float]) -> float:
    """The middle of the quarter of the span that has the most of these; of several such, of the densest, then the earliest."""
    if not when:
        return 0.5
    ordered, best = sorted(when), (0, 0.0, 0.0)
    last = 0
    for first, begins in enumerate(ordered):
        last = max(last, first)
        while last + 1 < len(ordered) and ordered[last + 1] <= begins + _PART:
            last += 1
        within = ordered[first : last + 1]
        best = max(best, (len(within), begins - ordered[last], -sum(within) / len(within)))
    return -best[2]


def layout(spoken: Iterable[Spoken], width: int = WIDTH, height: int = TALLEST) -> tuple[Placed, ...]:
    """Find a place for each word, the largest first; what finds none at the smallest size is left out.

    The order in which the words come makes no difference. The bottom of the
    picture is at ``height``. Takes up to a second for sixty words, so it
    belongs in the background. Raises MissingLibrary.
    """
    words = _most_frequent(spoken)
    if not words:
        return ()
    room_of = _library()
    largest = min(_LARGEST, height // 4, 30 + 6 * words[0].times)
    while True:
        placed = _attempt(words, room_of(height // _CELL, width // _CELL, None), largest, width, height)
        if len(placed) == len(words) or largest * _SHRINK < _SMALLEST:
            return placed
        largest = int(largest * _SHRINK)


def _library() -> type:
    try:
        from wordcloud.wordcloud import IntegralOccupancyMap
    except ImportError as error:
        raise MissingLibrary("A picture of words needs the library wordcloud, which is not installed.") from error
    return IntegralOccupancyMap


def _most_frequent(spoken: Iterable[Spoken]) -> tuple[Spoken, ...]:
    added: dict[str, Spoken] = {}
    for one in spoken:
        if one.word.strip() and one.times > 0:
            was = added.get(one.word, Spoken(one.word, 0))
            added[one.word] = Spoken(one.word, was.times + one.times, was.when + one.when)
    ordered = sorted(added.values(), key=lambda one: (-one.times, one.word.casefold(), one.word))
    return tuple(ordered[:MOST])


def _attempt(words: Sequence[Spoken], room, largest: int, width: int, height: int) -> tuple[Placed, ...]:
    import numpy as np

    taken = np.zeros((height // _CELL, width // _CELL), dtype=np.uint8)
    placed, size, before = [], float(largest), words[0].times
    for one in words:
        size = max(float(_SMALLEST), (_SCALING * one.times / before + 1 - _SCALING) * size)
        before = one.times
        ink = font_of(one.word, round(size)).getbbox(one.word, anchor="ls")
        cells = [-(-(side + _AIR) // _CELL) for side in (ink[3] - ink[1], ink[2] - ink[0])]
        spot = _nearest(room.integral, *cells, mostly(one.when) * width / _CELL)
        if spot is None:
            continue
        down, aside = spot
        taken[down : down + cells[0], aside : aside + cells[1]] = 255
        room.update(taken, down, aside)
        placed.append(_placed(one, round(size), ink, (aside * _CELL + _AIR // 2, down * _CELL + _AIR // 2), words[0].times))
    return tuple(placed)


def _nearest(integral: "ndarray", high: int, wide: int, wanted: float) -> tuple[int, int] | None:
    """The free box of so many cells that is lowest and nearest to where it is wanted: the row and column of its corner."""
    import numpy as np

    rows, columns = integral.shape[0] - high, integral.shape[1] - wide
    if rows <= 0 or columns <= 0:
        return None
    # What the library asks of one box at a time (query_integral_image), of all at once.
    free = integral[:rows, :columns] + integral[high:, wide:] == integral[high:, :columns] + integral[:rows, wide:]
    aside = np.abs(np.arange(columns) + wide / 2 - min(max(wanted, wide / 2), integral.shape[1] - wide / 2))
    cost = np.add.outer(np.arange(rows)[::-1] * _CLIMB, aside)
    cost[~free | (aside > REACH * integral.shape[1])[None, :]] = np.inf
    at = int(cost.argmin())
    down, across = divmod(at, columns)
    return (down, across) if np.isfinite(cost[down, across]) else None


def _placed(one: Spoken, size: int, ink: tuple[float, ...], corner: tuple[int, int], most: int) -> Placed:
    left, top = map(float, corner)
    x0, y0, x1, y1 = ink
    box = (left, top, float(x1 - x0), float(y1 - y0))
    return Placed(one.word, one.times, size, *box, left - x0, top - y0, one.times / most, mostly(one.when))


def height_of(placed: Sequence[Placed]) -> float:
    """How high the words stand over the bottom of the picture, a little air above them."""
    return TALLEST - min((one.top for one in placed), default=TALLEST) + _AIR
