"""Which way a paragraph runs."""

import unicodedata


def runs_left(text: str) -> bool:
    """Whether a paragraph runs from right to left: by its first letter that tells (Unicode Annex 9, P2 and P3)."""
    for letter in text:
        told = unicodedata.bidirectional(letter)
        if told in ("L", "R", "AL"):
            return told != "L"
    return False
