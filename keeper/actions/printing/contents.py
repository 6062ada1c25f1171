"""What goes onto pages to print, gathered from the keeper."""

from dataclasses import replace
from datetime import date

from keeper import settings
from keeper.actions.awake import awake
from keeper.actions.months.shown import month_page
from keeper.actions.printing.filled import filled_month
from keeper.actions.printing.wanted import PagesWanted
from keeper.actions.reading import every_kind
from keeper.actions.remembering.bringing_up import looking_back
from keeper.book.printed.months import check_room
from keeper.dates import written
from keeper.days import nights as every_night
from keeper.errors import UnknownThing, UnreadableText
from keeper.model import QUESTION_KIND
from keeper.review.looking_back import AT_THE_PLACE, NEAR_THE_DAY, NOTHING
from keeper.review.night import kinds_asked
from keeper.review.printed.pages import (
    AskedOf,
    NightRow,
    Printed,
    PrintedCards,
    PrintedMonth,
    PrintedNights,
    PrintedYear,
    RulerPage,
    TrackerColumn,
)
from keeper.review.year_words import spoken
from keeper.store import Store, month_pages, trackers
from keeper.store import settings as kept_settings

MOST_NIGHTS = 366

_LONGEST_TICKED = 60

_BEGINS = {"Saturday": 5, "Sunday": 6}
"""Else a week begins on Monday (ISO 8601)."""


def printed(store: Store, wanted: PagesWanted) -> tuple[Printed, tuple[str, ...]]:
    """What is to be printed, and sentences on what is otherwise than asked.

    Raises BadPaper, UnknownThing where nothing is kept, UnreadableText.
    """
    made = {
        "month": _month, "filled": _filled, "year": _year, "nights": _nights, "cards": _cards, "ruler": _ruler,
    }[wanted.what](store, wanted)  # fmt: skip
    return made if isinstance(made, tuple) else (made, ())


def ink_of(store: Store) -> str:
    """The person's ink, as #rrggbb."""
    ink = settings.read(kept_settings.read(store), "ink")
    return settings.INKS.get(ink, ink)


def _month(store: Store, wanted: PagesWanted) -> PrintedMonth:
    check_room(wanted.leaf)
    month, parts = wanted.first.replace(day=1), wanted.parts
    span = tuple(every_night(wanted.first, wanted.last))
    rule = awake(store, wanted.first, wanted.last)
    page = month_pages.one(store, month)
    names = [one for one in trackers.every(store) if any(map(one.in_force, span)) and rule.text(one.name)]
    question = page.question if parts.question and rule.text(page.question) else ""
    return PrintedMonth(
        month, wanted.leaf, ink_of(store), spoken([question])[0] if question else "en", tuple(map(NightRow, span)), parts,
        columns=tuple(TrackerColumn(one.name, (), one.body) for one in names) if parts.readings else (),
        question=question, goals=tuple(one for one in page.goals if rule.text(one.text)) if parts.goals else (),
    )  # fmt: skip


def _filled(store: Store, wanted: PagesWanted) -> PrintedMonth:
    check_room(wanted.leaf)
    view = month_page(store, wanted.first, with_resting=wanted.resting)
    if view.empty:
        raise UnknownThing(f"Nothing is kept of {written.month_and_year(wanted.first)}.")
    return filled_month(view, wanted.leaf, ink_of(store), wanted.parts)


def _year(store: Store, wanted: PagesWanted) -> PrintedYear:
    ticked = " ".join(wanted.ticked.split())
    if len(ticked) > _LONGEST_TICKED:
        raise UnreadableText(f"What is ticked has room for {_LONGEST_TICKED} letters; these are {len(ticked)}.")
    begins = settings.read(kept_settings.read(store), "week_begins")
    return PrintedYear(wanted.first.year, wanted.leaf, ink_of(store), "en", ticked, _BEGINS.get(begins, 0))


def _nights(store: Store, wanted: PagesWanted) -> PrintedNights:
    many = (wanted.last - wanted.first).days + 1
    if many > MOST_NIGHTS:
        raise UnknownThing(f"Pages can be made for up to {MOST_NIGHTS} nights at once; these are {written.number(many)}.")
    rule = awake(store, wanted.first, wanted.last)
    every = [one for one in trackers.every(store) if rule.text(one.name)] if wanted.parts.readings else []
    kinds = every_kind(store)
    questions: dict[date, str] = {}

    def asked(night: date) -> tuple[AskedOf, ...]:
        month = night.replace(day=1)
        if month not in questions:
            said = month_pages.one(store, month).question if wanted.parts.question else ""
            questions[month] = said if rule.text(said) else ""
        return tuple(
            AskedOf(kind.title, questions[month] if kind.key == QUESTION_KIND and questions[month] else kind.prompt)
            for kind in kinds_asked(kinds, night)
        )

    pages = [
        (night, asked(night), tuple(one.name for one in every if one.in_force(night)))
        for night in every_night(wanted.first, wanted.last)
    ]
    return PrintedNights(tuple(pages), wanted.leaf, ink_of(store), "en")


def _cards(store: Store, wanted: PagesWanted) -> tuple[PrintedCards, tuple[str, ...]]:
    found = looking_back(store, wanted.first)
    day = written.day_and_month(wanted.first)
    if found.why in (NOTHING, AT_THE_PLACE):
        raise UnknownThing(f"No line that may be brought up is kept of {day}, or a day near it, in an earlier year.")
    cards = tuple(
        NightRow(night.date, tuple((line.kind_title, line.text) for line in night.lines),
                 night.place.name if night.place and wanted.parts.places else "")
        for night in found.nights
    )  # fmt: skip
    told = (f"Nothing is kept of {day} itself; the cards are of the nights nearest to it.",) if found.why == NEAR_THE_DAY else ()
    words = [text for card in cards for _, text in card.lines]
    return PrintedCards(wanted.first, cards, wanted.leaf, ink_of(store), spoken(words)[0]), told


def _ruler(store: Store, wanted: PagesWanted) -> RulerPage:
    one_sided = wanted.sides == "one" and not wanted.booklet
    return RulerPage(replace(wanted.leaf), ink_of(store), pages=1 if one_sided else 8 if wanted.booklet else 4)
