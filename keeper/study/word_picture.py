"""A picture of words: where each word stands and how large, as plain data.

The places are found by the library wordcloud (A. Mueller), which tries them at
random; the seed comes from the words, so the same words give the same picture.
"""

import zlib
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from html import escape
from random import Random

from keeper.errors import MissingLibrary
from keeper.shipped import resource

FONT = "fonts/SourceSerif4_400Regular.ttf"
FAMILY = "Source Serif 4"

WIDTH, HEIGHT = 960, 540
"""The picture's own measure; it is drawn at any size."""

MOST = 64
_SMALLEST = 13
_LARGEST = 92
_UPRIGHT = 0.12
"""The share of words that stand on end."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A word in the picture.

    ``left``, ``top``, ``width`` and ``height`` are the box that its ink fills;
    ``x`` and ``y`` where its baseline begins. ``turned`` words read upwards
    (90 degrees to the left). ``weight`` is 1 for the most frequent word.
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
    turned: bool
    weight: float


def layout(counted: Iterable[tuple[str, int]], width: int = WIDTH, height: int = HEIGHT) -> tuple[Placed, ...]:
    """Find a place for each word, the largest in the middle of attention; some may find none.

    The order in which the words come makes no difference. Takes a second for
    seventy words, so it belongs in the background. Raises MissingLibrary.
    """
    times = _most_frequent(counted)
    if not times:
        return ()
    cloud_of = _library()
    cloud = cloud_of(
        font_path=str(resource(FONT)), mask=_leaf(width, height), margin=8, max_words=MOST,
        min_font_size=_SMALLEST, max_font_size=min(_LARGEST, height // 4), relative_scaling=0.5,
        prefer_horizontal=1 - _UPRIGHT, random_state=Random(_seed(times)), color_func=lambda *_, **__: "black",
        stopwords=set(), collocations=False, normalize_plurals=False,
    )  # fmt: skip
    try:
        found = cloud.generate_from_frequencies(times).layout_
    except ValueError:  # not one word fits
        return ()
    most = max(times.values())
    return tuple(_placed(one, times, most) for one in found)


def _library() -> type:
    try:
        from wordcloud import WordCloud
    except ImportError as error:
        raise MissingLibrary("A picture of words needs the library wordcloud, which is not installed.") from error
    return WordCloud


def _leaf(width: int, height: int):
    """A sheet with round shoulders: 0 where words may stand, 255 elsewhere."""
    import numpy as np

    across, down = np.linspace(-1, 1, width)[None, :], np.linspace(-1, 1, height)[:, None]
    return np.where(np.abs(across) ** 2.6 + np.abs(down) ** 2.6 <= 1, 0, 255).astype(np.uint8)


def _most_frequent(counted: Iterable[tuple[str, int]]) -> dict[str, int]:
    added: dict[str, int] = {}
    for word, count in counted:
        if word.strip() and count > 0:
            added[word] = added.get(word, 0) + count
    return dict(sorted(added.items(), key=lambda one: (-one[1], one[0].casefold(), one[0]))[:MOST])


def _seed(times: dict[str, int]) -> int:
    return zlib.crc32("\n".join(f"{word}\t{count}" for word, count in times.items()).encode("utf-8", "replace"))


def _placed(one: tuple, times: dict[str, int], most: int) -> Placed:
    (word, _), size, (top, left), orientation, _ = one
    from PIL import ImageFont

    # The library puts the ink itself, without the air about it, where it says.
    x0, y0, x1, y1 = ImageFont.truetype(str(resource(FONT)), size).getbbox(word, anchor="ls")
    wide, high, left, top = x1 - x0, y1 - y0, float(left), float(top)
    turned = orientation is not None
    box = (left, top, high, wide) if turned else (left, top, wide, high)
    x, y = (left - y0, top + wide + x0) if turned else (left - x0, top - y0)
    return Placed(word, times[word], size, *map(float, box), float(x), float(y), turned, times[word] / most)


def as_svg(
    placed: Sequence[Placed], ink: Callable[[Placed], str], paper: str, title: str,
    width: int = WIDTH, height: int = HEIGHT,
) -> str:  # fmt: skip
    """The picture as SVG, words as words; ``ink`` gives each its colour, as ``#rrggbb``."""
    rows = "\n".join(_svg_word(one, ink(one)) for one in placed)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" width="{width}" height="{height}" '
        f'role="img" font-family="\'{FAMILY}\', serif">\n<title>{_told(title)}</title>\n'
        f'<rect width="{width}" height="{height}" fill="{paper}"/>\n{rows}\n</svg>\n'
    )


def _svg_word(one: Placed, colour: str) -> str:
    turn = f' transform="rotate(-90 {one.x:.1f} {one.y:.1f})"' if one.turned else ""
    length = one.height if one.turned else one.width
    # Another typeface, where ours is missing, is fitted to the same room.
    return (
        f'<text x="{one.x:.1f}" y="{one.y:.1f}" font-size="{one.size}" fill="{colour}" textLength="{length:.1f}" '
        f'lengthAdjust="spacingAndGlyphs"{turn}>{_told(one.word)}</text>'
    )


def _told(words: str) -> str:
    # XML holds no control codes, not even spelt out.
    plain = "".join(c for c in words if c.isprintable() and not "\ud800" <= c <= "\udfff" and c not in "\ufffe\uffff")
    return escape(plain)

