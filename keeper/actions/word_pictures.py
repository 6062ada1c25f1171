"""Pictures of words: for a month, a year, a place or a theme."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from keeper.actions.awake import awake
from keeper.actions.months.words import counted_words
from keeper.days import first_of_month, last_of_month
from keeper.model import Line
from keeper.store import Store, lines
from keeper.store.places import named as places
from keeper.store.themes import lines as theme_lines
from keeper.study.word_picture import HEIGHT, WIDTH, Placed, as_svg, layout

__all__ = [
    "HEIGHT", "WIDTH", "Placed", "WordPicture", "as_svg", "picture_of_month", "picture_of_place", "picture_of_theme",
    "picture_of_year",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class WordPicture:
    """Words with their places in a picture, and what finds the lines of each."""

    placed: tuple[Placed, ...]
    sought: dict[str, str]


def picture_of_month(store: Store, month: date) -> WordPicture:
    """The words of a month. Raises MissingLibrary."""
    return _picture(store, lines.between(store, first_of_month(month), last_of_month(month)))


def picture_of_year(store: Store, year: int) -> WordPicture:
    """The words of a year. Raises MissingLibrary."""
    return _picture(store, lines.between(store, date(year, 1, 1), date(year, 12, 31)))


def picture_of_place(store: Store, place_id: str) -> WordPicture:
    """The words of a place's nights. Raises MissingLibrary."""
    return _picture(store, places.lines_of(store, place_id), asked_for_place=True)


def picture_of_theme(store: Store, number: int) -> WordPicture:
    """The words of a theme's lines. Raises MissingLibrary."""
    return _picture(store, theme_lines.every_line_of(store, number))


def _picture(store: Store, found: Iterable[Line], asked_for_place: bool = False) -> WordPicture:
    shown = _awake(store, tuple(found), asked_for_place)
    counted = counted_words(store, shown)
    placed = layout((one.word, one.times) for one in counted)
    return WordPicture(placed, {one.word: one.sought for one in counted})


def _awake(store: Store, found: tuple[Line, ...], asked_for_place: bool) -> tuple[Line, ...]:
    if not found:
        return ()
    # The picture of a resting place was asked for: its own nights are in it.
    ends = (min(line.night for line in found), max(line.night for line in found))
    rule = awake(store, *ends, asked_for_place)
    return tuple(line for line in found if rule.line(line))
