"""Lines that are near to what was typed, or to another line, where none need have every word."""

from collections import Counter
from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, field
from itertools import islice
from typing import TYPE_CHECKING
from weakref import WeakKeyDictionary

from keeper.actions.awake import awake
from keeper.errors import Stopped, UnknownThing
from keeper.model import Found, Line
from keeper.store import Store, lines, search, word_index
from keeper.store.folding import pieces, unspaced
from keeper.store.search import Sought
from keeper.study.language.words import LANGUAGES, guess_language, stop_words
from keeper.study.nearness.meant import Meaning, itself, meant, meant_unspaced, spelt_alike
from keeper.study.nearness.ranking import Occurrences, rarity, scores, together
from keeper.study.nearness.vocabulary import Vocabulary, spelt

if TYPE_CHECKING:
    import numpy as np

NEAREST = 20
"""So many are told at most."""

_SPOKEN_FROM, _SAMPLE = 0.02, 400
_WORDS_TYPED, _WORDS_OF_A_LINE = 12, 16
_AT_FIRST = 60

Stop = Callable[[], bool]
"""Whether to break off."""


@dataclass
class _Known:
    """What is held of a keeper's words while they stay the same; where a word stands, once it was asked for."""

    state: tuple
    vocabulary: Vocabulary
    languages: tuple[str, ...]
    numbers: "np.ndarray"
    lengths: "np.ndarray"
    standings: dict[str, Occurrences] = field(default_factory=dict)


_known: WeakKeyDictionary[Store, _Known] = WeakKeyDictionary()


def nearest(
    store: Store, sought: Sought, limit: int = NEAREST, found: Collection[Found] = (), stopped: Stop = lambda: False
) -> tuple[Found, ...]:
    """The lines nearest to the words typed, the nearest first, that the controls leave and that were not ``found``.

    If none has any of the words, in whatever form, or one that is misspelt so, then those with words that are spelt
    most like them. Raises Stopped.
    """
    words = _words(sought.typed)[:_WORDS_TYPED]
    known = _of(store) if words else None
    if known is None:
        return ()
    told = {one.line.id for one in found}
    meanings = [_meanings(word, known) for word in words]
    near = _ranked(store, known, meanings, stopped, lambda numbers, left: _rest(store, sought, numbers, told, left), limit)
    if near or found:
        return near
    meanings = [spelt_alike(word, known.vocabulary) for word in words if not unspaced(word)]
    return _ranked(store, known, meanings, stopped, lambda numbers, left: search.among(store, sought, numbers, left), limit)


def more_like(store: Store, line_id: str, limit: int = NEAREST, stopped: Stop = lambda: False) -> tuple[Found, ...]:
    """The lines of other years that are nearest to one, the nearest first; nothing that rests, since none asked for it.

    Raises UnknownThing when the line is there no more, Stopped.
    """
    line = lines.by_id(store, line_id)
    if line is None:
        raise UnknownThing("That line is kept no more.")
    known = _of(store)
    if known is None:
        return ()
    meanings = _telling(line, known, store)
    rule = awake(store)

    def left(numbers: Sequence[int], limit: int) -> tuple[Found, ...]:
        there = search.among(store, Sought(), numbers, len(numbers))
        others = (one for one in there if one.line.night.year != line.night.year and rule.line(one.line))
        return tuple(islice(others, limit))

    return _ranked(store, known, meanings, stopped, left, limit)


def _rest(store: Store, sought: Sought, numbers: Sequence[int], told: set[str], limit: int) -> tuple[Found, ...]:
    there = search.among(store, sought, numbers, limit + len(told))
    return tuple(islice((one for one in there if one.line.id not in told), limit))


def _ranked(
    store: Store, known: _Known, meanings: Sequence[Sequence[Meaning]], stopped: Stop,
    left: Callable[[Sequence[int], int], tuple[Found, ...]], limit: int,
) -> tuple[Found, ...]:  # fmt: skip
    import numpy as np

    sought = [[(_standing(store, known, meaning.words), meaning.weight) for meaning in word] for word in meanings]
    score = scores([[(at, weight) for at, weight in word if len(at.places)] for word in sought], known.lengths, stopped)
    if stopped():
        raise Stopped
    # Of two as near the newer first.
    order = np.lexsort((-known.numbers, -score))[: int((score > 0).sum())]
    met = {word for one in meanings for meaning in one for word in meaning.words}
    found: list[Found] = []
    first, number = 0, _AT_FIRST
    while first < len(order) and len(found) < limit:
        found += left(known.numbers[order[first : first + number]].tolist(), limit - len(found))
        # Controls may leave but one in a thousand.
        first, number = first + number, number * 2
    return tuple(Found(one.line, one.place_name, True, _met(one.line, met)) for one in found)


def _met(line: Line, sought: Collection[str]) -> tuple[str, ...]:
    words = (word if unspaced(word) else spelt(word) for word in _parts(line.text))
    return tuple(dict.fromkeys(word for word in words if word in sought))


def _parts(text: str) -> list[str]:
    """The words of a text; of those without spaces each letter too."""
    found = pieces(text)
    return found + [letter for pair in found if len(pair) > 1 and unspaced(pair) for letter in pair]


def _meanings(word: str, known: _Known) -> tuple[Meaning, ...]:
    if unspaced(word):
        return meant_unspaced(word, known.vocabulary)
    return meant(word, known.vocabulary, known.languages)


def _words(text: str) -> list[str]:
    return list(dict.fromkeys(pieces(text.encode("utf-8", "replace").decode())))


def _telling(line: Line, known: _Known, store: Store) -> list[tuple[Meaning, ...]]:
    """The rarest words of a line, each with the others of its stem."""
    small = frozenset().union(*(stop_words(language) for language in known.languages))
    words = [word for word in _words(line.text) if spelt(word) not in small]
    meanings = [itself(word, known.vocabulary, known.languages) for word in words]
    meanings = [meaning for meaning in meanings if meaning.words]
    having = {meaning: len(_standing(store, known, meaning.words).places) for meaning in meanings}
    telling = sorted(having, key=lambda meaning: -rarity(len(known.numbers), having[meaning]))
    return [(meaning,) for meaning in telling[:_WORDS_OF_A_LINE]]


def _standing(store: Store, known: _Known, words: Sequence[str]) -> Occurrences:
    for word in words:
        if word not in known.standings:
            known.standings[word] = _found_standing(store, known, word)
    return together([known.standings[word] for word in words])


def _found_standing(store: Store, known: _Known, word: str) -> Occurrences:
    import numpy as np

    listed = word_index.lines_having(store, word)
    told = np.fromstring(listed, np.int64, sep=",") if listed else np.zeros(0, np.int64)
    numbers, times = np.unique(told, return_counts=True)
    places = np.searchsorted(known.numbers, numbers)
    # One written since is looked for again with the next question.
    there = known.numbers[np.minimum(places, len(known.numbers) - 1)] == numbers
    return Occurrences(places[there].astype(np.int32), times[there].astype(np.float32))


def _of(store: Store) -> _Known | None:
    """What is known of the words of all lines; None where there are none."""
    import numpy as np

    state = word_index.state(store)
    known = _known.get(store)
    if known is None or known.state != state:
        lengths = word_index.lengths(store)
        if not lengths:
            return None
        numbers = np.array([number for number, _ in lengths], np.int64)
        languages = known.languages if known else _languages(store, numbers[:: max(1, len(numbers) // _SAMPLE)].tolist())
        known = _Known(state, Vocabulary(word_index.all_words(store)), languages, numbers,
                       np.array([length for _, length in lengths], np.float32))  # fmt: skip
        _known[store] = known
    return known


def _languages(store: Store, numbers: Sequence[int]) -> tuple[str, ...]:
    """The languages that more than a few of the lines are in, the commonest first."""
    known = ("en", *(code for code in LANGUAGES if code != "en"))
    some = search.among(store, Sought(), numbers, len(numbers))
    counted = Counter(guess_language(one.line.text, known) for one in some)
    return tuple(code for code, times in counted.most_common() if times > _SPOKEN_FROM * len(some)) or ("en",)
