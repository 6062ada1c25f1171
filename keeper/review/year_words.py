"""The words of a year: the languages in it, and what rose and fell against the year before."""

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Sequence
from datetime import date

from keeper.model import Line
from keeper.review.year import MovedWord
from keeper.study.distinctive import Counted, set_apart
from keeper.study.words import LANGUAGES, Word, guess_language

Words = Callable[[Line], Sequence[Word]]
"""The content words of a line."""

WORDS_SHOWN = 10
"""How many words that rose, and how many that fell, are shown at most."""

_SPOKEN_FROM = 0.1
_SAMPLE = 60


def spoken(texts: Sequence[str]) -> tuple[str, ...]:
    """The languages in which a good part of the texts is written, the commonest first."""
    some = texts[:: max(1, len(texts) // _SAMPLE)]
    known = ("en", *(code for code in LANGUAGES if code != "en"))
    counted = Counter(guess_language(text, known) for text in some)
    return tuple(code for code, times in counted.most_common() if times >= _SPOKEN_FROM * len(some)) or ("en",)


def moved_words(
    lines: Iterable[Line], before: Iterable[Line], words: Words
) -> tuple[tuple[MovedWord, ...], tuple[MovedWord, ...]]:
    """What rose and what fell against the year before, the surest first; see ``keeper.study.distinctive``."""
    now, then = _Said(lines, words), _Said(before, words)
    return _more(now, then), tuple(MovedWord(one.word, one.before, one.nights) for one in _more(then, now))


class _Said:
    """The words of one year: how often, on which nights, and in what spelling."""

    def __init__(self, lines: Iterable[Line], words: Words) -> None:
        self.times: Counter[str] = Counter()
        self.nights: dict[str, set[date]] = defaultdict(set)
        self.spelt: dict[str, Counter[str]] = defaultdict(Counter)
        self.kept: set[date] = set()
        for line in lines:
            self.kept.add(line.night)
            for word in words(line):
                self.times[word.stem] += 1
                self.nights[word.stem].add(line.night)
                # A capital at the opening of a sentence is not the word's own:
                # such a spelling counts only where there is no other.
                spelling, weight = (word.spelling.lower(), 0) if word.opens else (word.spelling, 1)
                self.spelt[word.stem][spelling] += weight

    def spelling(self, stem: str) -> str:
        """How the person spells a word most often."""
        return min(self.spelt[stem].items(), key=lambda item: (-item[1], item[0]))[0]


def _more(here: _Said, there: _Said) -> tuple[MovedWord, ...]:
    counted = (
        Counted(stem, times, len(here.nights[stem]), times + there.times[stem]) for stem, times in here.times.items()
    )
    whole = here.times.total(), here.times.total() + there.times.total()
    found = set_apart(counted, *whole, len(here.kept), most=WORDS_SHOWN)
    return tuple(
        MovedWord(here.spelling(one.what), one.nights, len(there.nights.get(one.what, ()))) for one in found
    )
