"""What the tables of comma-separated values hold: one row a line, a reading, a photo, and so on.

The names at the head are plain words. Moments are ISO 8601 in UTC, nights are
dates, degrees are those of WGS 84.
"""

from collections.abc import Iterable
from datetime import date, datetime

from keeper.exchange.out.cells import Cells, Out, told
from keeper.exchange.out.given import GivenNight, GivenReading, in_utc, spelt_once
from keeper.model import Place
from keeper.model.found import Person
from keeper.model.months import MonthPage
from keeper.model.people import DayToRemember
from keeper.model.photos import Photo
from keeper.model.places import PlacePage


class LineCells:
    """The lines."""

    def __init__(self, out: Out) -> None:
        self._cells = Cells(out, (
            "night", "kind", "text", "place", "country", "theme", "written at (UTC)", "minutes from UTC", "time zone",
            "rests", "id",
        ))  # fmt: skip

    def night(self, night: GivenNight) -> None:
        """Those of a night."""
        place, country = (night.place.name, night.place.country) if night.place else ("", "")
        its = night.date.isoformat()
        self._cells.rows([
            (its, line.kind_title, line.text, place, country, night.themes.get(line.id, ""), in_utc(line.written.utc),
             line.written.offset_minutes, line.written.zone, line.resting, line.id)
            for line in night.lines
        ])  # fmt: skip


class ReadingCells:
    """The readings: what was noted each night, each as it was noted."""

    def __init__(self, out: Out) -> None:
        self._cells = Cells(out, ("night", "what", "form", "value", "unit", "from", "until", "low end", "high end", "id of what"))
        self._after = spelt_once(self._after_the_night)

    def night(self, night: GivenNight) -> None:
        """Those of a night."""
        # A date is never quoted.
        its, after = night.date.isoformat(), self._after
        self._cells.text("".join([its + after(one) for one in night.readings]))

    def _after_the_night(self, one: GivenReading) -> str:
        what = one.tracker
        ends = (what.low, what.high) if one.low is None else (one.low, one.high)
        return self._cells.spelt([
            told(("", what.name, what.form, one.value, one.unit or what.unit, one.first, one.until, *ends, what.id))
        ])  # fmt: skip


class PhotoCells:
    """The photos: where each file lies, its night and its caption."""

    def __init__(self, out: Out) -> None:
        self._cells = Cells(out, (
            "file", "night", "caption", "taken (local time)", "minutes from UTC", "latitude", "longitude", "file name when it came",
            "rests", "SHA-256", "id",
        ))  # fmt: skip

    def photo(self, photo: Photo, file: str, night: date | None, sha256: str) -> None:
        """One of them; the night is None where it belongs to none."""
        taken = photo.taken_local.isoformat(timespec="seconds") if photo.taken_local else ""
        self._cells.row(
            file, night.isoformat() if night else "", photo.caption, taken, photo.taken_offset_minutes, photo.latitude,
            photo.longitude, photo.name, photo.resting, sha256, photo.id,
        )  # fmt: skip


class MonthCells:
    """The months: question and words."""

    def __init__(self, out: Out) -> None:
        self._cells = Cells(out, ("month", "question", "words"))

    def month(self, page: MonthPage) -> None:
        """One of them, if anything was written for it."""
        if page.question or page.words:
            self._cells.row(f"{page.month:%Y-%m}", page.question, page.words)


class GoalCells:
    """The goals of months."""

    def __init__(self, out: Out) -> None:
        self._cells = Cells(out, ("month", "goal", "what became of it", "of it was said", "carried on from (id)", "id"))

    def month(self, page: MonthPage) -> None:
        """Those of a month."""
        for goal in page.goals:
            self._cells.row(f"{page.month:%Y-%m}", goal.text, goal.outcome, goal.word, goal.carried_from, goal.id)


class LaterWordCells:
    """Later words under lines: the night of the line, the one it was said on, how a reading of the first looked by then."""

    def __init__(self, out: Out) -> None:
        self._cells = Cells(out, (
            "night", "kind", "later word", "said on", "what was looked at again", "as it looked", "written at (UTC)",
            "minutes from UTC", "time zone", "id of the line",
        ))  # fmt: skip

    def night(self, night: GivenNight) -> None:
        """Those of a night's lines."""
        for line in night.lines:
            for word in line.later:
                self._cells.row(
                    night.date.isoformat(), line.kind_title, word.text, word.said_on.isoformat(), word.of, word.looks,
                    in_utc(word.written.utc), word.written.offset_minutes, word.written.zone, line.id,
                )  # fmt: skip


def places(out: Out, those: Iterable[tuple[Place, PlacePage, int, date | None, date | None]]) -> None:
    """The places, each with what is said of it, how many nights were spent there, the first and the last."""
    cells = Cells(out, (
        "name", "region", "country", "latitude", "longitude", "time zone", "on the way", "nights", "first night", "last night",
        "rests", "what it is", "note", "id",
    ))  # fmt: skip
    for place, said, nights, first, last in those:
        cells.row(
            place.name, place.region, place.country, place.latitude, place.longitude, place.zone, place.on_the_way, nights,
            first and first.isoformat(), last and last.isoformat(), place.resting, said.roof, said.note, place.id,
        )  # fmt: skip


def people(out: Out, those: Iterable[tuple[Person, str]]) -> None:
    """The people whose names were marked, each with the line about them."""
    cells = Cells(out, ("name", "all spellings", "rests", "who this is", "id"))
    for person, about in those:
        cells.row(person.names[0] if person.names else person.name, person.name, person.resting, about, person.id)


def days_to_remember(out: Out, those: Iterable[tuple[Person, DayToRemember]]) -> None:
    """Days of people to remember, in the Gregorian calendar; the first year is empty where it is not known."""
    cells = Cells(out, (
        "name", "what", "month", "day", "first year", "as it was said in another calendar", "told on its evening",
        "29 February is 1 March in other years", "id of whose", "id",
    ))  # fmt: skip
    for person, one in those:
        cells.row(
            person.names[0] if person.names else person.name, one.what, one.month, one.day, one.year, one.typed, one.told,
            one.after, person.id, one.id,
        )  # fmt: skip


def themes(out: Out, those: Iterable[tuple[int, str, bool, bool, int, str, str]]) -> None:
    """The themes: number, name, whether the person named and pinned it, how many lines it has, its words, its id."""
    cells = Cells(out, ("number", "name", "named by the person", "pinned", "lines", "words", "id"))
    for theme in those:
        cells.row(*theme)


def decisions(out: Out, those: Iterable[tuple[datetime, str, str, datetime | None]]) -> None:
    """What was decided about themes: when, what, its details as JSON, and when that was undone."""
    cells = Cells(out, ("when (UTC)", "what", "details (JSON)", "undone (UTC)"))
    for at, what, detail, undone in those:
        cells.row(in_utc(at), what, detail, in_utc(undone) if undone else "")


def wordings(out: Out, those: Iterable[tuple[str, str, str, str, str]]) -> None:
    """Earlier wordings of lines: night, kind, text, when it was written and when it was replaced."""
    cells = Cells(out, ("night", "kind", "earlier text", "written at (UTC)", "replaced at (UTC)"))
    for row in those:
        cells.row(*row)


def answers(out: Out, those: Iterable[tuple[int, str, str]]) -> None:
    """Closing questions of years, and the answers."""
    cells = Cells(out, ("year", "question", "answer"))
    for row in those:
        cells.row(*row)
