"""Themes that the person begins: by a name and some lines or words; then they are asked about the lines least sure."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from keeper.actions import drafts, told_as
from keeper.actions.awake import awake
from keeper.actions.themes.decided import ANSWER, NO, SKIPPED, YES, as_row, decided_so_far
from keeper.actions.themes.deciding import checked_name
from keeper.actions.themes.making import languages_of
from keeper.actions.themes.placing import fitted_of
from keeper.actions.writing import check_text
from keeper.clock import Clock
from keeper.dates import written
from keeper.errors import AlreadyKept, UnknownThing, UnreadableText
from keeper.model import Found
from keeper.store import Store, lines, search
from keeper.store.folding import bare
from keeper.store.search import Sought
from keeper.store.themes import asked, found
from keeper.store.themes import decisions as theme_decisions
from keeper.study.themes.fitted import Speech
from keeper.study.themes.further.begun import ROUND
from keeper.study.themes.further.words_said import telling
from keeper.study.themes.nouns import Begin, ThemeLine

__all__ = [
    "MOST_WORDS", "NO", "ROUND", "SKIPPED", "YES", "StillToAsk", "answer", "asking", "begin", "begun", "chosen_before",
    "lines_having", "put_by", "words_typed"]  # fmt: skip

# A comma as it is written in several scripts, and a semicolon.
_COMMA = re.compile("[,;\u060c\u061b\u3001\uff0c\uff1b]")

CHOSEN = "theme begun from"
"""What the draft of lines chosen is for."""

MOST_WORDS = 12
"""So many words may begin a theme; more would be a description."""


@dataclass(frozen=True, slots=True)
class StillToAsk:
    """What the person is asked about a theme they began.

    ``lines`` are those still to be asked about, least sure first; ``answered`` is how many answers there were so far,
    ``yes`` how many of them said that the line belongs. ``there``: whether any line is in it.
    """

    number: int
    name: str
    lines: tuple[Found, ...]
    answered: int
    yes: int
    there: bool = True

    @property
    def place(self) -> int:
        """Which of a round the next line is, from 0."""
        return self.answered % ROUND


def words_typed(typed: str) -> tuple[str, ...]:
    """The words of what was typed: parted by commas, else by spaces."""
    parts = _COMMA.split(typed) if _COMMA.search(typed) else typed.split()
    return tuple(dict.fromkeys(" ".join(part.split()) for part in parts if part.strip()))


def lines_having(store: Store, words: Sequence[str], limit: int) -> tuple[Found, ...]:
    """Lines that have any of the words, latest first."""
    found = {one.line.id: one for word in words for one in search.find(store, Sought(word), limit, 0)}
    return tuple(sorted(found.values(), key=lambda one: one.line.night, reverse=True))[:limit]


def put_by(store: Store, line_ids: Sequence[str], clock: Clock) -> None:
    """Put by which lines were chosen for a theme that is not begun yet; none: forget them."""
    if line_ids:
        drafts.put_by(store, CHOSEN, "", " ".join(line_ids), clock)
    else:
        drafts.forget(store, CHOSEN, "")


def chosen_before(store: Store) -> tuple[Found, ...]:
    """The lines that were put by, as far as they are still there; none that rests."""
    rule = awake(store)
    return tuple(one for one in asked.those(store, (drafts.waiting(store, CHOSEN, "") or "").split()) if rule.line(one.line))


def begin(store: Store, name: str, line_ids: Sequence[str], words: Sequence[str], clock: Clock) -> int:
    """Begin a theme and name it; its number. ``making.look_again`` then looks for its lines.

    Raises UnreadableText for what cannot be a name, no line and no word at all, or words that tell nothing; AlreadyKept
    for a name that another theme bears, or the words of one begun before; UnknownThing for lines that are gone, or words
    that are in no line.
    """
    name = checked_name(name)
    if not name:
        raise UnreadableText("A theme that one begins needs a name.")
    words = tuple(word for word in words if any(letter.isalnum() for letter in word))
    check_text(" ".join(words))
    if len(words) > MOST_WORDS:
        raise UnreadableText(f"A theme begins with at most {MOST_WORDS} words; these are {written.number(len(words))}.")
    if any(bare(one.name) == bare(name) for one in found.every(store)):
        raise AlreadyKept(f"Another theme is called \u201c{name}\u201d already.")
    _check_something(store, line_ids, words)
    if not line_ids:
        _check_words(store, words)
    with store.writing(told_as.of_theme(f"A theme begun as {told_as.quoted(name)}")):
        number = found.next_number(store)
        found.reserve(store, number, clock.moment().utc)
        what, detail = as_row(Begin(number, name, tuple(line_ids), words))
        theme_decisions.add(store, what, detail, clock.moment().utc)
    return number


def _check_something(store: Store, line_ids: Sequence[str], words: Sequence[str]) -> None:
    if not line_ids and not words:
        raise UnreadableText("A theme begins with a line or two, or with a few words.")
    if any(lines.by_id(store, line_id) is None for line_id in line_ids):
        raise UnknownThing("One of these lines is no longer in the keeper.")
    if not line_ids and not any(search.count(store, Sought(word)) for word in words):
        raise UnknownThing("No line has any of these words. A theme needs one that some line has.")


def _check_words(store: Store, words: Sequence[str]) -> None:
    if not telling(words, _speech(store)):
        raise UnreadableText("These words stand in lines about anything. A theme begins with words that tell what it is about.")
    same = {bare(word) for word in words}
    for one in begun(store).values():
        if not one.lines and {bare(word) for word in one.words} == same:
            raise AlreadyKept(f"\u201c{one.name}\u201d was begun by the same words.")


def _speech(store: Store) -> Speech:
    """How lines become words, as at the last look; before any, as they are written now."""
    fitted = fitted_of(store, found.build(store))
    if fitted is not None:
        return fitted.speech
    return Speech(languages_of([ThemeLine(*row) for row in found.plain_lines(store)]))


def begun(store: Store) -> dict[int, Begin]:
    """The themes that the person began, by number, with all they answered."""
    return {one.theme: one for one in decided_so_far(theme_decisions.standing(store)) if isinstance(one, Begin)}


def asking(store: Store, number: int) -> StillToAsk:
    """What is to be asked about a theme begun; what rests is not brought up. Raises UnknownThing."""
    one = begun(store).get(number)
    if one is None:
        raise UnknownThing("That theme was not begun by you, or is no longer there.")
    known, rule = {*one.yes, *one.no, *one.skipped, *one.lines}, awake(store)
    waiting = tuple(told for told in asked.lines_of(store, number) if told.line.id not in known and rule.line(told.line))
    theme = found.one(store, number)
    answers = len(one.yes) + len(one.no) + len(one.skipped)
    return StillToAsk(number, theme.name if theme else one.name, waiting, answers, len(one.yes), theme is not None)


def answer(store: Store, number: int, line_id: str, says: str, clock: Clock) -> None:
    """Keep what the person answered about a line: YES, NO or SKIPPED. Raises UnknownThing."""
    name = asking(store, number).name
    lines.still_kept(store, line_id)
    told = {YES: "a line belongs", NO: "a line does not belong", SKIPPED: "a line skipped"}[says]
    with store.writing(told_as.of_theme(f"{told_as.quoted(name)}: {told}", number)):
        detail = {"theme": number, "line": line_id, "says": says, "_names": [name]}
        theme_decisions.add(store, ANSWER, detail, clock.moment().utc)
