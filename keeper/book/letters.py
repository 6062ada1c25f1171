"""A person's words made ready to be set: in paragraphs, and with nothing in them that no typeface can show."""

import re
import unicodedata
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import cache

from keeper.book.coverage import Letters
from keeper.study.language.direction import runs_left

SIGN = "\u25a1"
"""Stands for a letter that no typeface of the book has."""

_TURNING = re.compile("[\u202a-\u202e\u2066-\u2069]")
_BYTE_ORDER = "\ufeff"
_BREAKS = re.compile("\r\n|[\n\r\x0b\x0c\x85\u2028\u2029]")
_UNSEEN = re.compile("[\u00ad\u034f\u061c\u200b-\u200f\u2060-\u2064\ufe00-\ufe0f\U000e0020-\U000e007f]")
_LONG = re.compile(r"[^\s\u2e80-\ua4cf\uac00-\ud7af\uf900-\ufaff\U0001f000-\U0003ffff]{30,}")
_SOFT_BREAK = "\u200b"
_APART, _TOGETHER = "\u2068", "\u2069"


@dataclass
class Compositor:
    """Makes texts ready, and remembers what could not be shown.

    ``refused`` are letters that typst would not set although a typeface has them.
    """

    faces: Sequence[Letters]
    refused: set[str] = field(default_factory=set)
    missing: Counter[str] = field(default_factory=Counter)
    turned: int = 0

    def paragraphs(self, text: str, language: str = "") -> list[dict]:
        """The paragraphs of a text: ``t`` its letters, ``r`` from right to left, ``l`` its language."""
        return [self._paragraph(part, language) for part in paragraphs_of(text)]

    def plain(self, text: str) -> str:
        """A text that stands within a row, whichever way it runs itself."""
        shown = self._shown(_BREAKS.sub(" ", text))
        turns = any(unicodedata.bidirectional(letter) in ("R", "AL") for letter in shown)
        return f"{_APART}{shown}{_TOGETHER}" if turns else shown

    def told(self) -> tuple[str, ...]:
        """What could not be shown, as sentences."""
        told = []
        if self.missing:
            shown = ", ".join(_named(letter) for letter, _ in self.missing.most_common(8))
            more = ", and others" if len(self.missing) > 8 else ""
            told.append(f"No typeface of the book has these letters, so a square stands for them: {shown}{more}.")
        if self.turned:
            told.append("Marks that turn the direction of writing were left out.")
        return tuple(told)

    def forget(self) -> None:
        """Begin anew to remember."""
        self.missing.clear()
        self.turned = 0

    def _paragraph(self, text: str, language: str) -> dict:
        shown = self._shown(text)
        return {"t": shown, "r": runs_left(shown), "l": _language(shown, language)}

    def _shown(self, text: str) -> str:
        if text.isascii() and text.isprintable() and not self.refused:
            return _breakable(text)
        # A mark of byte order is no letter, and PDF/A forbids it.
        plain = text.replace("\t", " ").replace(_BYTE_ORDER, "")
        straight = _TURNING.sub("", plain)
        self.turned += straight != plain
        return _breakable("".join(self._cluster(one) for one in _clusters(straight)))

    def _cluster(self, cluster: str) -> str:
        bare = _UNSEEN.sub("", cluster)
        if not (self.refused & set(bare)) and self._covered(bare):
            return cluster
        kept = "".join(letter if self._covered(letter) and letter not in self.refused else SIGN for letter in bare)
        # A mark may be in one face and its letter in another; they cannot be set as one.
        shown = kept if kept != bare else bare[:1] + SIGN * (len(bare) - 1)
        self.missing.update(was for was, now in zip(bare, shown, strict=True) if was != now)
        return shown

    def _covered(self, cluster: str) -> bool:
        if unicodedata.category(cluster[:1] or " ") in ("Cc", "Cs"):
            return False
        spelt = {cluster, unicodedata.normalize("NFC", cluster)}
        return any(face.issuperset(map(ord, one)) for one in spelt for face in self.faces)


def paragraphs_of(text: str) -> list[str]:
    """The paragraphs of a text as it was written."""
    return [part for part in _BREAKS.split(text) if part.strip()]


def _named(letter: str) -> str:
    code = f"U+{ord(letter):04X}"
    return f"{letter} ({code})" if letter.isprintable() and not letter.isspace() else code


def _clusters(text: str) -> Iterable[str]:
    """Each letter with the marks upon it."""
    held = ""
    for letter in text:
        if held and unicodedata.category(letter) in ("Mn", "Mc", "Me"):
            held += letter
            continue
        if held:
            yield held
        held = letter
    if held:
        yield held


@cache
def _script(letter: str) -> str:
    return unicodedata.name(letter, "").split(" ")[0]


_BY_SCRIPT = {
    "HEBREW": "he", "ARABIC": "ar", "CJK": "zh", "HIRAGANA": "ja", "KATAKANA": "ja", "HANGUL": "ko", "GREEK": "el",
}  # fmt: skip


def _language(text: str, guessed: str) -> str:
    """The language that parts its words: told by the script where that tells, else the one guessed."""
    if text.isascii():
        return guessed or "en"
    told = Counter(_BY_SCRIPT.get(_script(letter), "") for letter in text if letter.isalpha())
    if told["ja"]:
        return "ja"
    best = told.most_common(1)[0][0] if told else ""
    return best or guessed or "en"


def _breakable(text: str) -> str:
    """The text with places to break in words that no line could hold."""
    if len(text) < 30:
        return text
    return _LONG.sub(lambda found: _SOFT_BREAK.join(_pieces(found.group())), text)


def _pieces(word: str) -> Iterable[str]:
    held = ""
    for cluster in _clusters(word):
        if len(held) >= 8:
            yield held
            held = ""
        held += cluster
    yield held
