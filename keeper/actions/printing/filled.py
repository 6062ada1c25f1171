"""A month as it was kept, as its printed pages hold it."""

from keeper.actions.readings import wording
from keeper.review.book import BookPhoto
from keeper.review.month import MonthNight, MonthView
from keeper.review.month_series import Series
from keeper.review.printed.leaves import PaperLeaf
from keeper.review.printed.pages import MonthParts, NightRow, PrintedMonth, TrackerColumn
from keeper.review.year_words import spoken


def filled_month(view: MonthView, leaf: PaperLeaf, ink: str, parts: MonthParts) -> PrintedMonth:
    """A month's page as pages to print; what rests is left out of it already, where it is not wanted."""
    photo, page = view.photo, view.page
    return PrintedMonth(
        view.month, leaf, ink, spoken([line.text for line in view.lines])[0], tuple(_row(night, parts) for night in view.nights),
        parts, tuple(_column(one) for one in view.series if one.noted) if parts.readings else (), filled=True,
        question=page.question if parts.question else "", words=page.words if parts.words else "",
        goals=page.goals if parts.goals else (),
        photo=BookPhoto(photo.id, photo.width or 4, photo.height or 3, photo.caption) if photo and parts.photo else None,
    )  # fmt: skip


def _row(night: MonthNight, parts: MonthParts) -> NightRow:
    place = night.place.name if night.place and parts.places else ""
    return NightRow(night.date, tuple((line.kind_title, line.text) for line in night.lines), place)


def _column(series: Series) -> TrackerColumn:
    values = tuple(_told(series, at) for at in range(len(series.values)))
    return TrackerColumn(series.tracker.name, values, series.tracker.body)


def _told(series: Series, at: int) -> str:
    reading = series.readings[at] if at < len(series.readings) else None
    if reading is not None:
        return wording.short(series.tracker, reading)
    # An empty mark of a night that was kept is a no.
    return "" if series.values[at] is None else "no"
