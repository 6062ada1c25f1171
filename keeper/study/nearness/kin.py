"""Words of one stem, in the languages that the lines are in."""

import re
from collections.abc import Sequence
from functools import lru_cache

from keeper.study.language.words import STEMMERS
from keeper.study.nearness.vocabulary import Vocabulary, plain

_BY_SCRIPT = (
    (re.compile("[\u0370-\u03ff\u1f00-\u1fff]"), "greek"),
    (re.compile("[\u0400-\u04ff]"), "russian"),
    (re.compile("[\u0530-\u058f]"), "armenian"),
    (re.compile("[\u0600-\u06ff]"), "arabic"),
    (re.compile("[\u0900-\u097f]"), "hindi"),
    (re.compile("[\u0b80-\u0bff]"), "tamil"),
)
_LATIN = re.compile("[a-z]")


def kin(spelt: str, vocabulary: Vocabulary, languages: Sequence[str]) -> set[int]:
    """The places of all words with the stem of one, in any of the ``languages`` (codes) written in its letters."""
    found: set[int] = set()
    for stemmer in _stemmers(spelt, languages):
        stem = _stem(spelt, stemmer)
        # The last letter of a stem may be another than that of the word (happy: happi).
        for place in vocabulary.beginning(plain(stem[: max(1, len(stem) - 1)])):
            if _stem(vocabulary.spelt[place], stemmer) == stem:
                found.add(place)
    return found


def stems_of(spelt: str, languages: Sequence[str]) -> tuple[str, ...]:
    """What a word is counted under in each of the languages written in its letters; itself where none is."""
    return tuple(_stem(spelt, stemmer) for stemmer in _stemmers(spelt, languages)) or (spelt,)


def _stemmers(spelt: str, languages: Sequence[str]) -> list[str]:
    if _LATIN.search(spelt):
        names = (STEMMERS.get(code) for code in languages)
        return [name for name in names if name and name not in {by_script for _, by_script in _BY_SCRIPT}]
    return [name for letters, name in _BY_SCRIPT if letters.match(spelt)]


@lru_cache(maxsize=20_000)
def _stem(spelt: str, stemmer: str) -> str:
    return _snowball(stemmer).stemWord(spelt)


@lru_cache(maxsize=16)
def _snowball(name: str):
    import snowballstemmer

    return snowballstemmer.stemmer(name)
