"""A month and a year as pages to send, from what their own pages show."""

from keeper import cautions
from keeper.actions.months.shown import month_page
from keeper.actions.printing.contents import ink_of
from keeper.actions.readings import wording
from keeper.actions.sending.parts import Speaker, by_night, photo_of, speaker
from keeper.actions.sending.wanted import SentWanted
from keeper.actions.years.shown import year_page
from keeper.book.wording import outcome
from keeper.dates import written
from keeper.errors import UnknownThing
from keeper.model import Place
from keeper.review.month import MonthView
from keeper.review.month_series import Series
from keeper.review.sent import SentPage, SentPart, SentTable
from keeper.review.year import YearMonth, YearReview
from keeper.store import Store
from keeper.study.readings.spread import share, spread
from keeper.study.where import write_coordinates


def sent_month(store: Store, wanted: SentWanted) -> SentPage:
    """A month. Raises UnknownThing where nothing that may be shown is kept of it."""
    view = month_page(store, wanted.month, with_resting=wanted.resting)
    title = written.month_and_year(view.month)
    if view.empty:
        raise UnknownThing(f"Nothing is kept of {title}.")
    says = speaker(line.text for line in view.lines)
    photo = (photo_of(view.photo, title),) if view.photo and wanted.photos else ()
    parts = (
        SentPart(photos=photo),
        SentPart("The month\u2019s question", (view.page.question,) if view.page.question else ()),
        SentPart("In a few words", (view.page.words,) if view.page.words else ()),
        SentPart("Goals", facts=tuple((one.text, outcome(one.outcome, one.word) or "set") for one in view.page.goals)),
        SentPart("Places", facts=_places(view) if wanted.positions else ()),
        SentPart("Themes", facts=tuple((one.name, written.counted(one.nights, "night")) for one in view.themes if one.name)),
        SentPart("Readings", table=_readings(view.series) if wanted.readings else None),
        SentPart("Nights", nights=_nights(view, says, wanted.positions)),
    )
    return SentPage(title, f"{written.counted(view.kept, 'night')} kept", _full(parts), ink_of(store), says.most, wanted.size)


def _full(parts: tuple[SentPart, ...]) -> tuple[SentPart, ...]:
    return tuple(part for part in parts if not part.empty)


def _nights(view: MonthView, says: Speaker, positions: bool) -> tuple:
    places = {night.date: night.place.name for night in view.nights if night.place} if positions else {}
    return by_night(view.lines, says, places)


def _places(view: MonthView) -> tuple[tuple[str, str], ...]:
    return tuple((one.place.name, where_told(one.place, len(one.nights))) for one in view.places)


def where_told(place: Place, nights: int) -> str:
    """How many nights were spent at a place, and its position where that is known."""
    at = f"; {write_coordinates(*place.point)}" if place.point else ""
    return f"{written.counted(nights, 'night')}{at}"


def _readings(series: tuple[Series, ...]) -> SentTable | None:
    noted = [one for one in series if one.noted]
    if not noted:
        return None
    rows = tuple((one.tracker.name, _middle(one), written.counted(one.noted, "night")) for one in noted)
    return SentTable("The middle of the month", ("Reading", "Middle", "Nights"), rows, cautions.under(any(one.tracker.body for one in noted)))


def _middle(series: Series) -> str:
    values = [value for value in series.values if value is not None]
    tracker = series.tracker
    if tracker.form == "mark":
        return written.percent(share(sum(values), len(values)).middle or 0.0)
    middle = spread(values).middle or 0.0
    return wording.clock(middle) if tracker.form == "hours" else f"{written.shortest(middle)} {tracker.unit}".strip()


def sent_year(store: Store, wanted: SentWanted) -> SentPage:
    """A year: what stands for its months, and for itself. Raises UnknownThing where nothing is kept of it."""
    view = year_page(store, wanted.month.year)
    if not view.shown_months:
        raise UnknownThing(f"Nothing is kept of {view.year}.")
    lines = [*view.lines, *(line for month in view.months for line in month.lines)]
    says = speaker(line.text for line in lines)
    places = view.places.places if wanted.positions else ()
    parts = (
        SentPart("Lines of the year", nights=by_night(view.lines, says)),
        *(_month(one, says, wanted.photos) for one in view.shown_months),
        SentPart("Themes", facts=tuple((one.name, written.counted(one.nights, "night")) for one in view.flow if one.name)),
        SentPart("Places", facts=tuple((one.place.name, where_told(one.place, one.nights)) for one in places if one.nights)),
        SentPart("Readings", table=_of_the_year(view) if wanted.readings else None),
        *(SentPart(one.question, (one.answer,)) for one in view.answers if one.answer.strip()),
    )
    told = f"{written.counted(view.counts.nights, 'night')} kept, {written.counted(view.counts.lines, 'line')}"
    return SentPage(str(view.year), told, _full(parts), ink_of(store), says.most, wanted.size)


def _month(month: YearMonth, says: Speaker, photos: bool) -> SentPart:
    title = written.month_and_year(month.month)
    shown = (photo_of(month.photo, title),) if month.photo and photos else ()
    return SentPart(title, (month.words,) if month.words else (), photos=shown, nights=by_night(month.lines, says))


def _of_the_year(view: YearReview) -> SentTable | None:
    if not view.readings:
        return None
    rows = []
    for one in view.readings:
        mark = one.tracker.form == "mark"
        cells = ["" if spot.middle is None else written.percent(spot.middle) if mark
                 else wording.clock(spot.middle) if one.tracker.form == "hours" else written.shortest(spot.middle, 1)
                 for spot in one.months]  # fmt: skip
        rows.append((one.tracker.name, *cells))
    heads = ("", *(name[:3] for name in written.MONTHS))
    return SentTable("The middle of each month", heads, tuple(rows), cautions.under(any(one.tracker.body for one in view.readings)))
