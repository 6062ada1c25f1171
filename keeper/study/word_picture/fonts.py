"""In which typeface a word is measured: the serif of the person's words, or that of its script."""

import unicodedata
from functools import lru_cache
from typing import TYPE_CHECKING

from keeper.shipped import resource

if TYPE_CHECKING:
    from PIL.ImageFont import FreeTypeFont

FAMILY = "Source Serif 4"

_SERIF = "fonts/SourceSerif4_400Regular.ttf"
_OF_SCRIPT = {
    "CJK": "fonts/book/NotoSerifSC-Regular.ttf", "HIRAGANA": "fonts/book/NotoSerifSC-Regular.ttf",
    "KATAKANA": "fonts/book/NotoSerifSC-Regular.ttf", "HANGUL": "fonts/book/NotoSerifKR-Regular.ttf",
    "HEBREW": "fonts/book/NotoSerifHebrew-Regular.ttf", "ARABIC": "fonts/book/NotoNaskhArabic-Regular.ttf",
}  # fmt: skip


def font_of(word: str, size: int) -> "FreeTypeFont":
    """The typeface that has the word's letters, at so many pixels."""
    letter = next((letter for letter in word if letter.isalpha()), "a")
    return _at(_OF_SCRIPT.get(unicodedata.name(letter, "?").split()[0], _SERIF), size)


@lru_cache(maxsize=256)
def _at(file: str, size: int) -> "FreeTypeFont":
    from PIL import ImageFont

    return ImageFont.truetype(str(resource(file)), size)
