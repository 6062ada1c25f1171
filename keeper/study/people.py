"""Names of people in a person's lines: whether they are said. Which might be marked: ``names_likely``."""

import re
import unicodedata
from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import lru_cache
from itertools import accumulate

from keeper.study.language import korean

# Scripts without spaces: a name there has no edges that could be told.
_UNSPACED = "\u0e00-\u0eff\u1000-\u109f\u1780-\u17ff\u3041-\u30ff\u3400-\u4dbf\u4e00-\u9fff\uf900-\ufaff\U00020000-\U0003ffff"

# No name reaches from one text into the next: between them stands a letter that no name has.
_BETWEEN = "\x00\xaa\x00"


def mentions(text: str, name: str) -> bool:
    """Whether a name stands in a text as words of its own.

    A name that begins with a capital is met with one, so that Will is not
    found in every "will"; one written small is met either way.
    """
    return bool(name.strip()) and _as_words((name,), name.lstrip()[0].isupper()).search(_composed(text)) is not None


def mentions_any(text: str, names: Iterable[str]) -> bool:
    """Whether any of the names, such as one person's spellings, stands in a text."""
    return any(mentions(text, name) for name in names)


class ManyTexts:
    """Texts that are asked for many names: laid end to end, so that each name is looked for once in them all."""

    def __init__(self, texts: Sequence[str]) -> None:
        composed = [_composed(text) for text in texts]
        self._all = _BETWEEN.join(composed)
        self._small = self._all.lower()
        ends = accumulate(len(text) + len(_BETWEEN) for text in composed)
        self._begins = [0, *ends][: len(composed)]

    def naming(self, names: Sequence[str]) -> frozenset[int]:
        """The places, from 0, of the texts in which any of the names stands, as ``mentions_any`` tells."""
        return frozenset(place for name in map(_composed, names) if name.strip() for place in self._naming(name.strip()))

    def _naming(self, name: str) -> Iterator[int]:
        pattern = _as_words((name,), name[0].isupper())
        if len(self._small) != len(self._all):
            # A letter that is two as a small one: places in both are not the same.
            yield from (self._place(found.start()) for found in pattern.finditer(self._all))
            return
        # Where its first letters are not, nothing else need be looked at.
        begin = name.split()[0].lower()
        at = self._small.find(begin)
        while at >= 0:
            if pattern.match(self._all, at):
                yield self._place(at)
            at = self._small.find(begin, at + 1)

    def _place(self, at: int) -> int:
        return bisect_right(self._begins, at) - 1


def speaks_of(names: Sequence[str]) -> Callable[[str], bool]:
    """Tells whether a text has any of these names in it, as whole words in any case.

    For what rests: better a line too many kept back than one too few.
    """
    known = tuple(name for name in names if name.strip())
    if not known:
        return lambda text: False
    pattern = _as_words(known, False)
    return lambda text: pattern.search(_composed(text)) is not None


def told_name(name: str, speaks: Callable[[str], bool]) -> str:
    """A theme's name without the words that speak of who rests; "" when the name is led by one."""
    parts = [] if speaks(name.split(", ")[0]) else name.split(", ")
    return ", ".join(part for part in parts if not speaks(part))


@lru_cache(maxsize=512)
def _as_words(names: tuple[str, ...], with_capital: bool) -> re.Pattern[str]:
    spelt = "|".join(_spelt(_composed(name), with_capital) for name in sorted(names, key=len, reverse=True))
    return re.compile(f"(?:{spelt})")


def _spelt(name: str, with_capital: bool) -> str:
    parts = name.split()
    inside = r"\W+".join(map(re.escape, parts))
    if with_capital:
        first = re.escape(parts[0][0])
        inside = f"{first}(?i:{inside[len(first):]})"
    else:
        inside = f"(?i:{inside})"
    open_, close = r"(?<![^\W_])", r"(?![^\W_])"
    inside += korean.behind_name(name)
    return ("" if _unspaced(parts[0][0]) else open_) + inside + ("" if _unspaced(parts[-1][-1]) else close)


def _unspaced(letter: str) -> bool:
    return re.match(f"[{_UNSPACED}]", letter) is not None


def _composed(text: str) -> str:
    return text if text.isascii() else unicodedata.normalize("NFC", text)
