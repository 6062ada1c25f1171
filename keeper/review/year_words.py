"""The words of a year: the languages in it, and what rose and fell against the year before."""

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Sequence, Set
from datetime import date

from keeper.model import Line
from keeper.review.year import MovedWord
from keeper.study.distinctive import NIGHTS_OF_EACH, Counted, set_apart
from keeper.study.language.words import LANGUAGES, Word, guess_language
from keeper.study.themes.naming import spelling_table

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
        self.said: dict[str, list[date]] = defaultdict(list)
        self.kept: set[date] = set()
        self.docs: list[Sequence[Word]] = []
        for line in lines:
            self.kept.add(line.night)
            self.docs.append(words(line))
            for word in self.docs[-1]:
                self.said[word.stem].append(line.night)
        self.times = Counter({stem: len(said) for stem, said in self.said.items()})

    def nights(self, stem: str) -> int:
        """On how many nights a word came up."""
        return len(set(self.said.get(stem, ())))

    def spellings(self, stems: Set[str]) -> dict[str, str]:
        """How the person spells words most often."""
        return spelling_table(self.docs, stems)


def _more(here: _Said, there: _Said) -> tuple[MovedWord, ...]:
    # What came up less often cannot have come up on as many nights.
    counted = (
        Counted(stem, times, here.nights(stem), times + there.times[stem])
        for stem, times in here.times.items()
        if times >= NIGHTS_OF_EACH
    )
    whole = here.times.total(), here.times.total() + there.times.total()
    found = set_apart(counted, *whole, len(here.kept), most=WORDS_SHOWN)
    spelt = here.spellings({one.what for one in found})
    return tuple(MovedWord(spelt[one.what], one.nights, there.nights(one.what)) for one in found)
