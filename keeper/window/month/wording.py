"""The program's words for a month: what it held, and what its readings were."""

from collections.abc import Iterable, Sequence
from datetime import date

from keeper import cautions
from keeper.actions.readings import wording as readings
from keeper.actions.readings.wording import NOT_NOTED
from keeper.days import next_month
from keeper.review.month import MonthNight, MonthPlace, MonthTheme, MonthView, MonthWord
from keeper.review.month_series import Series
from keeper.review.readings.axes import Crossed
from keeper.study.firsts import PERSON, PLACE, THEME, First
from keeper.window.desk import wording

__all__ = ["NOT_NOTED"]

BAND = "The band behind sleep: 7 to 9 hours, usual for adults (Hirshkowitz et al., 2015)."

_SHOWN = 400


def caution(series: Iterable[Series]) -> str:
    """What stands wherever readings are shown; of the body and the mood in full."""
    shown = list(series)
    told = cautions.under(any(one.tracker.body for one in shown))
    return f"{BAND} {told}" if any(one.band for one in shown) else told


def held(view: MonthView) -> str:
    """Such as "28 nights kept, 46 lines"; "" when there is none."""
    if not view.kept:
        return ""
    return f"{wording.counted(view.kept, 'night')} kept, {wording.counted(len(view.lines), 'line')}"


def outcome_told(outcome: str, month: date) -> str:
    """What became of a goal of a month, in a few words; the file's own word for one that it does not know."""
    return {
        "set": "still ahead", "done": "came about", "let go": "let be",
        "carried on": f"goes on in {wording.month_and_year(next_month(month)).split()[0]}",
    }.get(outcome, outcome)  # fmt: skip


def first_words(night: MonthNight) -> str:
    """What a night's row begins with, in one line."""
    return " ".join(night.lines[0].text[:_SHOWN].split()) if night.lines else ""


def night_told(night: MonthNight) -> str:
    """A night's row for a screen reader."""
    parts = [wording.weekday_and_day(night.date), night.place.name if night.place else ""]
    for line in night.lines:
        parts += [line.text, *(f"Later, {wording.short_date(word.said_on)}: {word.text}" for word in line.later if word.text)]
    parts += [] if night.lines else ["nothing written"]
    return ". ".join(part for part in parts if part)


def place_told(place: MonthPlace) -> str:
    """Such as "12 nights, from the 3rd"."""
    return f"{wording.counted(len(place.nights), 'night')}, {spans(place.nights)}"


def spans(nights: Sequence[date]) -> str:
    """Such as "1 to 4, 9, 12 to 30"."""
    runs: list[list[int]] = []
    for night in nights:
        if runs and night.day == runs[-1][1] + 1:
            runs[-1][1] = night.day
        else:
            runs.append([night.day, night.day])
    return ", ".join(str(a) if a == b else f"{a} to {b}" if b > a + 1 else f"{a}, {b}" for a, b in runs)


def theme_told(theme: MonthTheme, kept: int) -> str:
    """Such as "on 6 of 28 nights"."""
    told = f"on {theme.nights} of {wording.counted(kept, 'night')}"
    return f"{told} \u00b7 mostly {theme.mostly}" if theme.mostly else told


def word_told(word: MonthWord) -> str:
    """Such as "boy, 5 times on 4 nights"."""
    return f"{word.word}, {wording.counted(word.times, 'time')} on {wording.counted(word.nights, 'night')}"


def first_told(first: First) -> str:
    """What came for the first time, without the night."""
    if first.kind == PLACE:
        return f"first night in {first.name}"
    if first.kind == PERSON:
        return f"{first.name}, first named"
    if first.kind == THEME:
        return f"\u201c{first.name}\u201d, for the first time"
    return f"{first.name}, first noted"


def nights_told(series: Series) -> tuple[str, ...]:
    """What each night of the month has of a reading; "" where its tracker is not under way."""
    return tuple(_night_of(series, day) for day in range(1, len(series.values) + 1))


def _night_of(series: Series, day: int) -> str:
    value, reading = series.values[day - 1], series.readings[day - 1]
    if value is None and day not in series.in_force:
        return ""
    # A mark that was left empty on a night that was kept.
    told = readings.LEFT_EMPTY if reading is None and value is not None else readings.value(series.tracker, reading)
    ends = [" (its first night)"] * (day == series.began) + [" (its last night)"] * (day == series.ended)
    return told + "".join(ends)


def spot_kept(series: Series) -> str:
    """Why the spot of a tracker is empty this month, such as "from 3 June 2026"; "" when it is not."""
    if series.here:
        return ""
    began, ended = series.tracker.began, series.tracker.ended
    return f"until {wording.shorter_date(ended)}" if series.over and ended else f"from {wording.shorter_date(began)}"


def crossed_told(crossed: Crossed) -> str:
    """Such as "mood falls below stress"."""
    way = "rises above" if crossed.crossing.over else "falls below"
    return f"{crossed.one} {way} {crossed.other}"


def series_told(series: Series) -> str:
    """What a strip shows, for a screen reader."""
    noted = [value for value in series.values if value is not None]
    name = series.tracker.name
    if not series.here:
        return f"{name}: {spot_kept(series)}"
    if not noted:
        return f"{name}: nothing noted"
    if series.tracker.form == "mark":
        return f"{name}: on {sum(1 for value in noted if value)} of {wording.counted(len(noted), 'night')}"
    hours = series.tracker.form == "hours"
    least, most = (readings.clock(end) if hours else wording.shortest(end) for end in (min(noted), max(noted)))
    unit = "" if hours else series.tracker.unit
    return f"{name}: {least} to {f'{most} {unit}'.strip()}, noted on {wording.counted(len(noted), 'night')}"
