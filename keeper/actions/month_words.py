"""The words of a month: counted, and set against those of all years."""

from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from keeper.model import Line
from keeper.review.month import MonthView, MonthWord
from keeper.store import Store, months, people, theme_decisions
from keeper.store.folding import bare
from keeper.study import distinctive
from keeper.study.words import content_words, stem, words

_SHORTEST_BEGINNING = 3
"""Letters below which a beginning would find everything."""


@dataclass(frozen=True, slots=True)
class WordCount:
    """A word with all its endings: the spelling met most, times, nights, and what finds it."""

    stem: str
    word: str
    times: int
    nights: int
    sought: str


def counted_words(store: Store, shown: Iterable[Line]) -> tuple[WordCount, ...]:
    """The content words of some lines, the one said most first; left-out words and names heeded."""
    shown = tuple(shown)
    speech = _speech(store, shown)
    spelt: dict[str, Counter[tuple[str, bool]]] = defaultdict(Counter)
    on: dict[str, set[date]] = defaultdict(set)
    for line in shown:
        for word in content_words(line.text, **speech):
            spelt[word.stem][word.spelling, word.opens] += 1
            on[word.stem].add(line.night)
    counts = (_count(key, spellings, len(on[key])) for key, spellings in spelt.items())
    return tuple(sorted(counts, key=lambda one: (-one.times, one.stem)))


def _speech(store: Store, shown: tuple[Line, ...]) -> dict:
    # Only now, in the background: they bring all of themes and the year along.
    from keeper.actions.theme_decided import left_out
    from keeper.review.year_words import spoken

    return {
        "languages": spoken([line.text for line in shown]),
        "leave_out": frozenset(left_out(theme_decisions.standing(store))),
        "names": people.names(store),
    }


def _count(key: str, spellings: Counter[tuple[str, bool]], nights: int) -> WordCount:
    # A capital at the opening of a sentence is not the word's own: it counts
    # only where the word is met nowhere else.
    word = min(spellings, key=lambda one: (one[1], -spellings[one], one[0]))[0]
    return WordCount(key, word, spellings.total(), nights, _sought(word, [spelling for spelling, _ in spellings]))


def _sought(word: str, spellings: Iterable[str]) -> str:
    shared = _beginning_of_all([spelling.lower() for spelling in spellings])
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
        judged, all_here, months.words_in_all(store), view.kept, distinctive.WORDS_OF_MONTH_PRIOR,
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
    for word, times in months.words_beginning(store, {_beginning(key) for key in wanted} - {""}).items():
        for key in {bare(stem(word, language)) for language in languages} & wanted.keys():
            stems[key] += times
    # The index parts names of several words, and Chinese, into pieces: those
    # it does not know as a word are counted by the lines that have them.
    return {
        one.stem: stems[key] if stems[key] >= one.times else max(one.times, months.lines_with(store, one.word))
        for key, one in wanted.items()
    }


def _beginning(key: str) -> str:
    # A stem may end in another letter than its words: happi, happy.
    plain = key.split(" ")[0]
    return plain[:-1] if len(plain) > _SHORTEST_BEGINNING else plain
