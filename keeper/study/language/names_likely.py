"""Names in a person's lines that might be marked as somebody's: what tells them is another thing in each language.

Where nouns are written small, it is a capital within a sentence. In German every noun has one: there it is a title or kin
before the name (Frau Schäfer, Oma Hilde), or that what has no article does what only people do. In Japanese it is what
honours behind the name. Where names bend (Anna, Annę, Anny), those of one stem are one, all spellings together.
"""

import re
import unicodedata
from collections import Counter, defaultdict
from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from keeper.shipped import resource
from keeper.study.language import japanese
from keeper.study.language.words import guess_language, stem, stop_words, words

LEAST_LINES = 3
"""In so many lines a name has to stand before it is worth a question."""

SMALL_SHARE = 0.2
"""A word written small more often than this, against its capitals, is no name."""

LEAST_DEEDS = 2
"""In so many lines somebody without a title has to do what people do, where every noun has a capital."""

_LONGEST, _FAR = 3, 40
_BEFORE = re.compile(r"(\w+)[,;)]? $")
_NEAR = re.compile(r"([^\W\d_]+)(\W*)")
_MOSTLY = 0.75
_GENITIVE = "s"


@dataclass(frozen=True, slots=True)
class Suggestion:
    """What might be someone's name, and in how many lines it stands; several spellings have commas between."""

    name: str
    lines: int


@lru_cache(maxsize=1)
def _run() -> re.Pattern[str]:
    """One word with a capital after another; an apostrophe or hyphen before makes it a part of another word."""
    capital = "".join(letter for letter in map(chr, range(0x1F00)) if letter.isupper())
    word = rf"[{capital}][^\W\d_]+"
    return re.compile(rf"(?<!\w)(?<!\w[-'\u2019])({word}(?:[ -]{word})*)(?!\w)")


@lru_cache(maxsize=32)
def signs(language: str) -> dict[str, frozenset[str]]:
    """What tells names in a language: lists of lower-case words, each under what it is for; see the files themselves.

    ``thing``: stands before what is no person; ``never``: with a capital, and nobody; ``title``, ``does``, ``says`` and
    ``with`` are for languages whose nouns all have capitals; ``bends``: names take endings.
    """
    path = resource(f"words/names/{language}.txt")
    rows = path.read_text("utf-8").splitlines() if path.is_file() else []
    return {what: frozenset(told.split()) for what, _, told in (row.partition(":") for row in rows if row[:1] != "#")}


def suggested(
    texts: Iterable[str], known: Collection[str] = (), languages: Sequence[str] = ("en",), most: int = 8
) -> tuple[Suggestion, ...]:
    """Names that recur, the commonest first. ``known`` need no question (people marked, places)."""
    by_language: dict[str, list[str]] = defaultdict(list)
    for text in texts:
        text = unicodedata.normalize("NFC", text)
        by_language[guess_language(text, languages)].append(text)
    strange, said = _strange(known, languages), Counter()
    for language, heard in by_language.items():
        said.update(_said(language, heard, strange))
    told = (Suggestion(name, said[name]) for name in _wholes(said))
    return tuple(sorted(told, key=lambda one: (-one.lines, one.name))[:most])


def _said(language: str, texts: list[str], strange: Callable[[str], bool]) -> dict[str, int]:
    """Likely names in the lines of one language, each with the number of its lines."""
    if language == "ja":
        counted = Counter(name for text in texts for name in set(japanese.people(text)))
    elif signs(language).get("title"):
        counted = _among_nouns(texts, signs(language))
    else:
        counted = _by_capital(texts, language)
    never = signs(language).get("never", frozenset())
    return {
        name: times for name, times in counted.items()
        if times >= LEAST_LINES and name.casefold() not in never and any(map(strange, name.split(", ")))
    }  # fmt: skip


# where nouns are written small


def _by_capital(texts: list[str], language: str) -> dict[str, int]:
    of, said, as_things = signs(language), Counter(), Counter()
    for text in texts:
        inside = _inside(text, stop_words(language))
        said.update(inside.keys())
        as_things.update(name for name, before in inside.items() if before in of.get("thing", ()))
    likely = [name for name, times in said.items() if 2 * as_things[name] < times]
    if "bends" not in of:
        likely = [name for name in likely if said[name] >= LEAST_LINES]
    small = _written_small(texts, likely)
    kept = {name: said[name] for name in likely if small[name.casefold()] <= SMALL_SHARE * said[name]}
    return _unbent(kept, language) if "bends" in of else kept


def _inside(text: str, small: Collection[str]) -> dict[str, str]:
    """The words with a capital that begin no sentence, one after another taken together, each with the word before.

    A small word that begins a sentence, as in "With Ilze", is none of them.
    """
    found = {}
    for match in _run().finditer(text):
        name, before = match[1], _BEFORE.search(text, max(0, match.start() - _FAR), match.start())
        was = before[1] if before else ""
        if not was and name.partition(" ")[0].casefold() in small:
            was, _, name = name.partition(" ")
        if was and name and len(name.split()) <= _LONGEST:
            found[name] = was.casefold()
    return found


def _written_small(texts: Iterable[str], names: Collection[str]) -> Counter[str]:
    """In how many lines each of the names of one word stands without its capital, by the word in small letters."""
    single = [re.escape(name.lower()) for name in names if " " not in name]
    if not single:
        return Counter()
    pattern = re.compile(rf"(?<!\w)(?:{'|'.join(single)})(?!\w)")
    return Counter(word.casefold() for text in texts for word in set(pattern.findall(text)))


def _unbent(said: dict[str, int], language: str) -> dict[str, int]:
    """The endings of one name taken together, the commonest spelling first."""
    of_stem: dict[str, list[str]] = defaultdict(list)
    for name in said:
        of_stem[" ".join(stem(word, language) for word in name.split())].append(name)
    groups = (sorted(names, key=lambda name: (-said[name], len(name), name)) for names in of_stem.values())
    return {", ".join(names): sum(map(said.__getitem__, names)) for names in groups}


# where every noun has a capital


def _among_nouns(texts: list[str], of: dict[str, frozenset[str]]) -> dict[str, int]:
    titled, said, deeds, as_things = Counter(), Counter(), Counter(), Counter()
    for text in texts:
        titled.update({name for match in _run().finditer(text) for name in _titled(match[1], of["title"])})
        alone = _alone(text, of)
        said.update(alone.keys())
        deeds.update(name for name, (does, _) in alone.items() if does)
        as_things.update(name for name, (_, thing) in alone.items() if thing)
    lone = {
        name: times for name, times in said.items()
        if deeds[name] >= LEAST_DEEDS and as_things[name] <= SMALL_SHARE * times
    }  # fmt: skip
    return _without_genitives(_of_settled_length(titled) | lone)


def _titled(run: str, titles: Collection[str]) -> list[str]:
    """The titles or kin in a run of capitals with the word behind them, and with the two behind them."""
    parts = run.split(" ")
    at = max((place for place, word in enumerate(parts[:-1]) if word.casefold() in titles), default=-1)
    first = at
    while first > 0 and parts[first - 1].casefold() in titles:
        first -= 1
    ends = range(at + 2, min(at + _LONGEST, len(parts)) + 1) if at >= 0 else ()
    return [" ".join(parts[first:end]) for end in ends]


def _of_settled_length(titled: Counter[str]) -> dict[str, int]:
    """Names as long as they mostly are: behind a name another noun may stand."""
    longer = {name for name in titled if titled[name] > 1 and titled[name] >= _MOSTLY * titled[_shorter(name)] > 0}
    shortened = {_shorter(name) for name in longer}
    return {
        name: times for name, times in titled.items()
        if name not in shortened and (name in longer or not titled[_shorter(name)])
    }  # fmt: skip


def _shorter(name: str) -> str:
    return name.rpartition(" ")[0]


def _alone(text: str, of: dict[str, frozenset[str]]) -> dict[str, tuple[bool, bool]]:
    """Each word with a capital and no title, with whether it does what people do, and whether it is told of as a thing."""
    found: dict[str, tuple[bool, bool]] = {}
    spoken = _NEAR.findall(text)
    low = ["", *(word.casefold() for word, _ in spoken), "", ""]
    for at, (word, behind) in enumerate(spoken):
        was, after, then = low[at], low[at + 2] if behind == " " else "", low[at + 3]
        if word[0].isupper() and was not in of["title"] and word.casefold() not in of["title"]:
            does = after in of["does"] and then not in of["with"]
            together = after == "und" and then in of["with"]
            before, thing = found.get(word, (False, False))
            found[word] = (before or does or together or was in of["says"], thing or was in of["thing"])
    return found


def _without_genitives(counted: dict[str, int]) -> dict[str, int]:
    whole = dict(counted)
    for name, times in counted.items():
        if name.endswith(_GENITIVE) and name[:-1] in whole:
            whole[name[:-1]] += times
            del whole[name]
    return whole


# all of them


def _strange(known: Collection[str], languages: Sequence[str]) -> Callable[[str], bool]:
    """Tells whether a name has a word that is neither known nor a small word of the languages."""
    dull = {word.casefold() for name in known for word in words(unicodedata.normalize("NFC", name))}
    dull = dull.union(*(stop_words(code) for code in languages))
    return lambda name: any(word.casefold() not in dull for word in words(name))


def _wholes(said: Counter[str]) -> list[str]:
    """Without names that are mostly said as part of a longer one, such as Petersen beside Frau Petersen."""
    longer = {word: name for name in said if " " in name and "," not in name for word in name.split()}
    return [name for name in said if name not in longer or said[name] > said[longer[name]]]
