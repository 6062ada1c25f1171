"""Months: what a month's page shows, side by side, and what the person decides of it."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

from keeper.actions import told_as
from keeper.actions.awake import Awake, awake
from keeper.actions.months.firsts import firsts, themes_apart
from keeper.actions.months.goals import add_goal, change_goal, close_goal, take_out_goal
from keeper.actions.months.questions import ShelfQuestion, shelf
from keeper.actions.months.scales import highest_noted
from keeper.actions.months.words import words_apart
from keeper.actions.photos.kept import photo_of_month, take_in
from keeper.actions.themes.within import with_mostly
from keeper.actions.writing import ask_question, check_text
from keeper.clock import Clock
from keeper.days import first_of_month, last_month, last_of_month
from keeper.days import nights as every_night
from keeper.errors import UnreadableDate
from keeper.model import Photo
from keeper.review import month as month_review
from keeper.review.month import MonthView
from keeper.review.month_series import Series, month_series
from keeper.store import Store, lines, month_pages, nights, trackers
from keeper.store.photos import known as photos
from keeper.store.themes import lines as theme_lines
from keeper.study.firsts import earliest

__all__ = [
    "FIRST_EVENINGS", "SIDE_BY_SIDE", "ShelfQuestion", "add_goal", "ask_question", "bring_photo", "change_goal",
    "choose_photo", "close_goal", "kept_months", "month_page", "photos_to_choose", "plain_pages",
    "same_month_every_year", "same_months", "shelf", "side_by_side", "take_out_goal", "to_turn", "write_words",
]  # fmt: skip

SIDE_BY_SIDE = 4
"""How many months can stand side by side."""

FIRST_EVENINGS = 7
"""Until which night of a month turning it is offered."""


def month_page(store: Store, month: date, with_resting: bool = False) -> MonthView:
    """What a month's page shows.

    What rests is in it only ``with_resting``. One pass over the month's lines,
    and kept totals: it costs no more as years are added.
    """
    view = _bare_page(store, month, with_resting)
    return replace(
        view,
        words=words_apart(store, view),
        themes_apart=themes_apart(store, view),
        firsts=firsts(store, view, Awake(everything=True) if with_resting else _rule(store, month)),
    )


def side_by_side(store: Store, wanted: Iterable[date]) -> tuple[MonthView, ...]:
    """Two to four months, in the order of time, on the same scales.

    Raises UnreadableDate for fewer or more.
    """
    chosen = sorted({first_of_month(month) for month in wanted})
    if not 2 <= len(chosen) <= SIDE_BY_SIDE:
        raise UnreadableDate(f"Two to {SIDE_BY_SIDE} months can stand side by side; these are {len(chosen)}.")
    return plain_pages(store, chosen)


def plain_pages(store: Store, wanted: Iterable[date]) -> tuple[MonthView, ...]:
    """Months without what set them apart and what was new; nothing resting in them."""
    return tuple(_bare_page(store, month) for month in wanted)


def kept_months(store: Store) -> tuple[date, ...]:
    """Every month that has a line, the newest first."""
    ends = lines.span(store)
    found, month = [], first_of_month(ends[1]) if ends else date.min
    while ends and month >= first_of_month(ends[0]):
        if lines.any_between(store, month, last_of_month(month)):
            found.append(month)
        month = last_month(month)
    return tuple(found)


def to_turn(store: Store, tonight: date) -> date | None:
    """The month just gone, if it has lines and these are the first evenings after it."""
    gone = last_month(tonight)
    early = tonight.day <= FIRST_EVENINGS
    return gone if early and lines.any_between(store, gone, last_of_month(gone)) else None


def same_months(store: Store, month: date) -> tuple[date, ...]:
    """The same month of every year that has a line in it, the newest first."""
    ends = lines.span(store)
    if ends is None:
        return ()
    years = range(ends[1].year, ends[0].year - 1, -1)
    same = (date(year, month.month, 1) for year in years)
    return tuple(one for one in same if lines.any_between(store, one, last_of_month(one)))


def same_month_every_year(store: Store, month: date) -> tuple[MonthView, ...]:
    """The same month of every year that has a line in it, the newest first."""
    return plain_pages(store, same_months(store, month))


def choose_photo(store: Store, month: date, photo_id: str | None) -> None:
    """Choose the photo of a month; None takes it back. Raises UnknownThing."""
    photo_of_month(store, month, photo_id)


def bring_photo(store: Store, month: date, path: Path, clock: Clock, rollover: int = 4, cut_off: bool = False) -> Photo:
    """Take in any file and choose it for the month; with ``cut_off`` though its end is missing.

    Raises UnreadablePhoto (of it CutOffPhoto) or CannotWrite; then nothing is changed.
    """
    with store.going_on(told_as.of_month("A photo taken in", month)):
        photo = take_in(store, path, clock, None, rollover, cut_off=cut_off).photo
        photo_of_month(store, month, photo.id)
    return photo


def photos_to_choose(store: Store, month: date) -> tuple[tuple[Photo, date], ...]:
    """The photos of a month's nights that may be brought up, each with its first such night."""
    first, last = first_of_month(month), last_of_month(month)
    rule = _rule(store, month)
    seen = earliest((night, photo_id) for photo_id, night in photos.nights_between(store, first, last) if rule.night(night))
    return tuple((one, seen[one.id]) for one in photos.of_month(store, month) if one.id in seen and rule.photo(one))


def write_words(store: Store, month: date, words: str) -> None:
    """Keep a few words about a month; "" takes them out. Raises UnreadableText."""
    check_text(words)
    with store.writing(told_as.of_month("A few words" if words.strip() else "No words", month)):
        month_pages.keep(store, replace(month_pages.one(store, month), words=words.strip()))


# putting a page together


def _rule(store: Store, month: date) -> Awake:
    return awake(store, first_of_month(month), last_of_month(month))


def _bare_page(store: Store, month: date, with_resting: bool = False) -> MonthView:
    first, last, rule = first_of_month(month), last_of_month(month), _rule(store, month)
    kept = nights.some(store, every_night(first, last))
    shown = month_review.month_nights(
        kept, rule, nights.place_before(store, first, timedelta(days=1)), with_resting
    )
    asked = Awake(everything=True) if with_resting else rule
    whole = month_pages.one(store, month)
    page, rests = month_review.page_awake(whole, rule)
    photo = photos.by_id(store, whole.photo_id) if whole.photo_id else None
    photo_rests = photo is not None and not _photo_awake(store, photo, rule)
    view = MonthView(
        month=first, page=whole if with_resting else page,
        photo=None if photo_rests and not with_resting else photo, nights=shown,
        places=month_review.month_places(shown),
        series=_series(store, first, last, {night.date for night in kept if night.lines}, asked),
        rests=rests | ({"photo"} if photo_rests else frozenset()),
    )  # fmt: skip
    placed = theme_lines.named_between(store, first, last)
    told = ((line_id, number, asked.theme_name(name), near) for line_id, number, name, near in placed)
    placed = [one for one in told if one[2]]
    found, its = month_review.month_themes(placed, view.lines), {}
    for line_id, number, _, _ in placed:
        its.setdefault(number, []).append(line_id)
    return replace(view, themes=with_mostly(store, found, its, asked))


def _photo_awake(store: Store, photo: Photo, rule: Awake) -> bool:
    # It may be of nights of other months.
    its = photos.nights_of(store, photo.id)
    return rule.photo(photo) and (not its or any(_rule(store, night).night(night) for night in its))


def _series(store: Store, first: date, last: date, kept: set[date], rule: Awake) -> tuple[Series, ...]:
    every = [one for one in trackers.every(store) if rule.text(one.name)]
    noted = trackers.readings(store, first, last)
    return month_series(every, noted, first, highest_noted(store, every) if noted else {}, kept)
