"""The ground on which a picture that is clear in places is laid, so that nothing in it vanishes."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL.Image import Image

WHITE, GREY, DARK = (255, 255, 255), (128, 128, 128), (46, 44, 42)
"""Paper, and what is taken where white would swallow what is drawn. Of no palette: a picture looks the same day and night."""

_SIDE = 256
"""Pixels: enough to see the edges of letters, and the same ground whatever size is asked for."""

_SEEN = 64
"""Of 255: what is fainter is no part of what is drawn."""

_APART = 1.6
"""Contrast (WCAG 2.2, relative luminance) below which an edge is lost."""

_SPARED = 0.12
"""The share of edges that paper may lose and still be taken."""


def ground_for(colours: "Image", alpha: "Image") -> tuple[int, int, int]:
    """White, unless what is drawn would be lost on it; then the ground that loses least.

    ``colours`` is RGB, ``alpha`` L of the same size, 0 where it is clear.
    """
    edges = _edges(colours, alpha)
    if not sum(edges) or _lost(edges, WHITE) <= _SPARED:
        return WHITE
    # The first of equals: dark suits light words better than grey does.
    return min((DARK, GREY, WHITE), key=lambda ground: round(_lost(edges, ground), 2))


def _edges(colours: "Image", alpha: "Image") -> list[int]:
    """How many pixels next to clear ones have each lightness, 0 to 255."""
    from PIL import ImageChops, ImageFilter

    small = colours.convert("RGBA")
    small.putalpha(alpha)
    small.thumbnail((_SIDE, _SIDE))
    clear = small.getchannel("A").point(lambda value: 255 if value < _SEEN else 0)
    near = clear.filter(ImageFilter.MaxFilter(5))
    return small.convert("RGB").convert("L").histogram(ImageChops.subtract(near, clear))


def _lost(edges: list[int], ground: tuple[int, int, int]) -> float:
    under = _luminance(round(0.299 * ground[0] + 0.587 * ground[1] + 0.114 * ground[2]))
    lost = sum(many for value, many in enumerate(edges) if _contrast(_luminance(value), under) < _APART)
    return lost / sum(edges)


def _luminance(value: int) -> float:
    # sRGB (IEC 61966-2-1) of a grey.
    share = value / 255
    return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4


def _contrast(one: float, other: float) -> float:
    return (max(one, other) + 0.05) / (min(one, other) + 0.05)
