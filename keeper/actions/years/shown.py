"""Years: the page of a year, and choosing the lines that stand for it."""

from collections.abc import Sequence

from keeper.actions import told_as
from keeper.actions.years.material import YearMaterial
from keeper.model import Line
from keeper.review import year_choices
from keeper.review.year import LINES_OF_A_MONTH, LINES_OF_THE_YEAR, YearReview
from keeper.review.year_sums import theme_flow
from keeper.review.year_words import moved_words
from keeper.store import Store, lines, year_pages

__all__ = ["LINES_OF_A_MONTH", "LINES_OF_THE_YEAR"]


def year_page(store: Store, year: int, *, brief: bool = False) -> YearReview:
    """All of a year: what its page and the book show.

    ``brief`` leaves out what needs every word of two years read: the lines
    proposed, and the words that rose and fell. It takes a fourth of the time.
    """
    of = YearMaterial(store, year, brief)
    months = tuple(of.month(month) for month in range(1, 13))
    kept = of.awake(year)
    rose, fell = ((), ()) if brief else moved_words(kept, of.awake(year - 1), of.words)
    ends = lines.span(store)
    return YearReview(
        year=year,
        years=(ends[0].year, ends[1].year) if ends else None,
        counts=of.counts(year),
        before=of.counts(year - 1),
        months=months,
        lines=year_choices.year_lines(of.decided, months, kept, of.propose),
        own_lines=bool(year_choices.choices(of.decided, 0, "line")),
        flow=theme_flow(kept, of.themes_of()),
        **of.whereabouts(),
        readings=of.readings(),
        rose=rose,
        fell=fell,
        brief=brief,
        state=of.decided.state,
        answers=of.answers,
    )


def replace_line(store: Store, year: int, month: int, old: str, new: str) -> None:
    """Put a line in the place of another of a month, or of the year (0).

    ``new`` may be "" (none), ``old`` too (one line more). Raises UnknownThing.
    """
    with store.writing(told_as.of_year_month("A line", year, month)):
        if new:
            lines.still_kept(store, new)
        of = YearMaterial(store, year)
        shown = _shown(of, month)
        made = year_choices.with_replaced(shown, old, new, year_choices.choices(of.decided, month, "line"), month)
        year_pages.choose(store, year, month, "line", made)


def propose_again(store: Store, year: int, month: int) -> None:
    """Forget what was decided of a month's lines and photo, or of the year's lines (0)."""
    with store.writing(told_as.of_year_month("Proposed again", year, month)):
        for what in ("photo", "line"):
            year_pages.choose(store, year, month, what, ())


def lines_to_choose(store: Store, year: int, month: int) -> tuple[Line, ...]:
    """The lines awake of a month, oldest first."""
    return YearMaterial(store, year).of_month(month)


def _shown(of: YearMaterial, month: int) -> Sequence[Line]:
    if month:
        return of.month(month).lines
    months = tuple(of.month(number) for number in range(1, 13))
    return year_choices.year_lines(of.decided, months, of.awake(of.year), of.propose)
