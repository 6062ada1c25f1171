"""A sheet of paper and a few brushes: flat, hand-cut shapes with grain, as in gouache.

Nothing here knows what is painted. Points are in pixels, colours are
(red, green, blue) from 0 to 255.
"""

import math
import random
from collections.abc import Sequence
from functools import cache

import numpy as np
from PIL import Image, ImageDraw, ImageFilter

Colour = tuple[float, float, float]
Points = Sequence[tuple[float, float]]

_FIELD = 1600
"""Fields of noise are this wide and high, and are cut from at random."""


def mix(one: Colour, other: Colour, share: float) -> Colour:
    """``one`` with a share of ``other`` in it."""
    return tuple(a + (b - a) * share for a, b in zip(one, other, strict=True))


def shade(colour: Colour, by: float) -> Colour:
    """Darker below 1, lighter above it."""
    return mix(colour, (0, 0, 0), 1 - by) if by <= 1 else mix(colour, (255, 250, 240), by - 1)


class Noise:
    """Three fields made once: fine grain, brush streaks, broad blotches."""

    def __init__(self, seed: int = 5) -> None:
        source = np.random.default_rng(seed)
        self.fine = self._field(source, (3, 3))
        self.streak = self._field(source, (48, 4))
        self.blotch = self._field(source, (60, 40))

    @staticmethod
    def _field(source: np.random.Generator, coarse: tuple[int, int]) -> np.ndarray:
        small = source.standard_normal((_FIELD // coarse[1], _FIELD // coarse[0])).astype(np.float32)
        field = np.asarray(Image.fromarray(small).resize((_FIELD, _FIELD), Image.Resampling.BICUBIC))
        return (field - field.mean()) / field.std()

    @staticmethod
    def cut(field: np.ndarray, height: int, width: int, chance: random.Random) -> np.ndarray:
        """A piece of a field from a place of chance."""
        top, left = chance.randrange(_FIELD - height + 1), chance.randrange(_FIELD - width + 1)
        return field[top : top + height, left : left + width]


@cache
def _noise() -> Noise:
    return Noise()


class Sheet:
    """The picture as it grows; ``w`` and ``h`` are its size, ``chance`` its seeded luck."""

    def __init__(self, width: int, height: int, chance: random.Random) -> None:
        self.w, self.h, self.chance = width, height, chance
        self.pixels = np.zeros((height, width, 3), np.float32)

    def wash(self, stops: Sequence[Colour], top: float, bottom: float) -> None:
        """Cover the full width with colours running into one another downwards."""
        top, bottom = max(round(top), 0), min(round(bottom), self.h)
        if bottom - top < 2:
            return
        at = np.linspace(0, len(stops) - 1, bottom - top)
        # The brush does not keep to a level: that makes the bands uneven.
        uneven = Noise.cut(_noise().streak, bottom - top, self.w, self.chance) * 0.02
        uneven += Noise.cut(_noise().blotch, bottom - top, self.w, self.chance) * 0.028
        where = np.clip(at[:, None] + uneven * (len(stops) - 1), 0, len(stops) - 1)
        steps = np.arange(len(stops))
        bands = [np.interp(where, steps, [stop[channel] for stop in stops]) for channel in range(3)]
        self.pixels[top:bottom] = self._brushed(np.stack(bands, axis=-1), 1)

    def _brushed(self, colours: np.ndarray, strength: float) -> np.ndarray:
        height, width = colours.shape[:2]
        noise = _noise()
        tone = 0.013 * Noise.cut(noise.streak, height, width, self.chance)
        tone += 0.014 * Noise.cut(noise.blotch, height, width, self.chance)
        return colours * (1 + strength * tone)[:, :, None]

    def shape(self, points: Points, colour: Colour, *, to: Colour | None = None, rough: float = 1, alpha: float = 1,
              dry: float = 0, wobble: float = 1.2) -> None:  # fmt: skip
        """A shape cut out by hand and laid on.

        ``to`` is the colour at its foot; ``rough`` frays the edge; ``dry``
        lets what lies below show through in streaks.
        """
        self._lay([(points, 1)], colour, to, rough, alpha, dry, wobble)

    def oval(self, x: float, y: float, across: float, high: float, colour: Colour, **how) -> None:
        """An ellipse about a middle."""
        turns = [2 * math.pi * n / 40 for n in range(40)]
        self.shape([(x + across * math.cos(t) / 2, y + high * math.sin(t) / 2) for t in turns], colour, **how)

    def box(self, x: float, y: float, width: float, height: float, colour: Colour, **how) -> None:
        """A rectangle from its upper left corner."""
        self.shape([(x, y), (x + width, y), (x + width, y + height), (x, y + height)], colour, **how)

    def stroke(self, points: Points, width: float, colour: Colour, *, rough: float = 0.6, alpha: float = 1,
               dry: float = 0) -> None:  # fmt: skip
        """A line drawn with a brush of this width."""
        self._lay([(points, -width)], colour, None, rough, alpha, dry, 0)

    def many(self, shapes: Sequence[Points], colour: Colour, *, rough: float = 0.6, alpha: float = 1) -> None:
        """Several shapes of one colour at once: windows, leaves, flakes."""
        if shapes:
            self._lay([(points, 1) for points in shapes], colour, None, rough, alpha, 0, 0)

    def glow(self, x: float, y: float, across: float, colour: Colour, alpha: float = 0.5) -> None:
        """Light round a lamp or the sun."""
        left, right = max(int(x - across), 0), min(int(x + across), self.w)
        top, bottom = max(int(y - across), 0), min(int(y + across), self.h)
        if right <= left or bottom <= top:
            return
        ys, xs = np.mgrid[top:bottom, left:right]
        far = np.hypot(xs - x, ys - y) / across
        cover = (alpha * np.clip(1 - far, 0, 1) ** 2)[:, :, None].astype(np.float32)
        part = self.pixels[top:bottom, left:right]
        part += (np.array(colour, np.float32) - part) * cover

    def veil(self, colour: Colour, alpha: float, top: float = 0, bottom: float | None = None) -> None:
        """Mist over a band, thickest at its foot."""
        top, bottom = max(round(top), 0), min(round(bottom if bottom is not None else self.h), self.h)
        cover = np.linspace(alpha * 0.35, alpha, bottom - top)[:, None, None]
        part = self.pixels[top:bottom]
        part += (np.array(colour, np.float32) - part) * cover.astype(np.float32)

    def mirror(self, level: float, bottom: float, share: float, tint: Colour) -> None:
        """What stands above ``level``, upside down and broken, in the water below it."""
        level, bottom = round(level), min(round(bottom), self.h)
        deep = min(bottom - level, level)
        rows = np.arange(deep)
        shaken = Noise.cut(_noise().streak, deep, self.w, self.chance)
        source = np.clip(level - 1 - rows[:, None] - np.abs(shaken) * (2 + rows[:, None] * 0.05), 0, level - 1)
        sway = (Noise.cut(_noise().streak, deep, self.w, self.chance) * (1 + rows[:, None] * 0.03)).astype(int)
        across = np.clip(np.arange(self.w)[None, :] + sway, 0, self.w - 1)
        seen = self.pixels[source.astype(int), across]
        seen = seen + (np.array(tint, np.float32) - seen) * 0.3
        fading = np.linspace(share, share * 0.25, deep)[:, None, None].astype(np.float32)
        self.pixels[level : level + deep] += (seen - self.pixels[level : level + deep]) * fading

    def _lay(self, parts: Sequence[tuple[Points, float]], colour: Colour, to: Colour | None, rough: float,
             alpha: float, dry: float, wobble: float) -> None:  # fmt: skip
        parts = [(_uneven(points, wobble, self.chance) if wobble else points, width) for points, width in parts]
        box = self._reach(parts)
        if box is None:
            return
        left, top, right, bottom = box
        # Small things are cut with more care than large ones.
        rough *= min(max(min(right - left, bottom - top) / 110, 0.4), 1)
        cover = self._cover(parts, box, rough) * alpha
        if dry:
            streak = Noise.cut(_noise().streak, bottom - top, right - left, self.chance)
            cover = cover * (1 - np.clip((streak - 1.9 + dry * 2) * 1.6, 0, 0.85))
        paint = self._brushed(_run(colour, to or colour, bottom - top, right - left), 1.2)
        part = self.pixels[top:bottom, left:right]
        part += (paint - part) * cover[:, :, None]

    def _reach(self, parts: Sequence[tuple[Points, float]]) -> tuple[int, int, int, int] | None:
        xs = [x for points, _ in parts for x, _ in points]
        ys = [y for points, _ in parts for _, y in points]
        spare = 6 + max(abs(min(width, 0)) for _, width in parts)
        left, top = max(int(min(xs) - spare), 0), max(int(min(ys) - spare), 0)
        right, bottom = min(int(max(xs) + spare) + 1, self.w), min(int(max(ys) + spare) + 1, self.h)
        return (left, top, right, bottom) if right > left and bottom > top else None

    def _cover(self, parts: Sequence[tuple[Points, float]], box: tuple[int, int, int, int], rough: float) -> np.ndarray:
        """How much of each pixel is covered, 0 to 1, the edge frayed."""
        left, top, right, bottom = box
        mask = Image.new("L", ((right - left) * 2, (bottom - top) * 2))
        pen = ImageDraw.Draw(mask)
        for points, width in parts:
            here = [((x - left) * 2, (y - top) * 2) for x, y in points]
            if width < 0:
                pen.line(here, 255, max(round(-width * 2), 1), "curve")
            else:
                pen.polygon(here, 255)
        mask = mask.reduce(2)
        if rough <= 0.3:
            return np.asarray(mask, np.float32) / 255
        soft = np.asarray(mask.filter(ImageFilter.GaussianBlur(0.7 + 0.5 * rough)), np.float32) / 255
        fray = Noise.cut(_noise().fine, bottom - top, right - left, self.chance)
        return np.clip((soft - 0.5 + 0.09 * rough * fray) * (2.6 / rough**0.5) + 0.5, 0, 1)

    def image(self) -> Image.Image:
        """The finished picture: a little paper grain, and a touch of warmth."""
        grain = Noise.cut(_noise().fine, self.h, self.w, self.chance) * 0.5
        grain += Noise.cut(_noise().blotch, self.h, self.w, self.chance) * 1.4
        warm = self.pixels * np.array([1.0, 0.99, 0.965], np.float32) + 3
        return Image.fromarray(np.clip(warm + grain[:, :, None], 0, 255).astype(np.uint8))


def _run(colour: Colour, to: Colour, height: int, width: int) -> np.ndarray:
    downwards = np.linspace(0, 1, height, dtype=np.float32)[:, None, None]
    one, other = np.array(colour, np.float32), np.array(to, np.float32)
    return np.broadcast_to(one + (other - one) * downwards, (height, width, 3))


def _uneven(points: Points, by: float, chance: random.Random) -> list[tuple[float, float]]:
    """The same outline, cut with scissors: long sides get a few slight bends."""
    cut = []
    for (x, y), (to_x, to_y) in zip(points, [*points[1:], points[0]], strict=True):
        pieces = max(int(math.hypot(to_x - x, to_y - y) // 70), 1)
        for piece in range(pieces):
            share = piece / pieces
            cut.append((x + (to_x - x) * share + chance.gauss(0, by), y + (to_y - y) * share + chance.gauss(0, by)))
    return cut
