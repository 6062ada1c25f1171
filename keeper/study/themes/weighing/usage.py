"""How the words of a theme stand in its lines: as things, as names, in pairs. A name is made of these.

No dictionary of word classes: a thing shows itself by the small word that opens it ("the bread", "in warm bread") and by
what follows, which is no word that it could belong to. What a person says and does is opened by none.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from keeper.study.language.names_likely import signs
from keeper.study.language.words import Word, stop_words, words

MOST_LINES = 300  # of a theme looked at, spread over all of them
THING_SHARE = 0.08  # of the times that a word is said; of what is done, next to none is opened as a thing is
NAME_SHARE = 0.8  # of the times within a sentence with a capital
PAIR_TIMES, PAIR_SHARE = 3, 0.34  # of the times that a word is said in a theme, in the same pair
LONGEST = 38  # characters of a line that stands for a name
_TOKEN = re.compile(r"([^\W\d_][^\W_]*)|([^\s\w])")


@dataclass(frozen=True)
class Usage:
    """Of a theme: stems that stand as things, or as names; stem -> the pair it mostly stands in; stem -> share of the lines.

    `told`: whether its languages show what is a thing; `line`: the line nearest to its middle, shortened. `subject`: the
    stems that mean what the theme is about, most telling first, and the plainest of them; none where that is not known.
    """

    things: frozenset[str] = frozenset()
    names: frozenset[str] = frozenset()
    pairs: Mapping[str, str] = field(default_factory=dict)
    shares: Mapping[str, float] = field(default_factory=dict)
    told: bool = False
    line: str = ""
    subject: tuple[str, ...] = ()
    plainest: str = ""


def usage(texts: Sequence[str], docs: Sequence[Sequence[Word]], languages: Iterable[str], central: str) -> Usage:
    """How the words `docs` of a theme's lines stand in their `texts`; `central`: the text nearest to its middle."""
    languages = sorted(set(languages))
    step = 1 + len(texts) // MOST_LINES
    some = docs[::step]
    opening = frozenset().union(*(signs(code).get("thing", frozenset()) for code in languages))
    small = frozenset().union(*(stop_words(code) for code in languages))
    stems = {word.spelling.casefold(): word.stem for doc in some for word in doc if " " not in word.spelling}
    said, opened, pairs = Counter(), Counter(), Counter()
    for text in texts[::step]:
        spoken = _spoken(text)
        said.update(stems[word] for word in spoken if word in stems)
        opened.update(stems[spoken[at]] for at in _things(spoken, stems, opening, small))
        pairs.update(_pairs(spoken, stems))
    things = frozenset(stem for stem in opened if opened[stem] >= THING_SHARE * said[stem])
    capital, whole = _capital(some), frozenset(word.stem for doc in some for word in doc if " " in word.spelling)
    # Where every noun has a capital it tells a thing, elsewhere a name.
    lofty = any("title" in signs(code) for code in languages)
    names = whole if lofty else whole | capital
    things = (things | capital if lofty else things) - names
    return Usage(things, names, _usual_pairs(pairs, stems, said, things), _shares(some), bool(opening), shortened(central))


def usages(
    texts: Sequence[str], docs: Sequence[Sequence[Word]], languages: Iterable[str], inside: Mapping[int, Sequence[int]],
    central: Mapping[int, int],
) -> dict[int, Usage]:  # fmt: skip
    """The same of each theme: `inside` has the places of its lines among all, `central` that of the one nearest to its middle.

    Nothing where the texts are not at hand.
    """
    if not texts:
        return {}
    return {theme: usage([texts[i] for i in at], [docs[i] for i in at], languages, texts[central[theme]]) for theme, at in inside.items()}


def shortened(text: str) -> str:
    """The beginning of a line, cut between words; "" where it has no word."""
    text = " ".join(text.split()) if words(text) else ""
    if len(text) <= LONGEST:
        return text
    cut = text[: LONGEST + 1].rsplit(" ", 1)[0] if " " in text[: LONGEST + 1] else text[:LONGEST]
    return cut.rstrip(" ,;:.\u2013\u2014-") + "\u2026"


def _spoken(text: str) -> list[str]:
    """Words in small letters, and "" for what parts them beside spaces."""
    return [(word or "").casefold() for word, _ in _TOKEN.findall(text)]


def _things(spoken: Sequence[str], stems: Collection[str], opening: Collection[str], small: Collection[str]) -> list[int]:
    """Places of the words that are opened as a thing is, and closed by a small word, a mark or the end."""
    found = []
    for at, word in enumerate(spoken):
        after = spoken[at + 1] if at + 1 < len(spoken) else ""
        if word not in stems or (after and after not in small):
            continue
        first = at
        while first > 0 and spoken[first - 1] in stems and at - first < 2:
            first -= 1
        if first and spoken[first - 1] in opening:
            found.append(at)
    return found


def _pairs(spoken: Sequence[str], stems: Mapping[str, str]) -> list[tuple[str, str]]:
    return [(one, two) for one, two in pairwise(spoken) if one in stems and two in stems]


def _usual_pairs(
    pairs: Counter[tuple[str, str]], stems: Mapping[str, str], said: Counter[str], things: Collection[str]
) -> dict[str, str]:
    """Stem -> the pair, ending with a thing, in which it is said again and again."""
    found: dict[str, tuple[int, str]] = {}
    for (one, two), times in sorted(pairs.items()):
        if times >= PAIR_TIMES and stems[two] in things:
            for stem in (stems[one], stems[two]):
                found[stem] = max(found.get(stem, (0, "")), (times, f"{one} {two}"))
    return {stem: pair for stem, (times, pair) in found.items() if times >= PAIR_SHARE * said[stem]}


def _capital(docs: Sequence[Sequence[Word]]) -> frozenset[str]:
    high, within = Counter(), Counter()
    for doc in docs:
        for word in doc:
            if not word.opens:
                within[word.stem] += 1
                high[word.stem] += word.spelling[:1].isupper()
    return frozenset(stem for stem, times in within.items() if high[stem] >= NAME_SHARE * times)


def _shares(docs: Sequence[Sequence[Word]]) -> dict[str, float]:
    seen = Counter(stem for doc in docs for stem in {word.stem for word in doc})
    return {stem: times / max(1, len(docs)) for stem, times in seen.items()}
