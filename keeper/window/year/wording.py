"""The program's words for a year."""

from keeper.actions.readings import wording as readings
from keeper.dates.written import MONTHS
from keeper.review.places import PlacesView, Travels
from keeper.review.readings.year import week_begins
from keeper.review.year import Counts, MovedWord, ThemeFlow, YearReadings, YearReview
from keeper.study.readings.spread import Spread
from keeper.window.desk import wording
from keeper.window.parts.places import wording as place_wording

__all__ = ["MONTHS"]


def counted(review: YearReview) -> str:
    """What the year holds, and the year before beside it."""
    if not review.counts.lines:
        return _empty(review)
    told = _held(review.counts) + "."
    before = review.before
    if before.lines:
        nights, words = wording.counted(before.nights, "night"), wording.counted(before.words, "word")
        told += f" The year before: {nights}, {words}."
    return told


def _held(counts: Counts) -> str:
    parts = [f"{wording.counted(counts.nights, 'night')} kept", wording.counted(counts.lines, "line"),
             wording.counted(counts.words, "word")]  # fmt: skip
    parts += [wording.counted(counts.photos, "photo")] if counts.photos else []
    return ", ".join(parts)


def _empty(review: YearReview) -> str:
    if review.years is None:
        return "Nothing is kept yet. The year fills in by itself as lines come."
    return f"Nothing is kept of {review.year}."


def sit(review: YearReview) -> tuple[str, str]:
    """The words of the button that opens the sitting, short and in full."""
    year = review.year
    if review.state == "closed":
        return "Open the sitting again", f"Open the sitting with {year} again"
    if review.state == "begun":
        return f"Go on with {year}", f"Go on with {year}"
    return "Sit down with the year", f"Sit down with {year}: twelve months, one after another"


def offer(year: int, state: str) -> str:
    """The sitting, as the page of the night offers it."""
    return f"Go on with {year}" if state else f"Sit down with {year}, month by month"


def whereabouts(view: PlacesView, travels: Travels) -> str:
    """Nights, places, moves and kilometres in one sentence."""
    moves = wording.counted(len(travels.legs), "move") if travels.legs else ""
    known = f"{wording.counted(view.nights, 'night')} with a known place, at {wording.counted(view.been, 'place')}"
    return " \u00b7 ".join(filter(None, (known, moves, place_wording.travelled(travels))))


def share(flow: ThemeFlow, month: int) -> str:
    """Such as: Swimming in July: on 23 % of the nights kept."""
    return f"{flow.name} in {MONTHS[month - 1]}: on {wording.percent(flow.shares[month - 1])} of the nights kept"


def scale_of_flow(most: float) -> str:
    """How to read the thickness of the bands."""
    return f"The thicker, the more nights of the month. The thickest is {wording.percent(most)}."


def value(form: str, middle: float) -> str:
    """A median as it stands on the page; a mark's is a share."""
    if form == "hours":
        return readings.clock(middle)
    return wording.percent(middle) if form == "mark" else wording.shortest(middle, 1)


def of_month(of: YearReadings, month: int) -> str:
    """How a month's nights were, on how many, and those of the year before."""
    now, then = of.months[month - 1], of.before[month - 1]
    told = f"{MONTHS[month - 1]}: {_nights(of, now)}"
    return f"{told}; the year before {_nights(of, then)}" if then.nights else told


def of_week(of: YearReadings, year: int, week: int) -> str:
    """How a week's nights were."""
    return f"Week of {wording.day_and_month(week_begins(year, week))}: {_nights(of, of.weeks[week - 1])}"


def _nights(of: YearReadings, one: Spread) -> str:
    if one.middle is None:
        return "not noted"
    nights = wording.counted(one.nights, "night")
    form = of.tracker.form
    if form == "mark":
        between = f"{wording.percent(one.low)} to {wording.percent(one.high)}"
        return f"on {round(one.middle * one.nights)} of {nights} ({wording.percent(one.middle)}, likely {between})"
    unit = f" {of.tracker.unit}" if of.tracker.unit and form != "hours" else ""
    halfway = f", half of them from {value(form, one.low)} to {value(form, one.high)}" if one.nights > 1 else ""
    return f"{value(form, one.middle)}{unit}, {nights}{halfway}"


def about(of: YearReadings) -> str:
    """What the figures of a tracker are."""
    if of.tracker.form == "mark":
        return "share of the nights kept"
    unit = "hours and minutes" if of.tracker.form == "hours" else of.tracker.unit
    return f"median, {unit}" if unit else "median"


def legend(year: int, then: bool, marks: bool) -> str:
    """How to read the strips."""
    dashed = f", dashed {year - 1}" if then else ""
    share = " Of a mark: the share of nights, and between what it likely lies (95 %)." if marks else ""
    return f"Solid line {year}{dashed}: the median; the upright strokes hold the middle half of the nights. n: nights.{share}"


def moved(words: tuple[MovedWord, ...]) -> str:
    """Words with the nights on which they came up, and those of the year before."""
    first, *rest = words
    told = f"{first.word} on {wording.counted(first.nights, 'night')} ({first.before} the year before)"
    return ", ".join([told, *(f"{one.word} on {one.nights} ({one.before})" for one in rest)]) + "."
