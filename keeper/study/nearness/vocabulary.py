"""The words of all lines, in order, so that those with one beginning lie side by side."""

import re
from bisect import bisect_left
from collections.abc import Iterable, Sequence

from keeper.plain_letters import without_marks

_END = "\U0010ffff"
_LATIN = re.compile("[\u0000-\u024f]*")


class Vocabulary:
    """Words as the index spells them (``spelt``), and plainly, without any marks (``plain``), sorted by the latter.

    A word is told by its place in both.
    """

    def __init__(self, spelt: Iterable[str]) -> None:
        # Where both are the same they are one object.
        both = sorted((plain(word), word) for word in spelt)
        self.plain = [one for one, _ in both]
        self.spelt = [word if word != one else one for one, word in both]
        self._joined: str | None = None

    def __len__(self) -> int:
        return len(self.plain)

    def same(self, word: str) -> range:
        """The places of a plain word: several where only marks tell them apart."""
        return range(bisect_left(self.plain, word), bisect_left(self.plain, word + "\0"))

    def beginning(self, letters: str) -> range:
        """The places of all plain words with this beginning."""
        return range(bisect_left(self.plain, letters), bisect_left(self.plain, letters + _END))

    def holding(self, letters: str) -> Sequence[int]:
        """The places of longer plain words that have these letters within them or at their end."""
        if self._joined is None:
            self._joined = "\n".join(["", *self.plain, ""])
        found, at = set(), 0
        while (at := self._joined.find(letters, at)) >= 0:
            begin, end = self._joined.rfind("\n", 0, at) + 1, self._joined.find("\n", at)
            if begin < at:
                found.add(self._joined[begin:end])
            at = end
        return sorted(place for word in found for place in self.same(word))


def plain(word: str) -> str:
    """A word of the index in lower case, without marks."""
    return word if word.isascii() else without_marks(word.casefold())


def spelt(word: str) -> str:
    """A folded word as the index spells it: only Latin letters lose their marks."""
    low = word.casefold()
    return without_marks(low) if _LATIN.fullmatch(low) else low
