"""What is typed, read as a person would: "a sunday in Turku" are Sundays, at that place; what is no such thing are words."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date

from keeper.actions.finding import phrases
from keeper.actions.finding.known import KnownNames
from keeper.actions.finding.phrases import Phrase
from keeper.dates.seasons import months_of, season_names
from keeper.dates.spelling import ENGLISH, Spelling, day_words, names, same
from keeper.dates.typed import LAST, understood
from keeper.days import last_of_month
from keeper.errors import UnreadableDate
from keeper.store.folding import bare
from keeper.store.search import Sought
from keeper.study.language.words import stop_words

_LONGEST_DATE = 5
_SHORTEST_NAME = 4
_ENDING = 4
_JOINING = frozenset(["a", "an", "the", "in", "on", "at", "of", "with", "by", "from", "and", "or", "every", "each", "all", "any", "some", "during", "nights", "night", "days", "lines"])
_FIGURES = re.compile(r"\d")
_YEAR = re.compile(r"(18|19|20|21)\d\d")


@dataclass(frozen=True, slots=True)
class ReadAs:
    """What was understood: phrases, and the words that are none."""

    phrases: tuple[Phrase, ...]
    words: str

    @property
    def told(self) -> str:
        """Such as "on Sundays, in Turku"; words that are left come first, in quotation marks."""
        said = phrases.sentence(self.phrases)
        return f"\u201c{self.words}\u201d {said}" if self.words else said

    def narrowing(self, sought: Sought) -> Sought:
        """The search narrowed by what was understood, for the words that are left, within the nights that it has."""
        narrower = replace(sought, typed=self.words)
        for one in self.phrases:
            narrower = phrases.with_phrase(narrower, one)
        firsts, lasts = filter(None, (sought.first, narrower.first)), filter(None, (sought.last, narrower.last))
        return replace(narrower, first=max(firsts, default=None), last=min(lasts, default=None))


def read(known: KnownNames, typed: str, tonight: date, spelling: Spelling = ENGLISH) -> ReadAs | None:
    """What is meant by what is typed, if there is a date, a place, a person, a weekday or a season in it.

    Words within quotation marks are words. Of several dates only the first is one.
    """
    if '"' in typed:
        return None
    words = typed.split()
    found = list(_parts(known, words, tonight, spelling))
    if not any(isinstance(part, tuple) for part in found):
        return None
    joining = _JOINING | stop_words("en") | (stop_words(spelling.language) if spelling.language else frozenset())
    left = _left(found, joining)
    return ReadAs(tuple(dict.fromkeys(one for part in found if isinstance(part, tuple) for one in part)), " ".join(left))


def _left(found: Sequence[str | tuple[Phrase, ...]], joining: frozenset[str]) -> list[str]:
    """The words that are none of the phrases, nor lead to one as "in" does."""
    left: list[str] = []
    for part in found:
        if isinstance(part, str):
            left.append(part)
        else:
            while left and same(left[-1].strip(",")) in joining:
                left.pop()
    return [] if all(same(word) in joining for word in left) else left


def _parts(known: KnownNames, words: Sequence[str], tonight: date, spelling: Spelling) -> Iterator[str | tuple[Phrase, ...]]:
    called = _names(known)
    longest = max((len(name) for name in called), default=0)
    at, dated = 0, False
    while at < len(words):
        long, meant = (0, ()) if dated else _last_season(words, at, tonight, known, spelling) or _dated(words, at, tonight, spelling)
        dated = dated or bool(long)
        if not long:
            long, meant = _called(words, at, called, longest)
        if not long:
            long, meant = 1, _time_of_week_or_year(words[at], known, spelling)
        yield meant or words[at]
        at += long


def _dated(words: Sequence[str], at: int, tonight: date, spelling: Spelling) -> tuple[int, tuple[Phrase, ...]]:
    """The longest run of words that the field of a date takes for one: with figures in it, or words such as yesterday."""
    for long in range(min(_LONGEST_DATE, len(words) - at), 0, -1):
        some = words[at : at + long]
        if not _may_be_date(some, spelling):
            continue
        try:
            meant = understood(" ".join(some), tonight, spelling)
        except UnreadableDate:
            continue
        return long, phrases.nights(meant.first, meant.last)
    return 0, ()


def _last_season(words: Sequence[str], at: int, tonight: date, known: KnownNames, spelling: Spelling) -> tuple[int, tuple[Phrase, ...]] | None:
    """The nights of the latest season of this name that is over."""
    season = season_names(spelling).get(same(words[at + 1].strip(","))) if at + 1 < len(words) else None
    if season is None or same(words[at]) not in LAST:
        return None
    begins, _, ends = months_of(season, known.south)
    year = tonight.year if date(tonight.year, ends, 1) < tonight.replace(day=1) else tonight.year - 1
    return 2, phrases.nights(date(year - (ends < begins), begins, 1), last_of_month(date(year, ends, 1)))


def _may_be_date(some: Sequence[str], spelling: Spelling) -> bool:
    text = same(" ".join(some))
    if text in day_words(spelling) or (text.startswith(("last ", "this ")) and len(some) > 1):
        return True
    if same(some[0]) in _JOINING or same(some[-1]) in _JOINING or not _FIGURES.search(text):
        return False
    # Numbers beside one another are rather a count of something.
    return bool(_YEAR.fullmatch(text)) if len(some) == 1 and text.isdecimal() else not all(one.isdecimal() for one in some)


def _names(known: KnownNames) -> dict[tuple[str, ...], tuple[Phrase, ...]]:
    """What each name means, by its words."""
    found = {_worded(one.name): (one,) for one in known.of_places}
    for one, person in zip(known.of_people, (one for one in known.people if one.names), strict=True):
        found |= {_worded(name): (one,) for name in person.names}
    found.pop((), None)
    return found


def _worded(name: str) -> tuple[str, ...]:
    return tuple(bare(name).replace(",", " ").split())


def _called(words: Sequence[str], at: int, called: dict, longest: int) -> tuple[int, tuple[Phrase, ...]]:
    for long in range(min(longest, len(words) - at), 0, -1):
        meant = called.get(_worded(" ".join(words[at : at + long])))
        if meant and any(len(word) > 1 for word in words[at : at + long]):
            return long, meant
    return 0, ()


def _time_of_week_or_year(word: str, known: KnownNames, spelling: Spelling) -> tuple[Phrase, ...]:
    plain = same(word.strip(","))
    meant = season_names(spelling).get(plain)
    if meant is None and plain.endswith("s"):
        meant = season_names(spelling).get(plain[:-1])
    if meant is not None:
        return (phrases.season(meant, known.south),)
    for name, meanings in names(spelling).items():
        what, number = next(iter(meanings))
        if len(meanings) == 1 and plain.startswith(name) and (len(name) >= _SHORTEST_NAME or not name.isascii()):
            more = len(plain) - len(name)
            if what == "weekday" and more <= _ENDING:
                return (phrases.weekday(number),)
            if what == "month" and more == 0:
                return (phrases.month(number),)
    return ()
