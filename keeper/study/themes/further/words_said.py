"""The words by which a person begins a theme: which lines have them.

A line has a word by its stem, in any of the languages that lines are in; of a word that no line has so, by how its words
begin, as what is typed is found everywhere else. Of several words said together a line has to have all.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from keeper.plain_letters import LETTERS, without_marks
from keeper.study.language.words import Word, content_words
from keeper.study.tongues.keyed import bare

if TYPE_CHECKING:
    from keeper.study.themes.fitted import Speech

_PLAINLY = str.maketrans(LETTERS)
_UNSPACED = "\u2e80"  # from this letter on words may have no edges


@dataclass(frozen=True)
class Having:
    """The lines that have one of the words, and the stems by which these are known."""

    lines: tuple[str, ...]
    stems: frozenset[str]


def telling(said: Sequence[str], speech: Speech) -> bool:
    """Whether any of the words tells what a line is about; the small words of a language do not, a number does."""
    return any(_in_each_language(one, speech) or _number(one) for one in said)


def having(
    said: Sequence[str], speech: Speech, ids: Sequence[str], docs: Sequence[Sequence[Word]], texts: Sequence[str] = ()
) -> Having:
    """The lines `ids` that have one of the words `said`; `docs`: the words of each, `texts`: what it says, where at hand."""
    lines, stems = set(), set()
    for one in said:
        parts = _in_each_language(one, speech)
        at, its = _by_stems(parts, docs)
        if not at and (parts or _number(one)):
            at, its = _by_beginning(one, docs, texts)
        lines.update(at)
        stems |= its
    return Having(tuple(ids[i] for i in sorted(lines)), frozenset(stems))


def _in_each_language(one: str, speech: Speech) -> set[tuple[str, ...]]:
    """The stems of what is said, as each language has them, in which it says anything at all."""
    told = {"leave_out": frozenset(speech.leave_out), "names": speech.names}
    found = {tuple(word.stem for word in content_words(one, languages=(code,), **told)) for code in speech.languages}
    return found - {()}


def _by_stems(parts: Iterable[tuple[str, ...]], docs: Sequence[Sequence[Word]]) -> tuple[list[int], set[str]]:
    wanted = [frozenset(stems) for stems in parts]
    every = frozenset().union(*wanted)
    at, found = [], set()
    for i, doc in enumerate(docs):
        its = {bare(word.stem)[0]: word.stem for word in doc} if every else {}
        if any(stems <= its.keys() for stems in wanted):
            at.append(i)
            found.update(its[stem] for stem in every & its.keys())
    return at, found


def _by_beginning(one: str, docs: Sequence[Sequence[Word]], texts: Sequence[str]) -> tuple[list[int], set[str]]:
    begun = _begun_so(one)
    at = [i for i, text in enumerate(texts or [" ".join(word.spelling for word in doc) for doc in docs]) if begun(_plain(text))]
    single = [_begun_so(part) for part in one.split()]
    return at, {word.stem for i in at for word in docs[i] if any(begins(_plain(word.spelling)) for begins in single)}


def _begun_so(one: str) -> Callable[[str], bool]:
    parts = re.findall(r"[^\W_]+", _plain(one))
    patterns = [re.compile(("" if part[0] >= _UNSPACED else r"(?<![^\W_])") + re.escape(part)) for part in parts]
    return lambda plain: bool(patterns) and all(pattern.search(plain) for pattern in patterns)


def _plain(text: str) -> str:
    return without_marks(text.casefold().translate(_PLAINLY))


def _number(one: str) -> bool:
    return any(letter.isdigit() for letter in one)
