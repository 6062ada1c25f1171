"""The text that the index of words sees, where it differs from the line's.

SQLite's tokeniser drops accents that Unicode can take apart (e, n, u) but not
letters such as o with a stroke, and takes a run of Chinese, Japanese or Thai
for one word. Both are mended here, the same for lines and for what is sought.
"""

import re
import unicodedata
from collections.abc import Iterable
from functools import cache

from keeper.plain_letters import LETTERS, with_capitals, without_marks

_LETTERS = str.maketrans(with_capitals(LETTERS) | {"ẞ": "Ss", "\u2019": "'"})

_UNSPACED = (
    "(["
    "\u0e00-\u0e7f\u0e80-\u0eff\u0f00-\u0fff\u1000-\u109f\u1780-\u17ff"
    "\u3040-\u30ff\u31f0-\u31ff\u3400-\u4dbf\u4e00-\u9fff\uf900-\ufaff\uff66-\uff9d"
    "\U00020000-\U0003ffff"
    "])"
)


def folded(text: str) -> str:
    """The text as the index sees it: letters folded, unspaced scripts spaced."""
    plain = unicodedata.normalize("NFC", text).translate(_LETTERS)
    return _unspaced().sub(r" \1 ", plain) if not plain.isascii() else plain


@cache
def _unspaced() -> re.Pattern:
    # Compiling so wide a class takes as long as opening the keeper.
    return re.compile(_UNSPACED)


@cache
def _unspaced_runs() -> re.Pattern:
    return re.compile(f"{_UNSPACED[:-1]}+)")


def phrase(words: str) -> str:
    """Words one after another, as a question to the index (FTS5, section 3)."""
    return '"' + folded(words).replace('"', " ") + '"'


def any_named(names: Iterable[str]) -> str:
    """What the index of words is asked for lines with any of these names; "" for none.

    In Korean particles are written on to a name: there it is whatever begins so.
    """
    return " OR ".join(phrase(name) + ("*" if "\uac00" <= name.rstrip()[-1:] <= "\ud7a3" else "") for name in names)


def pieces(text: str) -> list[str]:
    """The words of a text, folded; where there are no spaces, each two letters beside one another, or one alone."""
    plain = unicodedata.normalize("NFC", text).translate(_LETTERS)
    found: list[str] = []
    for word in re.findall(r"[^\W_]+", plain) if plain.isascii() else _runs(plain):
        if unspaced(word) and len(word) > 2:
            found += (word[at : at + 2] for at in range(len(word) - 1))
        else:
            found.append(word)
    return found


def unspaced(word: str) -> bool:
    """Whether a word is of a script without spaces."""
    return not word.isascii() and _unspaced().match(word) is not None


def _runs(text: str) -> list[str]:
    parts = _unspaced_runs().split(text)
    return [run for part in parts for run in ([part] if unspaced(part) else re.findall(r"[^\W_]+", part))]


def folded_or_none(text: str) -> str | None:
    """``folded(text)``, or None where that is the text itself."""
    if text.isascii():
        return None
    seen = folded(text)
    return None if seen == text else seen


def bare(text: str) -> str:
    """Lower case, no accents: for telling whether two names are the same."""
    # Most names are, and all names are compared at once.
    if text.isascii():
        return " ".join(text.lower().split())
    return " ".join(without_marks(folded(text).casefold()).split())
