"""What goes into the book of a year or onto the sheet of a month, gathered from the keeper."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from keeper import settings
from keeper.actions.months.shown import month_page, plain_pages
from keeper.actions.paper.notebook import pages_of
from keeper.actions.places import known as places
from keeper.actions.years.material import YearMaterial
from keeper.book.laying_out import sizes
from keeper.days import first_of_month
from keeper.errors import UnknownThing
from keeper.model import Person, Photo
from keeper.review import year_choices
from keeper.review.book import Book, BookClosing, BookMap, BookMonth, BookParts, MonthSheet
from keeper.review.book_making import Language, book_month, guesser, people_index, place_index
from keeper.review.book_map import book_map, chart_of
from keeper.review.month import MonthView
from keeper.review.places import PlacesView, Travels
from keeper.review.year_words import spoken
from keeper.settings import INKS
from keeper.shipped import resource
from keeper.store import Store, people
from keeper.store import settings as kept_settings
from keeper.study.outline import outline_for, read_outline


def book_of(store: Store, year: int, parts: BookParts) -> Book:
    """The book of a year: by its sitting where there was one, else by what is proposed.

    Raises UnknownThing when nothing that may be shown is kept of the year.
    """
    of = _material(store, year, parts)
    views = _views(store, [date(year, number, 1) for number in range(1, 13)], parts)
    if not views:
        raise UnknownThing(f"Nothing is kept of {year}, so there is no book to make.")
    languages = spoken([line.text for view in views for line in view.lines])
    language = guesser(languages)
    made = tuple(_with_notebook(store, _month(of, view, parts, language), parts) for view in views)
    where, travels = _whereabouts(of, parts)
    return Book(
        year=year,
        title=parts.title.strip() or str(year),
        name=parts.name.strip(),
        size=parts.size,
        ink=_ink(store),
        language=languages[0],
        months=made,
        nights=sum(view.kept for view in views),
        lines=sum(len(view.lines) for view in views),
        kilometres=travels.metres / 1000 or None,
        map=_map(where, travels, parts) if parts.map else None,
        places=_place_index(where, made) if parts.index else (),
        people=people_index(_people(store, parts), made) if parts.index else (),
        closing=_closing(of, parts),
    )


def sheet_of(store: Store, month: date, parts: BookParts, small_photo: bool) -> MonthSheet:
    """The sheet of a month. Raises UnknownThing when nothing that may be shown is kept of it."""
    of = _material(store, month.year, parts)
    view = next(iter(_views(store, [first_of_month(month)], parts)), None)
    if view is None:
        raise UnknownThing(f"Nothing is kept of {month.isoformat()[:7]}, so there is no page to make.")
    languages = spoken([line.text for line in view.lines])
    made = _month(of, view, parts, guesser(languages))
    return MonthSheet(made, parts.size, _ink(store), languages[0], small_photo)


def _material(store: Store, year: int, parts: BookParts) -> YearMaterial:
    # In brief no lines are proposed: with all of them in the book that would be idle work.
    return YearMaterial(store, year, brief=parts.lines == "all")


def _views(store: Store, wanted: Sequence[date], parts: BookParts) -> list[MonthView]:
    if parts.resting:
        found = [month_page(store, month, with_resting=True) for month in wanted]
    else:
        found = plain_pages(store, wanted)
    return [view for view in found if not view.empty]


def _month(of: YearMaterial, view: MonthView, parts: BookParts, language: Language) -> BookMonth:
    standing = of.month(view.month.month)
    return book_month(view, _photo(of, view, standing.photo), standing.lines, parts, language)


def _with_notebook(store: Store, month: BookMonth, parts: BookParts) -> BookMonth:
    return replace(month, notebook=pages_of(store, month, parts.resting)) if parts.notebook else month


def _photo(of: YearMaterial, view: MonthView, proposed: Photo | None) -> Photo | None:
    # What the sitting decided comes first, then the month's own page.
    if year_choices.choices(of.decided, view.month.month, "photo"):
        return proposed
    return view.photo or proposed


def _whereabouts(of: YearMaterial, parts: BookParts) -> tuple[PlacesView, Travels]:
    if parts.resting:
        return places.places_view(of.store, of.year), places.travels(of.store, of.year)
    awake = of.whereabouts()
    return awake["places"], awake["travels"]


def _map(where: PlacesView, travels: Travels, parts: BookParts) -> BookMap | None:
    width, height = sizes()[parts.size]["map"]
    wide = chart_of(where.places, width, height).degrees_across
    rings = read_outline(resource(f"outline/{outline_for(wide)}"))
    return book_map(where.places, travels.ways, rings, width, height)


def _place_index(where: PlacesView, made: Sequence[BookMonth]):
    details = {}
    for kept in where.places:
        place = kept.place
        details[place.id] = (place.name, place.region if place.region != place.name else "")
    return place_index(where.stays, details, made)


def _people(store: Store, parts: BookParts) -> list[Person]:
    return [one for one in people.every(store) if parts.resting or not one.resting]


def _closing(of: YearMaterial, parts: BookParts) -> tuple[BookClosing, ...]:
    answers = year_choices.answered(of.decided) if parts.resting else of.answers
    return tuple(BookClosing(one.question, one.answer) for one in answers if one.answer.strip())


def _ink(store: Store) -> str:
    ink = settings.read(kept_settings.read(store), "ink")
    return INKS.get(ink, ink)
