"""A book put together from what the pages of its months and its year show."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from datetime import date

from keeper.dates.distance import years_on
from keeper.dates.written import full_date
from keeper.model import Line, Person, Photo
from keeper.review.book import (
    BookLater,
    BookLine,
    BookMonth,
    BookNight,
    BookParts,
    BookPhoto,
    BookPlace,
    BookStrip,
    BookTheme,
    IndexEntry,
    set_nights,
)
from keeper.review.month import MonthTheme, MonthView
from keeper.review.month_series import LINE, Series, drawn_as
from keeper.review.readings.axes import Axis, axes, crossings_told
from keeper.study.journeys import Stay
from keeper.study.language.words import guess_language
from keeper.study.people import mentions_any

_THEMES = 4
"""How many themes a month tells of at most: the rest are on few nights."""

_ROOM_FOR_NAMES = 44
"""The most characters of a theme and the part of it that a month is mostly about."""

Language = Callable[[str], str]
"""Guesses the language of a text."""


def book_month(
    view: MonthView, photo: Photo | None, chosen: Sequence[Line], parts: BookParts, language: Language
) -> BookMonth:
    """A month with the parts that are wanted; ``chosen`` are the lines that stand for it.

    What rests is left out already, where it is not wanted.
    """
    lines = view.lines if parts.lines == "all" else chosen
    page = parts.month_pages
    return BookMonth(
        month=view.month,
        kept=view.kept,
        photo=_photo(photo) if photo and parts.photos else None,
        question=view.page.question if page else "",
        answers=_answers(view, lines, language, parts) if page and parts.answers else (),
        words=view.page.words if page else "",
        goals=view.page.goals if page else (),
        places=tuple(BookPlace(one.place.name, len(one.nights)) for one in view.places) if page else (),
        themes=_themes(view) if parts.themes else (),
        nights=_nights(view, lines, language, parts.later_words),
        readings=tuple(_strips(view)) if parts.readings else (),
    )


def _photo(photo: Photo) -> BookPhoto:
    return BookPhoto(photo.id, photo.width or 4, photo.height or 3, photo.caption)


def _answers(view: MonthView, lines: Sequence[Line], language: Language, parts: BookParts) -> tuple[BookLine, ...]:
    shown = {line.id for line in lines}
    return tuple(book_line(line, language, parts.later_words) for line in view.answers if line.id not in shown)


def _themes(view: MonthView) -> tuple[BookTheme, ...]:
    return tuple(BookTheme(_called(one), one.nights) for one in view.themes[:_THEMES] if one.name)


def _called(theme: MonthTheme) -> str:
    """A theme's name, and the part of it that most of its lines are in, where both have room."""
    both = f"{theme.name}: {theme.mostly}"
    return both if theme.mostly and len(both) <= _ROOM_FOR_NAMES else theme.name


def _strips(view: MonthView) -> Iterable[BookStrip]:
    for axis in axes([one for one in view.series if one.noted]):
        first, *others = (_strip(one, axis) for one in axis.series)
        spots = tuple((one.crossing.at, one.crossing.value) for one in axis.crossed)
        yield replace(first, beside=tuple(others), crossed=spots, told=crossings_told(axis.crossed))


def _strip(one: Series, axis: Axis) -> BookStrip:
    tracker, how = one.tracker, drawn_as(one.tracker) if len(axis.series) == 1 else LINE
    return BookStrip(tracker.name, tracker.unit, tracker.form, axis.low, axis.high, one.values, how,
                     one.in_force, one.began, one.ended, body=tracker.body)  # fmt: skip


def _nights(view: MonthView, lines: Sequence[Line], language: Language, later: bool) -> tuple[BookNight, ...]:
    by_night: dict[date, list[Line]] = {}
    for line in lines:
        by_night.setdefault(line.night, []).append(line)
    found, here = [], ""
    for night in view.nights:
        if night.date not in by_night:
            continue
        # Told by the nights that are set: the one on which the person came may not be.
        place = night.place.name if night.place else ""
        told = place if place != here else ""
        here = place or here
        found.append(BookNight(night.date, tuple(book_line(one, language, later) for one in by_night[night.date]), told))
    return tuple(found)


def book_line(line: Line, language: Language, later: bool) -> BookLine:
    """A line as it is set, with what was said of it ``later`` or without."""
    words = tuple(
        BookLater(f"{years_on(line.night, word.said_on)}, {full_date(word.said_on)}", word.text, language(word.text))
        for word in line.later if later and word.text and word.said_on > line.night
    )  # fmt: skip
    return BookLine(line.night, line.kind, line.text, language(line.text), line.kind_title, words)


def guesser(languages: Sequence[str]) -> Language:
    """Guesses among the languages of the book, of which the first is that of most lines; "" when there are none."""
    if not languages:
        return lambda text: ""
    if len(languages) == 1:
        return lambda text: languages[0]
    return lambda text: guess_language(text, languages)


def place_index(
    stays: Iterable[Stay], details: dict[str, tuple[str, str]], months: Sequence[BookMonth]
) -> tuple[IndexEntry, ...]:
    """Where in the book each place is; ``details`` are its name and where it lies, by id."""
    inside = sorted(set_nights(months))
    spans: dict[str, list[tuple[date, date]]] = {}
    for stay in stays:
        if stay.place_id not in details:
            continue
        here = [night for night in inside if stay.first <= night <= stay.last]
        found = [(here[0], here[-1])] if here else _months_of(stay, months)
        spans.setdefault(stay.place_id, []).extend(found)
    entries = [IndexEntry(*details[place_id], tuple(dict.fromkeys(found))) for place_id, found in spans.items() if found]
    return tuple(sorted(entries, key=lambda entry: entry.name.casefold()))


def _months_of(stay: Stay, months: Sequence[BookMonth]) -> list[tuple[date, date]]:
    # Its nights have no lines; the page of the month tells of the place, if it tells of any.
    first, last = stay.first.replace(day=1), stay.last.replace(day=1)
    return [(one.month, one.month) for one in months if first <= one.month <= last and one.places]


def people_index(people: Iterable[Person], months: Sequence[BookMonth]) -> tuple[IndexEntry, ...]:
    """On which nights of the book each person is named, in whatever spelling."""
    nights = [night for month in months for night in month.nights]
    entries = []
    for one in people:
        said = [night.date for night in nights if any(mentions_any(line.text, one.names) for line in night.lines)]
        if said:
            entries.append(IndexEntry(one.names[0], "", tuple((night, night) for night in said)))
    return tuple(sorted(entries, key=lambda entry: entry.name.casefold()))
