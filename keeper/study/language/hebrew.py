"""Hebrew, which writes its small words on to the word behind them: and, the, in, to, from, as, that.

A letter is taken off where what is left is a word that is used about as often as the whole, or oftener; then the
commonest endings (the affixes of light stemmers, as those of L. S. Larkey, L. Ballesteros & M. E. Connell, SIGIR 2002, for
Arabic).
"""

from __future__ import annotations

from functools import lru_cache

from keeper.study.language.listed import ranks

PREFIXES = "והבלמכש"
THE = "ה"
ENDINGS = ("ותיהם", "ותיהן", "ותיו", "ותיה", "יהם", "יהן", "ים", "ות", "יות", "יו", "יה", "ית", "י", "ה", "ת")
SHORTEST, MOST = 3, 3  # letters that are left at least, and taken off in front at most
RARER, MORE = 3, 2000  # a word without "the" may stand so much lower among those most used


@lru_cache(maxsize=100_000)
def base(word: str) -> str:
    """A word without the small words before it."""
    known = ranks("he")
    for _ in range(MOST):
        left = word[1:]
        if len(left) < SHORTEST or word[0] not in PREFIXES or left not in known:
            break
        if word in known and known[left] > _least(word, known[word]):
            break
        word = left
    return word


def behind(word: str) -> list[str]:
    """What may stand behind small words written on to it."""
    sizes = range(1, min(MOST, len(word) - SHORTEST) + 1)
    return [word[size:] for size in sizes if all(letter in PREFIXES for letter in word[:size])]


def _least(word: str, rank: int) -> int:
    return rank * RARER + MORE if word[0] == THE else rank


def stem(word: str) -> str:
    """What is left of a word without its ending, the longest of those known."""
    ends = sorted(ENDINGS, key=len, reverse=True)
    return next((word.removesuffix(end) for end in ends if word.endswith(end) and len(word) - len(end) >= SHORTEST), word)
