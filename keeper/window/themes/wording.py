"""The program's words for themes."""

from datetime import date

from keeper.review.themes import TOO_LITTLE_IN_COMMON, Change, Course, ThemesView, ThemeView, Thread, standing_out
from keeper.study.themes.nouns import ENOUGH
from keeper.window.desk import wording

_YEAR = 360
_FAIRLY = 0.4


def facts(thread: Thread, tonight: date) -> str:
    """How often, since when, and when last."""
    parts = [wording.counted(thread.lines, "line"), f"since {wording.month_and_year(thread.first)}"]
    parts += [last_time(thread.last, tonight), "begun by you" if thread.begun else "", "pinned" if thread.pinned else ""]
    parts += [thread.change.word if thread.change else "", "mixed, with little in common" if thread.sure < _FAIRLY else ""]
    return " \u00b7 ".join(part for part in parts if part)


def last_time(night: date, tonight: date) -> str:
    """When a theme last came up, the year only where it is another."""
    said = wording.weekday_and_day(night) if night.year == tonight.year else wording.short_date(night)
    return "last tonight" if night == tonight else f"last on {said}"


def share(thread: Thread) -> str:
    """On how many of the nights kept it came up."""
    nights = wording.counted(thread.nights, "night")
    percent = wording.percent(thread.share) if round(thread.share * 100) else f"less than {wording.percent(0.01)}"
    return f"{nights}, {percent} of those kept"


def changed(change: Change | None) -> str:
    """Growing or fading, with what is compared; "" when that cannot be told."""
    if change is None:
        return ""
    now, then = wording.percent(change.after), wording.percent(change.before)
    span = "the last year" if change.days >= _YEAR else f"the last {round(change.days / 30.44)} months"
    before = "the year before" if change.days >= _YEAR else "as many before"
    return f"{change.word.capitalize()}: on {now} of the nights kept in {span}, {then} in {before}."


def strongest(view: ThemeView) -> str:
    """The months with most nights of it."""
    months = [
        f"{wording.month_and_year(month)} ({wording.counted(nights, 'night')})" for month, nights in view.strongest
    ]
    return f"Strongest in {', '.join(months)}." if months else ""


def places(view: ThemeView) -> str:
    """Where it came up."""
    told = ", ".join(f"{name} ({wording.number(nights)})" for name, nights in view.places)
    return f"Nights by place: {told}." if told else ""


def course(told: Course) -> str:
    """A course for those who cannot see it."""
    years: dict[int, int] = {}
    for at, nights in enumerate(told.nights):
        year = (told.first_month.year * 12 + told.first_month.month - 1 + at) // 12
        years[year] = years.get(year, 0) + nights
    return "Nights by year: " + ", ".join(f"{year} {wording.number(nights)}" for year, nights in years.items())


def how_matters_stand(view: ThemesView) -> str:
    """Whether there is enough, and how sure the themes are."""
    if not view.looked and view.kept >= ENOUGH:
        return "What keeps coming back has not been looked for yet."
    if not view.enough:
        return _not_enough(view)
    if not view.threads:
        return (
            f"Among {wording.counted(view.kept, 'line')} no theme stands out from chance yet. "
            "That may change with time."
        )
    told = f"{wording.counted(len(view.threads), 'theme')} in {wording.counted(view.kept, 'line')}"
    older = " They are being looked for in a new way, once; what you decided stays." if view.older else ""
    return f"{told}, {standing_out(view.sure)}.{older}"


def _not_enough(view: ThemesView) -> str:
    if view.kept >= ENOUGH:
        return TOO_LITTLE_IN_COMMON
    kept = wording.counted(view.kept, "line") if view.kept else "no lines yet"
    return f"Not enough yet: {kept}. Themes can be found from {ENOUGH} lines on."


def loose(view: ThemesView) -> str:
    """How many lines belong nowhere."""
    return _belong_nowhere(view.loose) if view.loose else ""


def _belong_nowhere(lines: int) -> str:
    return f"{wording.counted(lines, 'line')} {'belongs' if lines == 1 else 'belong'} to no theme, and need not."
