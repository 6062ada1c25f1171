"""Words written together, as German, Dutch and the northern languages do: Pilzsuppe is of Pilze, and of soup.

A word is parted where its parts are words of the person's own lines (P. Koehn and K. Knight, Empirical methods for
compound splitting, EACL 2003: parts that the corpus has, the likeliest by how often it has them).
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from keeper.study.language.words import Word
from keeper.study.themes.naming import spelling_table
from keeper.study.tongues.keyed import bare, keyed

LANGUAGES = frozenset({"de", "nl", "sv", "da", "no", "fi"})
SHORTEST, PART = 8, 4  # letters of a stem that may be parted, and of a part
TIMES = 2  # lines in which a part has to stand by itself
_LINKS = ("", "s", "es", "n", "en", "er", "e")
# What only bends a verb is no part: vergessen has nothing of essen.
_PREFIX = re.compile("(?:ver|zer|ent|emp|ont|miss|för|be|ge|er|her)[a-zäöüåæø]{0,1}")


def parts(stem: str, seen: Mapping[str, int]) -> tuple[str, ...]:
    """The stems that a stem is made of, or () where it is made of none; `seen`: in how many lines each stem stands."""
    if len(stem) < SHORTEST:
        return ()
    return _both(stem, seen) or _one(stem, seen)


def _both(stem: str, seen: Mapping[str, int]) -> tuple[str, ...]:
    found = [
        (seen[head] * seen[tail], head, tail)
        for at in range(PART, len(stem) - PART + 1)
        for head, tail in _cut(stem, at)
        if _often(head, seen) and _often(tail, seen)
    ]
    return max(found)[1:] if found else ()


def _cut(stem: str, at: int) -> list[tuple[str, str]]:
    head, tail = stem[:at], stem[at:]
    heads = (head.removesuffix(link) if link else head for link in _LINKS if head.endswith(link))
    return [(head, tail) for head in heads if len(head) >= PART]


def _one(stem: str, seen: Mapping[str, int]) -> tuple[str, ...]:
    """The longest tail and the longest head that are words, each where it is one."""
    tails = (stem[at:] for at in range(PART - 1, len(stem) - PART + 1) if not _PREFIX.fullmatch(stem[:at]))
    heads = (stem[:at] for at in range(len(stem) - PART + 1, PART - 1, -1))
    found = (next((part for part in some if _often(part, seen)), "") for some in (tails, heads))
    return tuple(part for part in found if part)


def _often(stem: str, seen: Mapping[str, int]) -> bool:
    return seen.get(stem, 0) >= TIMES


def seen_in(docs: Sequence[Sequence[str]]) -> Counter[str]:
    """In how many lines each stem stands."""
    return Counter(stem for doc in docs for stem in set(doc))


def parted(docs: Sequence[Sequence[str]], seen: Mapping[str, int]) -> list[list[str]]:
    """The stems of each line, those made of others given way to them."""
    known = _made({stem for doc in docs for stem in doc}, seen)
    return [[part for stem in doc for part in known.get(stem) or (stem,)] for doc in docs]


def _made(stems: Iterable[str], seen: Mapping[str, int]) -> dict[str, tuple[str, ...]]:
    """Of each stem the stems of its own language that it is made of."""
    by_language: dict[str, dict[str, int]] = {}
    for stem, times in seen.items():
        word, language = bare(stem)
        by_language.setdefault(language, {})[word] = times
    made = {}
    for stem in stems:
        word, language = bare(stem)
        if not language:
            made[stem] = parts(word, by_language.get("", {}))
        elif language in LANGUAGES:
            made[stem] = tuple(keyed(part, language) for part in parts(word, by_language.get(language, {})))
    return made


def with_parts(docs: Sequence[Sequence[Word]]) -> list[list[Word]]:
    """The words of each line and, behind each that is made of others, those in the person's usual spelling."""
    seen = seen_in([[word.stem for word in doc] for doc in docs])
    known = _made(seen, seen)
    spelt = spelling_table(docs, {part for found in known.values() for part in found})
    return [
        [one for word in doc for one in (word, *(Word(part, spelt[part]) for part in known.get(word.stem, ())))] for doc in docs
    ]
