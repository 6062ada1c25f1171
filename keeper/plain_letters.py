"""Letters by what they are plainly: the start of all that compares words, be it for the index, for towns or for dates."""

import unicodedata
from collections.abc import Callable, Mapping

# Unicode decomposes none of these, so no general rule reaches them.
LETTERS = {
    "ø": "o", "æ": "ae", "œ": "oe", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "ı": "i", "ħ": "h", "ß": "ss",
}  # fmt: skip


def with_capitals(letters: Mapping[str, str]) -> dict[str, str]:
    """The same, and each capital of these with a capital first; a capital that is another letter's is left alone."""
    capitals = {letter.upper(): plain.capitalize() for letter, plain in letters.items() if letter not in "ıß"}
    return {**letters, **capitals}


def without_marks(text: str, gone: Callable[[str], object] = unicodedata.combining) -> str:
    """The text taken apart by Unicode's compatibility decomposition (UAX #15), without the marks that are to go."""
    return "".join(letter for letter in unicodedata.normalize("NFKD", text) if not gone(letter))
