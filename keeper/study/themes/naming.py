"""What a theme is called: the words that set its lines apart, in the person's own spelling."""

from __future__ import annotations

import dataclasses
import math
from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence, Set
from dataclasses import dataclass
from itertools import chain

from keeper.study.language.words import Word, measures, words
from keeper.study.themes.weighing.usage import Usage

TERMS = 12
NAME_TERMS, MOST_WORDS = 3, 4
OF_ONE = 0.5  # of the lines; a person that so many name is what they are about
LEAST_TOLD = 0.15  # of the lines, by all things together; fewer are told of better by a line
FAINT = 0.35  # a word much lighter than the leading one does not come into the name; half so light where few lines have that
CAPITALS = 0.4  # of the words within sentences: more than English has, fewer than German
USUAL_WORTH = 8  # words beside, that the share of capitals in all lines is worth


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
    if not members:
        return {}
    sets = [{word.stem for word in doc} for doc in docs]
    overall = Counter(chain.from_iterable(sets))
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
    # Lines that the person put together may have no word in common.
    least = 2 if len(lines) > 3 and sum(times > 1 for times in inside.values()) > 1 else 1
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
    """Stem, of those wanted -> how the person mostly writes it; capitals that only open sentences do not count.

    A word that was never written but as the first of a sentence keeps its capital where the words beside it have
    capitals too, as German nouns do; where few words stand beside it, those of all lines count as well.
    """
    forms: dict[str, Counter] = {}
    for doc in docs:
        for word in doc:
            if word.stem in stems:
                forms.setdefault(word.stem, Counter())[word.spelling, word.opens] += 1
    first_only = {stem for stem, written in forms.items() if all(opens for _, opens in written)}
    lofty = _among_capitals(docs, first_only)
    return {stem: _usual(written, stem in lofty) for stem, written in forms.items()}


def _among_capitals(docs: Sequence[Sequence[Word]], stems: Set[str]) -> set[str]:
    """The stems in whose lines, and in lines as they are here, a good part of the words that open nothing has a capital."""
    if not stems:
        return set()
    beside: dict[str, list[bool]] = {stem: [] for stem in stems}
    for doc in docs:
        for stem in stems.intersection([word.stem for word in doc]):
            beside[stem] += [word.spelling[0].isupper() for word in doc if not word.opens]
    usual = _share_of_capitals(docs)
    return {
        stem for stem, capitals in beside.items()
        if sum(capitals) + USUAL_WORTH * usual >= CAPITALS * (len(capitals) + USUAL_WORTH)
    }  # fmt: skip


def _share_of_capitals(docs: Sequence[Sequence[Word]]) -> float:
    within = [word.spelling[0].isupper() for doc in docs for word in doc if not word.opens]
    return sum(within) / len(within) if within else 0.0


def _usual(written: Counter, lofty: bool) -> str:
    folded: Counter = Counter()
    for (spelling, _), times in written.items():
        folded[spelling.casefold()] += times
    usual = min(folded, key=lambda form: (-folded[form], form))
    within: Counter = Counter()
    for (spelling, opens), times in written.items():
        if spelling.casefold() == usual and (lofty or not opens):
            within[spelling] += times
    if within:
        return min(within, key=lambda s: (-within[s], s))
    return usual


def first_word(name: str) -> str:
    """The word that leads a name, by which it is told from others; in small letters."""
    return next(iter(words(name) or name.split()), "").casefold()


def theme_names(
    terms: Mapping[int, Sequence[Term]], said: Mapping[int, str] | None = None, usages: Mapping[int, Usage] | None = None,
    mixed: Collection[int] = (),
) -> dict[int, str]:  # fmt: skip
    """Theme id -> its name; no two begin with the same word, as far as they are ours and made of words.

    `said`: the names that the person gave; they stay. The others are named in the order of `terms`; a word that already
    leads a name moves back in a later one. Numbers and measures come into a name only when there is nothing else:
    "degrees" is no name for swimming. `usages` tells how the words stand in the lines: then a name is one person where
    half the lines name them, a pair that is used as such, or at most two things, and where no word is one of these, the
    line nearest to the middle; without it, up to three words of any kind. `mixed`: ids of themes whose lines have little in
    common: one thing alone does not say what these are about; a fainter second is said too, or else the line.
    """
    names = {theme: name for theme, name in (said or {}).items() if theme in terms}
    taken = {first_word(name) for name in names.values()}
    for theme, listed in terms.items():
        if theme not in names:
            used = (usages or {}).get(theme)
            names[theme] = (_said_name(listed, used, taken, theme in mixed) if used else "") or _name(theme, listed, taken)
            taken.add(first_word(names[theme]))
    return names


def named_by(used: Usage) -> frozenset[str]:
    """The stems of the names that half the lines or more have: so many lines are about whoever or whatever is called so."""
    return frozenset(stem for stem in used.names if used.shares.get(stem, 0) >= OF_ONE)


def known_by(terms: Sequence[Term], used: Usage | None) -> frozenset[str]:
    """The stems of a theme's subject, by which one sees why a line is there; all its terms where that is not known."""
    return frozenset(used.subject if used and used.subject else [term.stem for term in terms])


def _said_name(listed: Sequence[Term], used: Usage, taken: Set[str], mixed: bool) -> str:
    """The name as people would say it; "" where the words of its language do not show what they are."""
    plain = [term for term in listed if term.spelling.casefold() not in measures()]
    free = [term for term in plain if first_word(term.spelling) not in taken]
    person = next((term for term in free if term.stem in named_by(used)), None)
    if person:
        return person.spelling
    if not used.told:
        return ""
    # A word that many of the lines have says more than one that is only rare elsewhere.
    weight = {term.stem: term.weight * math.sqrt(used.shares.get(term.stem, 0)) for term in plain}
    if not any(_is_thing(term, used) for term in plain):
        # What the lines have in common is a measure, which is no name.
        used = dataclasses.replace(used, subject=(), plainest="")
    things = sorted((term for term in plain if _is_thing(term, used)), key=lambda t: -weight[t.stem])
    lead = next((term for term in things if term in free), None)
    if lead is None or sum(used.shares.get(term.stem, 0) for term in plain if term in things or term.stem in used.subject) < LEAST_TOLD:
        return used.line
    pair = used.pairs.get(lead.stem, "")
    if pair and first_word(pair) not in taken:
        return pair
    beside = [term for term in things if term != lead]
    beside += [term for term in plain if term.stem in used.names and used.shares.get(term.stem, 0) >= OF_ONE / 2]
    few = used.subject and used.shares.get(lead.stem, 0) < OF_ONE
    least = weight[lead.stem] * (FAINT / 2 if mixed or few else FAINT)
    second = next((term for term in beside if weight[term.stem] >= least), None)
    alone = used.line if mixed and used.line else lead.spelling
    return f"{lead.spelling}, {second.spelling}" if second else alone


def _is_thing(term: Term, used: Usage) -> bool:
    """Whether a name may be made of it: a thing, and of the subject where that is known; of a subject without things the plainest word."""
    if used.subject and not used.things.intersection(used.subject):
        return term.stem == used.plainest
    return term.stem in used.things and (not used.subject or term.stem in used.subject)


def _name(theme: int, listed: Sequence[Term], taken: Set[str]) -> str:
    plain = [term for term in listed if term.spelling.casefold() not in measures()]
    ranked = plain + [term for term in listed if term not in plain]
    lead = next((term for term in ranked if first_word(term.spelling) not in taken), None)
    if lead is None:
        # Lines without a word of their own, such as a smile: the theme's number tells it from the others.
        return f"{_nth(theme)} {ranked[0].spelling if ranked else 'theme'}"
    rest = [term for term in plain if term != lead and term.weight >= FAINT * lead.weight]
    return ", ".join(_fitting([lead, *(rest or [term for term in ranked if term != lead][:1])]))


def _fitting(terms: Iterable[Term]) -> list[str]:
    """The first few spellings that together are not too many words; the first in any case."""
    chosen: list[str] = []
    for term in terms:
        length = sum(len(spelling.split()) for spelling in (*chosen, term.spelling))
        if not chosen or (len(chosen) < NAME_TERMS and length <= MOST_WORDS):
            chosen.append(term.spelling)
    return chosen


def _nth(number: int) -> str:
    ending = "th" if number % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"
