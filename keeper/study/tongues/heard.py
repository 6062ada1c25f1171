"""Which language each line is in, told from itself and from the lines beside it, and its words by that.

A person who writes in two languages stays in one for some nights; a line too short to tell is in that of its neighbours.
"""

from __future__ import annotations

import dataclasses
from collections import Counter
from collections.abc import Iterable, Sequence

from keeper.study.language.words import Word, content_words, likenesses, stem
from keeper.study.tongues.keyed import bare, keyed
from keeper.study.tongues.table import background

KNOWN = 0.5  # what a word of the line that a language's table knows tells, beside one of its small words
BESIDE, WORTH = 2, 0.5  # lines looked at before and after, and what they tell together, beside one small word


def heard(
    texts: Sequence[str], languages: Sequence[str], leave_out: Sequence[str] = (), names: Sequence[str] = ()
) -> list[list[Word]]:
    """The content words of texts that were written one after another; see ``content_words``.

    Where the person writes in several languages, each stem has its language to it. A name, which is what keeps its capital
    within sentences of two languages or more, has that of most of its lines, so that it is one word in all of them.
    """
    many = len(set(languages)) > 1
    spoken = languages_of(texts, languages) if many else [languages[0]] * len(texts)
    told = {"leave_out": frozenset(leave_out), "names": tuple(names)}
    docs = [content_words(text, languages=(language,), **told) for text, language in zip(texts, spoken, strict=True)]
    if not many:
        return docs
    homes = _homes(docs, spoken)
    given = {name.casefold() for name in names}
    return [[_of(word, language, homes, given) for word in doc] for doc, language in zip(docs, spoken, strict=True)]


def languages_of(texts: Sequence[str], languages: Iterable[str]) -> list[str]:
    """The language of each text, among those given; which of them comes first makes no difference."""
    import numpy as np

    codes = sorted(set(languages))
    own = np.array([likenesses(text, codes) for text in texts], np.float32).reshape(len(texts), len(codes))
    own += KNOWN * np.array([[_known(text, code) for code in codes] for text in texts]).reshape(own.shape)
    share = own / np.maximum(own.sum(axis=1, keepdims=True), 1)
    padded = np.vstack([np.zeros((BESIDE, len(codes))), share, np.zeros((BESIDE, len(codes)))])
    beside = sum(padded[at : at + len(texts)] for at in range(2 * BESIDE + 1) if at != BESIDE) / (2 * BESIDE)
    usual = share.sum(axis=0) / max(1e-9, share.sum())
    return [codes[at] for at in (own + WORTH * beside + 1e-3 * usual).argmax(axis=1)]


def understood(words: Sequence[Word], known: Iterable[str]) -> list[Word]:
    """The words of one line by itself; one with a capital that is not known in its language may be in another's."""
    stems = set(known)
    others = {}
    for one in stems:
        others.setdefault(bare(one)[0], one)
    return [
        dataclasses.replace(word, stem=others.get(bare(word.stem)[0], word.stem))
        if word.stem not in stems and word.spelling[:1].isupper() else word
        for word in words
    ]  # fmt: skip


def _known(text: str, code: str) -> int:
    table = background(code)
    return sum(word.stem in table.rows for word in content_words(text, languages=(code,))) if table else 0


def _homes(docs: Sequence[Sequence[Word]], spoken: Sequence[str]) -> dict[str, str]:
    """Spelling of what keeps its capital in several languages -> the language of most of its lines."""
    lines: dict[str, Counter[str]] = {}
    for doc, language in zip(docs, spoken, strict=True):
        for spelling in {word.spelling for word in doc if not word.opens and word.spelling[:1].isupper()}:
            lines.setdefault(spelling, Counter())[language] += 1
    return {name: min(by, key=lambda code: (-by[code], code)) for name, by in lines.items() if len(by) > 1}


def _of(word: Word, language: str, homes: dict[str, str], given: set[str]) -> Word:
    if word.spelling.casefold() in given:
        return word
    home = homes.get(word.spelling)
    own = word.stem if home in (None, language) else stem(word.spelling, home)
    return dataclasses.replace(word, stem=keyed(own, home or language))
