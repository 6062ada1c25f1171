"""Ukrainian, which has no stemmer of its own in Snowball: its endings are near enough to those of Russian.

Its letters are read as the Russian ones that stand in the same endings, and stemmed as Russian is (Porter 2001).
"""

from __future__ import annotations

from functools import lru_cache

_READ = str.maketrans({"і": "и", "ї": "и", "є": "е", "ґ": "г", "'": None, "\u2019": None, "\u02bc": None})


def stem(word: str) -> str:
    """The stem of a lower-case word."""
    return _stemmer().stemWord(word.translate(_READ))


@lru_cache(maxsize=1)
def _stemmer():
    import snowballstemmer

    return snowballstemmer.stemmer("russian")
