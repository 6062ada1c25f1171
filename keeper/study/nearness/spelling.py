"""Words that are spelt nearly alike."""

from collections.abc import Sequence

ONE_WRONG, TWO_WRONG = 3, 6
"""From so many letters on, one or two of them may be wrong."""


def misspelt(word: str, words: Sequence[str]) -> list[tuple[int, int]]:
    """The places of ``words`` that are one or two letters away from a word, with how many.

    A letter that is another, is missing, is too many, or has changed places with its neighbour: the restricted distance
    of Damerau (1964). Two only in a word of six letters or more; short words are one letter from too many others.
    """
    if len(word) < ONE_WRONG:
        return []
    from rapidfuzz import process
    from rapidfuzz.distance import OSA

    most = 1 if len(word) < TWO_WRONG else 2
    found = process.extract(word, words, scorer=OSA.distance, score_cutoff=most, limit=None)
    return [(place, int(wrong)) for _, wrong, place in found if wrong]


def most_alike(word: str, words: Sequence[str], number: int) -> list[tuple[int, float]]:
    """The places of those ``words`` that are spelt most like a word, and how alike (0 to 1); none without a common letter.

    How alike: of all letters of both, the share that stand in both in one order (Indel similarity).
    """
    from rapidfuzz import fuzz, process

    found = process.extract(word, words, scorer=fuzz.ratio, score_cutoff=1, limit=number)
    return [(place, alike / 100) for _, alike, place in found]
