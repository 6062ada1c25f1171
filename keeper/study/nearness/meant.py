"""What a typed word may have meant: words of the lines, and how likely each."""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from keeper.study.language.words import stop_words
from keeper.study.nearness import directions
from keeper.study.nearness.kin import kin, stems_of
from keeper.study.nearness.spelling import misspelt, most_alike
from keeper.study.nearness.vocabulary import Vocabulary, plain, spelt

BEGUN, SHARED, WITHIN = 0.5, 0.4, 0.4
"""What a word counts that begins as the one typed, shares most of its beginning, or has it within (or is within it)."""

JOINED = 0.8
"""What a word counts that has a small word written to it."""

ONE_LETTER, TWO_LETTERS, ANOTHER_WORD = 0.8, 0.4, 0.3
"""What a word counts of which one letter, or two, are other; and one letter, where the word typed is a word itself."""

DIRECTED, DIRECTED_LEAST, DIRECTED_MOST = 0.5, 0.4, 60
"""What a word counts in the same direction, times the cosine; the least cosine; how many are looked for."""

HALF_A_PAIR = 0.4
"""What a Chinese character counts that stands beside another than the one typed."""

MOST = 40
"""Words that one typed word may mean, besides those of its stem."""

_HAN = re.compile("[\u3005\u3400-\u4dbf\u4e00-\u9fff\uf900-\ufaff\U00020000-\U0003ffff]")
_HEBREW, _PARTICLES = re.compile("[\u05d0-\u05ea]"), "\u05d5\u05d4\u05d1\u05db\u05dc\u05de\u05e9"
# Taken apart into their letters, as plain words are.
_HANGUL = re.compile("[\u1100-\u1112]")
_SHARE, _HOLD = 6, 5
_SPELT_ALIKE = 3


@dataclass(frozen=True)
class Meaning:
    """Words of one stem as the index spells them, and what a line with one of them counts (0 to 1).

    Two letters of a script without spaces stand for a word.
    """

    words: tuple[str, ...]
    weight: float


def meant(word: str, vocabulary: Vocabulary, languages: Sequence[str]) -> tuple[Meaning, ...]:
    """What a folded word may mean among the words of the lines: its own stem first, with weight 1, if it is there."""
    spelling, letters = spelt(word), plain(spelt(word))
    own = _own(spelling, vocabulary, languages)
    meanings = [_meaning(own, 1.0, vocabulary)] if own else []
    if any(letters in stop_words(language) for language in languages):
        return tuple(meanings)
    others = sorted(_others(letters, spelling, bool(own), vocabulary, languages), key=lambda other: -other[1])
    return (*meanings, *_by_stem(others, own, vocabulary, languages))


def itself(word: str, vocabulary: Vocabulary, languages: Sequence[str]) -> Meaning:
    """A folded word, or two letters of a script without spaces, and all words of its stem; no words where there are none."""
    own = _own(spelt(word), vocabulary, languages)
    return _meaning(own, 1.0, vocabulary) if own else Meaning((word,) if len(word) == 2 else (), 1.0)


def _own(spelling: str, vocabulary: Vocabulary, languages: Sequence[str]) -> set[int]:
    return {*vocabulary.same(plain(spelling)), *kin(spelling, vocabulary, languages)}


def spelt_alike(word: str, vocabulary: Vocabulary) -> tuple[Meaning, ...]:
    """The words of the lines that are spelt most like a folded word, however little that is."""
    alike = most_alike(plain(spelt(word)), vocabulary.plain, _SPELT_ALIKE)
    return tuple(_meaning((place,), near**2, vocabulary) for place, near in alike)


def meant_unspaced(pair: str, vocabulary: Vocabulary) -> tuple[Meaning, ...]:
    """The same for two letters beside one another, or one alone, where words are written without spaces.

    What bends in Japanese stands behind a character that does not: each counts a little by itself.
    """
    alone = [letter for letter in dict.fromkeys(pair) if _HAN.match(letter) and vocabulary.same(letter)]
    others = tuple(Meaning((letter,), HALF_A_PAIR) for letter in alone if letter != pair)
    return (Meaning((pair,), 1.0), *others)


def _meaning(places: Iterable[int], weight: float, vocabulary: Vocabulary) -> Meaning:
    return Meaning(tuple(vocabulary.spelt[place] for place in sorted(places)), weight)


def _by_stem(
    others: Iterable[tuple[int, float]], own: set[int], vocabulary: Vocabulary, languages: Sequence[str]
) -> Iterator[Meaning]:
    done, number = set(own), 0
    for place, weight in others:
        if place in done or number == MOST:
            continue
        together = {place, *kin(vocabulary.spelt[place], vocabulary, languages)} - done
        done |= together
        number += 1
        yield _meaning(together, weight, vocabulary)


def _others(
    letters: str, spelling: str, known: bool, vocabulary: Vocabulary, languages: Sequence[str]
) -> Iterator[tuple[int, float]]:
    for place, wrong in misspelt(letters, vocabulary.plain):
        if wrong == 1:
            yield place, ANOTHER_WORD if known else ONE_LETTER
        elif not known:
            yield place, TWO_LETTERS
    yield from _of_its_letters(letters, vocabulary)
    for language in languages:
        for stem in stems_of(spelling, (language,)):
            yield from _directed(stem, language, vocabulary)


def _of_its_letters(letters: str, vocabulary: Vocabulary) -> Iterator[tuple[int, float]]:
    if len(letters) >= 3:
        yield from ((place, BEGUN) for place in vocabulary.beginning(letters))
    if _HEBREW.match(letters):
        yield from ((place, JOINED) for place in _with_particles(letters, vocabulary))
    if _HANGUL.match(letters):
        # What follows a word is written to it: the first two syllables, of two letters at least, are most of the word.
        yield from ((place, SHARED) for place in vocabulary.beginning(letters[:4]) if len(letters) >= 4)
    elif len(letters) >= _SHARE:
        yield from ((place, SHARED) for place in vocabulary.beginning(letters[: max(5, len(letters) - 3)]))
    if len(letters) >= _HOLD:
        yield from ((place, WITHIN) for place in vocabulary.holding(letters))
        for cut in range(1, len(letters) - _HOLD + 1):
            yield from ((place, WITHIN) for place in (*vocabulary.same(letters[cut:]), *vocabulary.same(letters[:-cut])))


def _with_particles(letters: str, vocabulary: Vocabulary) -> Iterator[int]:
    """Hebrew writes "and", "the", "in", "as", "to", "from" and "that" to the word that follows."""
    for particle in _PARTICLES:
        yield from vocabulary.same(particle + letters)
    if letters[0] in _PARTICLES and len(letters) > 2:
        yield from vocabulary.same(letters[1:])


def _directed(stem: str, language: str, vocabulary: Vocabulary) -> Iterator[tuple[int, float]]:
    for other, near in directions.alike(stem, language, DIRECTED_LEAST, DIRECTED_MOST):
        for place in vocabulary.beginning(other):
            if stems_of(vocabulary.spelt[place], (language,)) == (other,):
                yield place, DIRECTED * near
                # The others of its stem come with it.
                break
