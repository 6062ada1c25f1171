"""Reading: what the pages and the command line show."""

from datetime import date, timedelta
from typing import TYPE_CHECKING

from keeper.actions.carrying import carried
from keeper.model import KINDS, LineKind, Moment, Night, Place
from keeper.review.night import LOOKED_OVER, NightPage, kinds_asked, still_open
from keeper.store import Store, kinds, lines, month_pages, nights, resting
from keeper.store.folding import bare
from keeper.store.places import named as places

if TYPE_CHECKING:
    from keeper.model import Tick, Wording

BEGUN_WITH = tuple(LineKind(key, place, position=place) for place, key in enumerate(KINDS))
"""The kinds of line of a keeper that is not yet begun, and where nothing can be read."""


def night_page(store: Store, night: date, tonight: date, now: Moment | None = None) -> NightPage:
    """What the page of a night shows; without ``now`` as if the clock were still where it was."""
    kept = nights.one(store, night)
    going_on, left = (None, None) if kept.place or kept.place_source else carried(store, night, now)
    ends = lines.span(store)
    drafts = lines.drafts(store, night)
    held = {one.kind for one in (*kept.lines, *drafts)}
    recent = nights.with_lines(store, tonight - timedelta(days=LOOKED_OVER), tonight)
    return NightPage(
        night=kept,
        question=_question_awake(store, night),
        drafts=drafts,
        carried=going_on,
        left=left,
        still_open=still_open(tonight, recent, ends[0] if ends else None),
        reworded=lines.reworded(store, night),
        from_paper=lines.from_paper(store, night),
        latest=ends[1] if ends else None,
        kinds=kinds_asked(every_kind(store), night, held),
    )


def _question_awake(store: Store, month: date) -> str:
    """The question of a month, unless it names somebody who rests."""
    question = month_pages.question(store, month)
    if not question or not resting.anybody(store):
        return question
    # Only now: the program starts without the study of words.
    from keeper.actions.awake import awake

    return question if awake(store, month, month).text(question) else ""


def every_kind(store: Store) -> tuple[LineKind, ...]:
    """All kinds of line, those that are left out too, in the person's order; where none can be read, those begun with."""
    return kinds.every(store) or BEGUN_WITH


def one_night(store: Store, night: date) -> Night:
    """All that is kept of a night."""
    return nights.one(store, night)


def ticks(store: Store, first: date, last: date) -> "tuple[Tick, ...]":
    """How much each kept night of a span holds, oldest first."""
    return nights.ticks(store, first, last)


def ends(store: Store) -> tuple[date, date] | None:
    """The first and the last night with a line, or None."""
    return lines.span(store)


def place_names(store: Store) -> tuple[tuple[str, str], ...]:
    """The name and id of every place, by name."""
    return tuple(sorted(places.names(store), key=lambda one: (bare(one[0]), one[1])))


def known_places(store: Store) -> tuple[Place, ...]:
    """All places, the one with the latest night first."""
    return places.every(store)


def place_named(store: Store, name: str) -> Place | None:
    """The place of this name, capitals and accents left aside."""
    return places.named(store, name)


def month_question(store: Store, month: date) -> str:
    """The question of a month, or "" when none is asked."""
    return month_pages.one(store, month).question


def wordings(store: Store, night: date, kind: str) -> "tuple[Wording, ...]":
    """Earlier wordings of a night's line, the latest replaced first."""
    return lines.wordings(store, night, kind)


def from_paper(store: Store, night: date) -> frozenset[str]:
    """The kinds of a night's lines that were typed up from paper, as they are worded now."""
    return lines.from_paper(store, night)


def same_letters(text: str) -> str:
    """A name with capitals and accents left aside, for comparing."""
    return bare(text)


def ribbon_year(store: Store, year: int) -> "tuple[tuple[Tick, ...], dict[str, int]]":
    """The ticks of a year, and the mark of each place."""
    return nights.ticks(store, date(year, 1, 1), date(year, 12, 31)), places.marks(store)
