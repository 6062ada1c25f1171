"""Which letters the book's typefaces have."""

from functools import lru_cache
from pathlib import Path

Letters = frozenset[int]


@lru_cache(maxsize=1)
def faces(folder: Path) -> tuple[Letters, ...]:
    """The code points of each typeface below a folder; up to half a second the first time, as a book is made."""
    return tuple(letters_of(file) for file in sorted(folder.rglob("*.ttf")))


def letters_of(file: Path) -> Letters:
    """The code points for which a TrueType font has a glyph."""
    # Nothing but a book needs it, and what makes one is brought in for more than that.
    from fontTools.ttLib import TTFont

    with TTFont(file, lazy=True) as font:
        none = font.getGlyphOrder()[0]
        return frozenset(letter for letter, glyph in font.getBestCmap().items() if glyph != none)
