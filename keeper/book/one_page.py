"""A month on its single page: what gives way when there is too much for it."""

from collections.abc import Callable
from dataclasses import replace

from keeper.book import wording
from keeper.book.laying_out import LaidOut
from keeper.review.book import BookMonth, BookNight

READABLE, SMALLEST = 0.8, 0.7
"""How small letters get so that all has room (7.6 points on A5), and where the month's own words alone are too many."""


def fit_one_page(laid: LaidOut, count: Callable[[], int]) -> None:
    """Lay a sheet out so that ``count`` tells of a single page; what has no room is said on it.

    The person's words outlast all else: first the letters get smaller, then the
    readings lower, then the readings go. Only then do lines go, as few as may
    be and the last ones first.
    """
    whole = laid.work.month
    bare = replace(whole, readings=())

    def fits(month: BookMonth, scale: float, flat: bool = False) -> bool:
        laid.work, laid.scale, laid.flat = replace(laid.work, month=month), scale, flat
        laid.lacking = _lacking(whole, month)
        laid.write()
        return count() == 1

    if not (
        any(fits(whole, scale) for scale in (1.0, 0.9, READABLE))
        or (whole.readings and (fits(whole, READABLE, flat=True) or fits(bare, READABLE)))
    ):
        _leave_lines_out(bare, fits)
    laid.left_out += (laid.lacking,) if laid.lacking else ()


def _leave_lines_out(month: BookMonth, fits: Callable[[BookMonth, float], bool]) -> None:
    fit, too_many = 0, _count(month)
    while too_many - fit > 1:
        half = (fit + too_many) // 2
        if fits(_with_lines(month, half), READABLE):
            fit = half
        else:
            too_many = half
    # The last one tried need not be the one that fits.
    if not fits(_with_lines(month, fit), READABLE):
        fits(_with_lines(month, 0), SMALLEST)


def _with_lines(month: BookMonth, number: int) -> BookMonth:
    nights: list[BookNight] = []
    for night in month.nights:
        lines = night.lines[:number]
        number -= len(lines)
        nights += [replace(night, lines=lines)] if lines else []
    return replace(month, nights=tuple(nights))


def _lacking(whole: BookMonth, shown: BookMonth) -> str:
    lines = _count(whole)
    left = lines - _count(shown)
    told = ["the readings"] if whole.readings and not shown.readings else []
    if left:
        told.append(f"{left} of {lines} lines" if left < lines else wording.counted(lines, "line"))
    return f"There was no room for {' and '.join(told)}." if told else ""


def _count(month: BookMonth) -> int:
    return sum(len(night.lines) for night in month.nights)
