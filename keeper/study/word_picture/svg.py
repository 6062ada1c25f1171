"""A picture of words as SVG: the words as words, over the ribbon of their nights."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from html import escape

from keeper.study.word_picture.fonts import FAMILY
from keeper.study.word_picture.layout import TALLEST, WIDTH, Placed, height_of

RIBBON = 46
"""The room below the words, in the picture's own measure: ticks, and names of months or days below them."""

TICK = 14
"""The tallest tick."""

_LEGEND, _A_ROW = 20, 6


@dataclass(frozen=True, slots=True)
class NightsDrawn:
    """A night of the ribbon, or several where there are many: ``at`` and ``wide`` are shares of the width.

    ``much`` is how much is kept of them, 0 to 1. ``mark`` is that of the place
    where most of them were spent, None for none.
    """

    at: float
    wide: float
    much: float
    mark: int | None = None


@dataclass(frozen=True, slots=True)
class Inks:
    """Colours, as ``#rrggbb``: of the paper, of the small words and lines, and of each word.

    ``under`` gives what stands under a word, and a sign beside it, since a
    colour never tells alone; ``night`` what a night's tick has; "" is nothing.
    ``places`` are the names and colours that the signs 1, 2 and so on stand for.
    """

    paper: str
    quiet: str
    word: Callable[[Placed], str]
    under: Callable[[Placed], tuple[str, str]] = lambda one: ("", "")
    night: Callable[[NightsDrawn], str] = lambda one: ""
    places: Sequence[tuple[str, str]] = ()


@dataclass(frozen=True, slots=True)
class Band:
    """What is drawn: words, their nights, and where along these something is named, as shares of the width."""

    placed: Sequence[Placed]
    nights: Sequence[NightsDrawn]
    named: Sequence[tuple[float, str]]

    @property
    def high(self) -> float:
        """The height of the whole, in the picture's own measure."""
        return height_of(self.placed) + RIBBON

    @property
    def above(self) -> float:
        """What is cut off above, where the words do not reach so high."""
        return TALLEST - height_of(self.placed)


def as_svg(band: Band, inks: Inks, title: str) -> str:
    """The picture as SVG."""
    below = _LEGEND * -(-len(inks.places) // _A_ROW)
    rows = "\n".join((*_ribbon(band, inks), *(_word(one, inks) for one in band.placed), *_places(inks)))
    high = band.high + below
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 {band.above:.1f} {WIDTH} {high:.1f}" width="{WIDTH}" '
        f'height="{high:.1f}" role="img" font-family="\'{FAMILY}\', serif">\n<title>{_told(title)}</title>\n'
        f'<rect y="{band.above:.1f}" width="{WIDTH}" height="{high:.1f}" fill="{inks.paper}"/>\n{rows}\n</svg>\n'
    )


def _ribbon(band: Band, inks: Inks) -> Iterable[str]:
    for one in band.nights:
        tall = 3 + (TICK - 3) * one.much
        left, wide = (one.at + one.wide * 0.15) * WIDTH, min(5.0, max(0.6, one.wide * WIDTH * 0.7))
        yield _rect(left, TALLEST + 6 + TICK - tall, wide, tall, inks.night(one) or inks.quiet)
    for at, name in band.named:
        yield _text(at * WIDTH, TALLEST + 6 + TICK + 16, 12, inks.quiet, name)


def _word(one: Placed, inks: Inks) -> str:
    colour, sign = inks.under(one)
    below = one.top + one.height + 1
    under = _rect(one.left, below, one.width, 2, colour) if colour else ""
    under += _text(one.left + one.width + 1, below + 3, 7, inks.quiet, sign) if sign else ""
    # Another typeface, where ours is missing, is fitted to the same room.
    return under + _text(one.x, one.y, one.size, inks.word(one), one.word, f' textLength="{one.width:.1f}" lengthAdjust="spacingAndGlyphs"')


def _places(inks: Inks) -> Iterable[str]:
    for place, (name, colour) in enumerate(inks.places):
        left, top = place % _A_ROW * WIDTH / _A_ROW, TALLEST + RIBBON + _LEGEND * (place // _A_ROW)
        yield _rect(left, top + 10, 14, 3, colour)
        yield _text(left + 18, top + 14, 12, inks.quiet, f"{place + 1} {name}")


def _rect(left: float, top: float, wide: float, high: float, colour: str) -> str:
    return f'<rect x="{left:.2f}" y="{top:.2f}" width="{wide:.2f}" height="{high:.2f}" fill="{colour}"/>'


def _text(x: float, y: float, size: float, colour: str, words: str, more: str = "") -> str:
    return f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size}" fill="{colour}"{more}>{_told(words)}</text>'


def _told(words: str) -> str:
    # XML holds no control codes, not even spelt out.
    plain = "".join(c for c in words if c.isprintable() and not "\ud800" <= c <= "\udfff" and c not in "\ufffe\uffff")
    return escape(plain)
