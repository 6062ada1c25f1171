"""Of which nights, months and years anything is kept; themes, decisions and wordings for tables that people read."""

from collections.abc import Callable, Iterator
from datetime import date, datetime
from itertools import groupby
from operator import itemgetter

from keeper.errors import NotAKeeper
from keeper.store import nights, trackers
from keeper.store.file.opening import Store
from keeper.store.finding.in_themes import OF_THEMES
from keeper.store.moments import day, utc_instant, words
from keeper.store.rows.given import fetched


def nights_kept(store: Store, first: date, last: date) -> dict[date, str | None]:
    """The nights of a span of which anything is kept, oldest first, and the ids of the places where they were spent."""
    rows = store.rows("SELECT date, place_id FROM night WHERE date BETWEEN ? AND ? ORDER BY date", (first.isoformat(), last.isoformat()))
    return dict(store.made(lambda row: (day(row[0]), row[1]), rows))


def months_kept(store: Store) -> tuple[date, ...]:
    """The first days of months of which anything is kept, and of the Januaries of years that were answered, in order."""
    rows = store.rows(
        "SELECT DISTINCT substr(date, 1, 7) AS month FROM night UNION SELECT month FROM month_page "
        "UNION SELECT printf('%04d-01', year) FROM year_answer ORDER BY 1"
    )
    return store.made(lambda row: day(f"{row[0]}-01"), rows)


def at_places(store: Store, which: Callable[[date], bool]) -> dict[str, tuple[int, date, date]]:
    """How many of the nights that ``which`` says were spent at each place, by its id, the first and the last."""
    found: dict[str, tuple[int, date, date]] = {}
    for night, place_id in nights.spent(store):
        if which(night):
            many, first, _ = found.get(place_id, (0, night, night))
            found[place_id] = many + 1, first, night
    return found


def noted(store: Store, first: date, last: date, once: dict[tuple, object]) -> dict[date, list]:
    """The readings of a span by their nights, each as ``once`` has it by all of its row of ``trackers.READING`` but the night.

    What ``once`` does not have it is asked for (``__missing__``): of half a million readings most are like others.
    """
    # Tracker by tracker, as they lie in the file, and put in order then: by their nights each would be looked up by itself.
    rows = store.rows(
        f"{trackers.READING} WHERE reading.tracker_id IN (SELECT id FROM tracker) AND night BETWEEN ? AND ? "
        "ORDER BY night, reading.tracker_id",
        (first.isoformat(), last.isoformat()),
    )
    return {day(night): _of_a_night(store, list(its), once) for night, its in groupby(rows, itemgetter(0))}


def _of_a_night(store: Store, rows: list[tuple], once: dict[tuple, object]) -> list:
    try:
        return [once[row[1:]] for row in rows]
    except NotAKeeper:
        # Damaged ones are left out, and noted.
        return list(store.made(lambda row: once[row[1:]], rows))


Theme = tuple[int, str, bool, bool, int, str, str]
"""Number, name, whether the person named it and pinned it, how many lines it has, its words, its id."""


def themes(store: Store) -> tuple[Theme, ...]:
    """The themes that are shown, by number."""
    rows = store.rows(
        f"SELECT theme.number, name, named, pinned, (SELECT count(*) FROM {OF_THEMES} WHERE theme = theme.number), "
        "(SELECT group_concat(json_extract(value, '$[0]'), ', ') FROM json_each(terms)), id "
        "FROM theme WHERE retired_at IS NULL ORDER BY number"
    )
    return tuple((row[0], words(row[1]), bool(row[2]), bool(row[3]), row[4], row[5] or "", row[6]) for row in rows)


def decisions(store: Store) -> Iterator[tuple[datetime, str, str, datetime | None]]:
    """What was decided about themes, in order: when, what, its details as JSON, and when that was undone."""
    for at, what, detail, undone in store.rows("SELECT decided_at, what, detail, undone_at FROM theme_decision ORDER BY position"):
        yield utc_instant(at), words(what), words(detail), utc_instant(undone) if undone else None


def wordings(store: Store) -> Iterator[tuple[str, str, str, str, str, str]]:
    """Earlier wordings in order: the line's id, night, kind, text, when it was written and when replaced."""
    yield from fetched(
        store,
        "SELECT line_id, night, coalesce((SELECT nullif(name, '') FROM kind WHERE kind.key = wording.kind), kind), text, "
        "written_at, replaced_at FROM wording ORDER BY night, kind, replaced_at, rowid",
    )


def answers(store: Store) -> Iterator[tuple[int, str, str]]:
    """Closing questions of years, in order, and the answers."""
    yield from store.rows("SELECT year, question, answer FROM year_answer ORDER BY year, position")
