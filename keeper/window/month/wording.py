"""The program's words for a month: what it held, and what its readings were."""

from collections.abc import Iterable, Sequence
from datetime import date

from keeper.days import next_month
from keeper.model import Tracker
from keeper.review.month import MonthNight, MonthPlace, MonthTheme, MonthView, MonthWord
from keeper.review.month_series import Series
from keeper.study.firsts import PERSON, PLACE, THEME, First
from keeper.window.desk import wording
from keeper.window.desk.wording import CAUTION

BAND = "The band behind sleep: 7 to 9 hours, usual for adults (Hirshkowitz et al., 2015)."

_SHOWN = 400


def caution(series: Iterable[Series]) -> str:
    """What stands wherever readings are shown."""
    return f"{BAND} {CAUTION}" if any(one.band for one in series) else CAUTION


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
    parts = [wording.weekday_and_day(night.date), night.place.name if night.place and night.arrived else ""]
    parts += [line.text for line in night.lines] or ["nothing written"]
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
    return f"on {theme.nights} of {wording.counted(kept, 'night')}"


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


def value_told(tracker: Tracker, value: float) -> str:
    """A reading with its unit."""
    if tracker.form == "mark":
        return "yes" if value else "no"
    return f"{wording.shortest(value)} {tracker.unit}".strip()


def series_told(series: Series) -> str:
    """What a strip shows, for a screen reader."""
    noted = [value for value in series.values if value is not None]
    if not noted:
        return f"{series.tracker.name}: nothing noted"
    if series.tracker.form == "mark":
        return f"{series.tracker.name}: on {wording.counted(sum(1 for value in noted if value), 'night')}"
    unit = f" {series.tracker.unit}" if series.tracker.unit else ""
    return (
        f"{series.tracker.name}: {wording.shortest(min(noted))} to {wording.shortest(max(noted))}{unit}, "
        f"noted on {wording.counted(len(noted), 'night')}"
    )
