"""The words of a month: counted, and set against those of all years."""

from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from keeper.model import Line
from keeper.review.month import MonthView, MonthWord
from keeper.store import Store, people, word_index
from keeper.store.folding import bare
from keeper.store.themes import decisions as theme_decisions
from keeper.study import distinctive
from keeper.study.language.japanese import bends
from keeper.study.language.words import content_words, stem, words
from keeper.study.themes.naming import spelling_table

_SHORTEST_BEGINNING = 3
"""Letters below which a beginning would find everything."""


@dataclass(frozen=True, slots=True)
class WordCount:
    """A word with all its endings: the spelling met most, times, nights, what finds it, and the night of each time."""

    stem: str
    word: str
    times: int
    nights: int
    sought: str
    said: tuple[date, ...] = ()


def counted_words(store: Store, shown: Iterable[Line]) -> tuple[WordCount, ...]:
    """The content words of some lines, the one said most first; left-out words and names heeded."""
    shown = tuple(shown)
    speech = _speech(store, shown)
    docs = [content_words(line.text, **speech) for line in shown]
    on: dict[str, list[date]] = defaultdict(list)
    forms: dict[str, Counter[str]] = defaultdict(Counter)
    for line, doc in zip(shown, docs, strict=True):
        for word in doc:
            forms[word.stem][word.spelling] += 1
            on[word.stem].append(line.night)
    spelt = spelling_table(docs, forms.keys())
    counts = (_count(key, spelt[key], of, on[key]) for key, of in forms.items())
    return tuple(sorted(counts, key=lambda one: (-one.times, one.stem)))


def _speech(store: Store, shown: tuple[Line, ...]) -> dict:
    # Only now, in the background: they bring all of themes and the year along.
    from keeper.actions.themes.decided import left_out
    from keeper.review.year_words import spoken

    return {
        "languages": spoken([line.text for line in shown]),
        "leave_out": frozenset(left_out(theme_decisions.standing(store))),
        "names": people.names(store),
    }


def _count(key: str, word: str, forms: Counter[str], said: list[date]) -> WordCount:
    return WordCount(key, word, forms.total(), len(set(said)), _sought(key, word, forms), tuple(said))


def _sought(key: str, word: str, forms: Iterable[str]) -> str:
    if bends(word):
        # The dictionary's form may stand in no line: what does not bend finds all the others.
        return key
    shared = _beginning_of_all([spelling.lower() for spelling in forms])
    return shared if len(shared) >= max(_SHORTEST_BEGINNING, len(word) - 4) else word


def _beginning_of_all(spellings: list[str]) -> str:
    first, last = min(spellings), max(spellings)
    same = next((place for place, (a, b) in enumerate(zip(first, last, strict=False)) if a != b), None)
    return first[:same] if same is not None else min(first, last, key=len)


def words_apart(store: Store, view: MonthView) -> tuple[MonthWord, ...]:
    """The words that set a month apart from the person's other months."""
    if view.kept < distinctive.NIGHTS_NEEDED:
        return ()
    needed = distinctive.nights_of_each(view.kept)
    likely = [one for one in counted_words(store, view.lines) if one.nights >= needed]
    totals = _totals(store, likely, _speech(store, view.lines)["languages"])
    all_here = sum(len(words(line.text)) for line in view.lines)
    judged = [distinctive.Counted(one.stem, one.times, one.nights, totals[one.stem]) for one in likely]
    found = distinctive.set_apart(
        judged, all_here, word_index.words_in_all(store), view.kept, distinctive.WORDS_OF_MONTH_PRIOR,
        nights_of_each=needed,
    )  # fmt: skip
    by_stem = {one.stem: one for one in likely}
    return tuple(
        MonthWord(by_stem[one.what].word, by_stem[one.what].sought, one.here, one.nights) for one in found
    )


def _totals(store: Store, likely: Iterable[WordCount], languages: Iterable[str]) -> dict[str, int]:
    """How often each stem stands in all lines, all its endings together."""
    wanted = {bare(one.stem): one for one in likely}
    stems: Counter[str] = Counter()
    for word, times in word_index.words_beginning(store, {_beginning(key) for key in wanted} - {""}).items():
        for key in {bare(stem(word, language)) for language in languages} & wanted.keys():
            stems[key] += times
    # The index parts names of several words, Chinese and Japanese, into pieces: those
    # it does not know as a word are counted by the lines that have them.
    return {
        one.stem: stems[key] if stems[key] >= one.times else max(one.times, word_index.lines_with(store, one.sought if bends(one.word) else one.word))
        for key, one in wanted.items()
    }


def _beginning(key: str) -> str:
    # A stem may end in another letter than its words: happi, happy.
    plain = key.split(" ")[0]
    return plain[:-1] if len(plain) > _SHORTEST_BEGINNING else plain
