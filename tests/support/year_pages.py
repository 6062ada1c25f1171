"""When a page of a year is filled."""

from keeper.window.year.page import YearOverview


def all_shown(page: YearOverview) -> bool:
    """Whether all of its year is on the page."""
    review = page.review
    return review is not None and review.year == page.year and not review.brief and not page._coming
