"""What a theme is called: the words that set its lines apart, in the person's own spelling."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass

from keeper.study.words import Word, measures

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
    the share of the word's lines that lie within the theme, so that words at home everywhere stay behind. Twice: the
    first weights tell which lines are made of the theme's own words, and these count more for the second, as hubs and
    authorities do (Kleinberg 1999); so a name is taken from the middle of a theme. A word that is part of a heavier
    term, as a name's first word is, is no term of its own.
    """
    sets = [{word.stem for word in doc} for doc in docs]
    overall = Counter(stem for stems in sets for stem in stems)
    size = sum(overall.values()) / max(1, len(members))
    weights = {theme: _weights([sets[i] for i in lines], overall, size) for theme, lines in members.items()}
    spellings = spelling_table(docs, {stem for own in weights.values() for stem in own})
    return {theme: _terms_of(own, spellings) for theme, own in weights.items()}


def _terms_of(weights: Mapping[str, float], spellings: Mapping[str, str]) -> list[Term]:
    kept = _without_parts(list(weights), spellings)
    return [Term(stem, spellings[stem], weights[stem] / weights[kept[0]]) for stem in kept]


def _weights(lines: Sequence[Set[str]], overall: Counter, size: float) -> dict[str, float]:
    """Stem -> weight in a theme of these lines, heaviest first; twice as many as are terms in the end."""
    inside = Counter(stem for stems in lines for stem in stems)
    least = 2 if len(lines) > 3 else 1
    rare = {s: math.log(1 + size / overall[s]) * math.sqrt(inside[s] / overall[s]) for s in inside if inside[s] >= least}
    weights = {stem: inside[stem] * factor for stem, factor in rare.items()}
    loud = dict.fromkeys(rare, 0.0)
    for stems in lines:
        share = sum(sorted(weights.get(stem, 0.0) for stem in stems)) / max(1, len(stems))
        for stem in stems & rare.keys():
            loud[stem] += share
    weights = {stem: loud[stem] * factor for stem, factor in rare.items()}
    ranked = sorted(weights, key=lambda stem: (-weights[stem], stem))[: 2 * TERMS]
    return {stem: weights[stem] for stem in ranked}


def _without_parts(ranked: Sequence[str], spellings: Mapping[str, str]) -> list[str]:
    """The first twelve, leaving out what is a word of a name before it, or a name that has one."""
    kept: list[str] = []
    taken: set[str] = set()
    for stem in ranked:
        parts = {stem, *spellings[stem].casefold().split()}
        if not parts & taken:
            kept.append(stem)
            taken |= parts if " " in stem else {stem}
    return kept[:TERMS]


def spelling_table(docs: Sequence[Sequence[Word]], stems: Set[str]) -> dict[str, str]:
    """Stem, of those wanted -> how the person mostly writes it; capitals that only open sentences do not count."""
    forms: dict[str, Counter] = {}
    for doc in docs:
        for word in doc:
            if word.stem in stems:
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
    Numbers and measures come into a name only when there is nothing else: "degrees" is no name for swimming.
    """
    taken: set[str] = set()
    names = {}
    for theme, listed in terms.items():
        own = [term for term in listed if term.spelling.casefold() not in measures()] or listed
        free = [term for term in own if term.spelling.casefold() not in taken]
        lead = free[:1] or list(own[:1])
        rest = [t for t in own if t not in lead and t.weight >= FAINT * (lead[0].weight if lead else 1)]
        if not rest:
            rest = [t for t in own if t not in lead][:1]
        chosen = [t.spelling for t in lead + rest[: NAME_WORDS - 1]]
        taken.update(word.casefold() for word in chosen[:1])
        names[theme] = ", ".join(chosen)
    return names
