"""Names of people in a person's lines: whether they are said, and which might be marked."""

import re
import unicodedata
from collections import Counter
from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from keeper.study.words import guess_language, stop_words, words

LEAST_LINES = 3
"""In so many lines a name has to stand before it is worth a question."""

SMALL_SHARE = 0.2
"""A word written small more often than this, against its capitals, is no name."""

# Scripts without spaces: a name there has no edges that could be told.
_UNSPACED = "\u0e00-\u0eff\u1000-\u109f\u1780-\u17ff\u3041-\u30ff\u3400-\u4dbf\u4e00-\u9fff\uf900-\ufaff\U00020000-\U0003ffff"
_CAPITAL = "A-Z\u00c0-\u00de\u0100-\u024f\u0370-\u03ff\u0400-\u052f\u1e00-\u1eff"
_WORD = rf"[{_CAPITAL}][^\W\d_]+"
_RUN = re.compile(rf"(?<!\w)(?<!\w[-'\u2019])({_WORD}(?:[ -]{_WORD})*)(?!\w)")
_BEFORE = re.compile(r"(\w+)[,;)]? $")
_FAR, _LONGEST = 40, 3

# After these, half the time or more, stands no person: the Mule, in Sweden, at Christmas.
_BEFORE_THINGS = frozenset({"the", "a", "an", "in", "at"})


def mentions(text: str, name: str) -> bool:
    """Whether a name stands in a text as words of its own.

    A name that begins with a capital is met with one, so that Will is not
    found in every "will"; one written small is met either way.
    """
    return bool(name.strip()) and _as_words((name,), name.lstrip()[0].isupper()).search(_composed(text)) is not None


def mentions_any(text: str, names: Iterable[str]) -> bool:
    """Whether any of the names, such as one person's spellings, stands in a text."""
    return any(mentions(text, name) for name in names)


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
    return ("" if _unspaced(parts[0][0]) else open_) + inside + ("" if _unspaced(parts[-1][-1]) else close)


def _unspaced(letter: str) -> bool:
    return re.match(f"[{_UNSPACED}]", letter) is not None


def _composed(text: str) -> str:
    return text if text.isascii() else unicodedata.normalize("NFC", text)


@dataclass(frozen=True, slots=True)
class Suggestion:
    """What might be someone's name, and in how many lines it stands within a sentence."""

    name: str
    lines: int


def suggested(
    texts: Iterable[str], known: Collection[str] = (), languages: Sequence[str] = ("en",), most: int = 8
) -> tuple[Suggestion, ...]:
    """Words with a capital that recur and begin no sentence, the commonest first.

    ``known`` are names that need no question (people marked, places). Lines in
    German are passed over: there every noun has a capital.
    """
    heard = [text for text in map(_composed, texts) if "de" not in languages or guess_language(text, languages) != "de"]
    said, as_things = Counter(), Counter()
    for text in heard:
        inside = _inside(text)
        said.update(inside.keys())
        as_things.update(name for name, before in inside.items() if before in _BEFORE_THINGS)
    strange = _strange(known, languages)
    likely = [name for name, times in said.items() if times >= LEAST_LINES and 2 * as_things[name] < times and strange(name)]
    small = _written_small(heard, likely)
    found = [name for name in likely if small[name.casefold()] <= SMALL_SHARE * said[name]]
    told = (Suggestion(name, said[name]) for name in _wholes(found, said))
    return tuple(sorted(told, key=lambda one: (-one.lines, one.name))[:most])


def _inside(text: str) -> dict[str, str]:
    """The words with a capital that begin no sentence, one after another taken together, each with the word before."""
    found = {}
    for match in _RUN.finditer(text):
        before = _BEFORE.search(text, max(0, match.start() - _FAR), match.start())
        if before and len(match[1].split()) <= _LONGEST:
            found[match[1]] = before[1].casefold()
    return found


def _strange(known: Collection[str], languages: Sequence[str]) -> Callable[[str], bool]:
    """Tells whether a name has a word that is neither known nor a small word of the languages."""
    dull = {word.casefold() for name in known for word in words(_composed(name))}
    dull = dull.union(*(stop_words(code) for code in languages))
    return lambda name: any(word.casefold() not in dull for word in words(name))


def _written_small(texts: Iterable[str], names: Collection[str]) -> Counter[str]:
    """In how many lines each of the names of one word stands without its capital, by the word in small letters."""
    single = [re.escape(name.lower()) for name in names if " " not in name]
    if not single:
        return Counter()
    pattern = re.compile(rf"(?<!\w)(?:{'|'.join(single)})(?!\w)")
    return Counter(word.casefold() for text in texts for word in set(pattern.findall(text)))


def _wholes(names: Collection[str], said: Counter[str]) -> list[str]:
    """Without names that are mostly said as part of a longer one, such as Petersen beside Frau Petersen."""
    longer = {word: name for name in names if " " in name for word in name.split()}
    return [name for name in names if name not in longer or said[name] > said[longer[name]]]
