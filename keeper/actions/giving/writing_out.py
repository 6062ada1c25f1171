"""The texts, tables, JSON, calendar and globe of an archive: the nights are gone through once for all of them."""

from collections.abc import Callable, Iterator
from concurrent.futures import Future
from contextlib import AbstractContextManager, ExitStack, nullcontext
from datetime import date
from pathlib import Path

from keeper import __version__
from keeper.actions.giving import rows_apart
from keeper.actions.giving.limits import Limits
from keeper.actions.giving.material import Material
from keeper.actions.giving.notebook import NotebookGiven
from keeper.actions.giving.pictures import PicturesGiven
from keeper.actions.giving.sieve import Sieve
from keeper.actions.giving.whereabouts import FORMS, write_globe
from keeper.dates.written import MONTHS
from keeper.errors import Stopped
from keeper.exchange.archive.bag import Bag
from keeper.exchange.out import tables
from keeper.exchange.out.given import GivenNight
from keeper.exchange.out.journal import Journal
from keeper.exchange.out.rows import RowsOut
from keeper.exchange.out.year_text import YearText
from keeper.model.places import PlacePage
from keeper.shipped import resource
from keeper.store import Store
from keeper.store.file.opening import SCHEMA
from keeper.store.rows import given, shape, spans

JSON, SCHEMA_FILE = "json/keeper.json", "json/keeper.schema.json"

Progress = Callable[[float, str], None]


def _globe_of(parts: frozenset[str]) -> tuple[str, ...]:
    return tuple(FORMS) if "globe" in parts else ()


class WritingOut:
    """Writes into a bag what is wanted of a keeper, of which ``file`` is a copy; ``nights``, ``lines`` and the ends of the span tell what came."""

    def __init__(
        self, store: Store, file: Path, limits: Limits, bag: Bag, pictures: PicturesGiven, notebook: NotebookGiven, progress: Progress,
        stopped: Callable[[], bool],
    ) -> None:  # fmt: skip
        self._store, self._file = store, file
        self._limits, self._bag, self._pictures = limits, bag, pictures
        self._notebook, self._progress, self._stopped = notebook, progress, stopped
        self._written: list[str] = []
        self.nights = self.lines = 0
        self.first: date | None = None
        self.last: date | None = None
        self.keeper_id = given.keeper_id(limits.copy)

    def write(self, parts: frozenset[str], meanwhile: Callable[[], None] = lambda: None) -> None:
        """Write these parts; ``meanwhile`` is done before others are waited for that write some of them. Raises OSError, Stopped."""
        files = {key: f"data/{one.path}" for key, one in self._pictures.given.items()}
        self._material = Material(self._limits, files)
        self.nights = self.lines = 0
        before = set(self._bag.payload)
        with self._rows_beside(parts) as rows:
            self._night_by_night(parts)
            if "tables" in parts:
                self._tables()
            meanwhile()
            there = self._known(rows.result(), parts) if rows else False
            if "globe" in parts and not there:
                self._globe()
            if "json" in parts:
                self._json(there)
        if "photos" in parts and not parts & {"database", "text", "tables", "json"}:
            # Their captions would be nowhere.
            self._photo_table()
        self._written = sorted(set(self._bag.payload) - before)

    def _rows_beside(self, parts: frozenset[str]) -> AbstractContextManager[Future[list[str] | None] | None]:
        # What is held back is found out as the rows go by, and what is found is needed here.
        if "json" not in parts or not self._limits.wanted.whole or self._file.stat().st_size < rows_apart.WORTH_A_PROCESS:
            return nullcontext()
        return rows_apart.under_way(self._store, self._file, self._bag.path(JSON), {one: self._bag.path(one) for one in _globe_of(parts)}, self._stopped)

    def _known(self, hashes: list[str] | None, parts: frozenset[str]) -> bool:
        """Take up what was written elsewhere; False where nothing was."""
        for path, sha256 in zip((JSON, *_globe_of(parts)), hashes or (), strict=bool(hashes)):
            self._bag.known(path, sha256)
        return hashes is not None

    def write_again_without_photos_that_lack(self, parts: frozenset[str]) -> None:
        """Write all of it once more: a photo turned out to have no whole file."""
        for name in self._written:
            self._bag.let_go(name)
        self.first = self.last = None
        self.write(parts)

    def _globe(self) -> None:
        with ExitStack() as open_:
            write_globe([form(open_.enter_context(self._bag.text(path))) for path, form in FORMS.items()], self._limits)

    # night by night

    def _night_by_night(self, parts: frozenset[str]) -> None:
        with ExitStack() as open_:
            def begun(path: str):
                return open_.enter_context(self._bag.text(path))

            journal = Journal(begun("calendar/lines.ics"), __version__) if "calendar" in parts else None
            of_nights, of_months = [journal] if journal else [], []
            if "tables" in parts:
                of_nights += [tables.LineCells(begun("tables/lines.csv")), tables.ReadingCells(begun("tables/readings.csv")),
                              tables.LaterWordCells(begun("tables/later-words.csv"))]  # fmt: skip
                of_months += [tables.MonthCells(begun("tables/months.csv")), tables.GoalCells(begun("tables/goals.csv"))]
            self._years(of_nights, of_months, "text" in parts)
            if journal:
                journal.end()

    def _years(self, of_nights: list, of_months: list, as_text: bool) -> None:
        months = self._material.months()
        years: dict[int, list[date]] = {}
        for month in months:
            years.setdefault(month.year, []).append(month)
        for place, (year, its) in enumerate(years.items()):
            self._progress(0.6 * place / len(years), f"{year}")
            if as_text:
                with self._bag.text(f"text/{year:04d}.md") as out:
                    self._year(year, its, of_nights, of_months, YearText(out, year, self._front(year, its)))
            else:
                self._year(year, its, of_nights, of_months, None)

    def _front(self, year: int, months: list[date]) -> list[tuple[str, str]]:
        return [
            ("what this is", "a diary kept night by night"),
            ("months", f"{MONTHS[months[0].month - 1]} to {MONTHS[months[-1].month - 1]}"),
            ("whose words", "rows that begin with \">\" are the words of whoever kept it"),
        ]

    def _year(self, year: int, months: list[date], of_nights: list, of_months: list, text: YearText | None) -> None:
        for answer in self._material.answers(year) if text else ():
            text.answer(answer)
        for month in months:
            if self._stopped():
                raise Stopped
            page = self._material.page(month)
            for one in (*of_months, *([text] if text else ())):
                one.month(page)
            for night in self._material.nights(month):
                self._count(night)
                for one in (*of_nights, *([text] if text else ())):
                    one.night(night)

    def _count(self, night: GivenNight) -> None:
        self.nights += 1
        self.lines += len(night.lines)
        self.first, self.last = self.first or night.date, night.date

    # tables that are not of nights

    def _tables(self) -> None:
        copy, limits = self._limits.copy, self._limits
        with self._bag.text("tables/places.csv") as out:
            tables.places(out, self._places())
        with self._bag.text("tables/people.csv") as out:
            tables.people(out, ((one, limits.about.get(one.id, "")) for one in limits.people))
        with self._bag.text("tables/days-to-remember.csv") as out:
            tables.days_to_remember(out, limits.days)
        with self._bag.text("tables/answers.csv") as out:
            tables.answers(out, (one for one in spans.answers(copy) if limits.year(one[0]) and limits.text(*one[1:])))
        with self._bag.text("tables/earlier-wordings.csv") as out:
            tables.wordings(out, (row[1:] for row in spans.wordings(copy) if self._wording(row)))
        self._photo_table()
        # Themes and what was decided about them are of all lines.
        if limits.wanted.all_nights:
            with self._bag.text("tables/themes.csv") as out:
                tables.themes(out, spans.themes(copy))
            with self._bag.text("tables/theme-decisions.csv") as out:
                tables.decisions(out, spans.decisions(copy))

    def _wording(self, row: tuple) -> bool:
        return Sieve(self._limits).keeps_wording(row[0], row[1], row[3])

    def _places(self):
        spent = spans.at_places(self._limits.copy, self._limits.night)
        for place in self._limits.places.values():
            yield (place, self._limits.said.get(place.id, PlacePage()), *spent.get(place.id, (0, None, None)))

    def _photo_table(self) -> None:
        with self._bag.text("tables/photos.csv") as out:
            cells = tables.PhotoCells(out)
            for photo in self._limits.photos.values():
                its = self._pictures.given.get(photo.id)
                for night in self._limits.nights_of_photos.get(photo.id) or (None,):
                    cells.photo(photo, f"data/{its.path}" if its else "", night, its.sha256 if its else photo.sha256)

    # JSON

    def _json(self, there: bool) -> None:
        """Write the rows, unless they are there, and what they are."""
        if not there:
            self._write_rows()
        with self._bag.text(SCHEMA_FILE) as out:
            out.write(resource("archive/keeper.schema.json").read_text("utf-8"))

    def _write_rows(self) -> None:
        sieve = Sieve(self._limits, self._notebook.given)
        its = [table for table in shape.tables(self._limits.copy) if sieve.gives(table.name)]
        with self._bag.text(JSON) as out:
            rows = RowsOut(out, SCHEMA, self._limits.wanted.whole)
            for place, table in enumerate(its):
                self._progress(0.6 + 0.4 * place / len(its), "Tables")
                rows.table(table.name, table.names, self._rows(table, sieve))
            rows.end()

    def _rows(self, table: shape.TableShape, sieve: Sieve) -> Iterator[tuple]:
        for some in given.rows(self._limits.copy, table):
            if self._stopped():
                raise Stopped
            yield from some if self._limits.wanted.whole else self._sifted(table, some, sieve)

    def _sifted(self, table: shape.TableShape, rows: list[tuple], sieve: Sieve) -> Iterator[tuple]:
        for row in rows:
            if (told := sieve.row(table.name, dict(zip(table.names, row, strict=True)))) is not None:
                yield tuple(self._as_given(table.name, told).values())

    def _as_given(self, table: str, row: dict[str, object]) -> dict[str, object]:
        photo = table == "photo"
        its = self._pictures.given.get(row["id"]) if photo else self._notebook.given.get(row.get("sha256"))
        if its is None:
            return row
        turned = {"orientation": its.orientation} if photo else {}
        return {**row, "sha256": its.sha256, "ending": its.ending, "bytes": its.bytes, **turned}
