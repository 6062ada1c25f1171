"""What a theme is called: the words that set its lines apart, in the person's own spelling."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from keeper.study.words import Word

TERMS = 12
NAME_WORDS = 3
FAINT = 0.35  # a word much lighter than the leading one does not come into the name


@dataclass(frozen=True)
class Term:
    """A stem that belongs to a theme, as the person spells it, with its weight (0..1, the heaviest has 1)."""

    stem: str
    spelling: str
    weight: float


def theme_terms(docs: Sequence[Sequence[Word]], members: Mapping[int, Sequence[int]]) -> dict[int, list[Term]]:
    """Up to twelve terms of each theme, heaviest first.

    `docs`: the words of every line; `members`: theme id -> positions in `docs`. Class-based TF-IDF (Grootendorst 2022):
    lines of the theme with the word, times log(1 + mean words of a theme / how often the word comes up in all), times
    the share of the word's lines that lie within the theme, so that words at home everywhere stay behind.
    """
    overall = Counter(stem for doc in docs for stem in {word.stem for word in doc})
    spellings = spelling_table(docs)
    size = sum(overall.values()) / max(1, len(members))
    return {theme: _terms_of(docs, lines, overall, size, spellings) for theme, lines in members.items()}


def _terms_of(docs, lines: Sequence[int], overall: Counter, size: float, spellings: Mapping[str, str]) -> list[Term]:
    inside = Counter(stem for i in lines for stem in {word.stem for word in docs[i]})
    least = 2 if len(lines) > 3 else 1

    def weight(stem: str) -> float:
        times = inside[stem]
        return times * math.log(1 + size / overall[stem]) * math.sqrt(times / overall[stem])

    ranked = sorted((s for s in inside if inside[s] >= least), key=lambda s: (-weight(s), s))[:TERMS]
    return [Term(stem, spellings[stem], weight(stem) / weight(ranked[0])) for stem in ranked]


def spelling_table(docs: Sequence[Sequence[Word]]) -> dict[str, str]:
    """Stem -> how the person mostly writes it; capitals that only open sentences do not count."""
    forms: dict[str, Counter] = {}
    for doc in docs:
        for word in doc:
            forms.setdefault(word.stem, Counter())[word.spelling, word.opens] += 1
    return {stem: _usual(counts) for stem, counts in forms.items()}


def _usual(written: Counter) -> str:
    folded: Counter = Counter()
    for (spelling, _), times in written.items():
        folded[spelling.casefold()] += times
    usual = min(folded, key=lambda form: (-folded[form], form))
    within: Counter = Counter()
    for (spelling, opens), times in written.items():
        if spelling.casefold() == usual and not opens:
            within[spelling] += times
    if within:
        return min(within, key=lambda s: (-within[s], s))
    return usual


def theme_names(terms: Mapping[int, Sequence[Term]]) -> dict[int, str]:
    """Theme id -> its name of two to four words; no two begin with the same word.

    Themes are named in the order of `terms`; a word that already leads an earlier name moves back in a later one.
    """
    taken: set[str] = set()
    names = {}
    for theme, own in terms.items():
        free = [term for term in own if term.spelling.casefold() not in taken]
        lead = free[:1] or list(own[:1])
        rest = [t for t in own if t not in lead and t.weight >= FAINT * (lead[0].weight if lead else 1)]
        if not rest:
            rest = [t for t in own if t not in lead][:1]
        chosen = [t.spelling for t in lead + rest[: NAME_WORDS - 1]]
        taken.update(word.casefold() for word in chosen[:1])
        names[theme] = ", ".join(chosen)
    return names
