"""Year pages: the sitting with a year, what came of it, and what it is made of."""

import json
from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, date, datetime

from keeper.model import Line, Photo, YearAnswer, YearChoice, YearPage
from keeper.store import lines
from keeper.store.file.opening import Store
from keeper.store.finding.in_themes import OF_THEMES
from keeper.store.moments import day, line_numbers, utc_text, words
from keeper.store.photos import known as photos
from keeper.store.resting import LINE_AWAKE, NIGHT_AWAKE

CLOSING = 13
"""The step after the twelve months."""


def one(store: Store, year: int) -> YearPage:
    """What was decided of a year; an empty page when nothing was."""
    row = store.row("SELECT state, at, questions FROM year_page WHERE year = ?", (year,))
    if row is None:
        return YearPage(year)
    settled = store.rows("SELECT month FROM year_month WHERE year = ?", (year,))
    choices = store.rows(
        "SELECT month, what, ref, decision FROM year_choice WHERE year = ? ORDER BY month, what, position, ref", (year,)
    )
    answers = store.rows("SELECT question, answer FROM year_answer WHERE year = ? ORDER BY position", (year,))
    return YearPage(
        year, *row[:2], frozenset(row[0] for row in settled),
        tuple(YearChoice(*row) for row in choices), tuple(YearAnswer(*row) for row in answers),
        None if row[2] is None else tuple(json.loads(row[2])),
    )  # fmt: skip


def begin(store: Store, year: int) -> None:
    """Sit down with a year; one begun already, or closed, stays as it is."""
    with store.writing() as connection:
        connection.execute(
            "INSERT OR IGNORE INTO year_page (year, state, at, begun_at) VALUES (?, 'begun', 1, ?)", (year, _now())
        )


def reach(store: Store, year: int, at: int) -> None:
    """Remember where the sitting is: a month, or CLOSING."""
    with store.writing() as connection:
        begin(store, year)
        connection.execute("UPDATE year_page SET at = ? WHERE year = ?", (at, year))


def settle(store: Store, year: int, month: int) -> None:
    """Say that a month was gone through."""
    with store.writing() as connection:
        begin(store, year)
        connection.execute("INSERT OR IGNORE INTO year_month (year, month) VALUES (?, ?)", (year, month))


def close(store: Store, year: int) -> None:
    """Say that the sitting is done; it may be opened again and changed."""
    with store.writing() as connection:
        begin(store, year)
        connection.execute("UPDATE year_page SET state = 'closed', closed_at = ? WHERE year = ?", (_now(), year))


def choose(store: Store, year: int, month: int, what: str, choices: Iterable[YearChoice]) -> None:
    """Keep what is chosen of a month (0: of the year), in this order, in place of what was.

    ``what`` says whether it is the photo or the lines that are chosen; choices
    of anything else are passed over. No choices at all: as it is proposed.
    """
    now = _now()
    rows = [(year, month, what, one.ref, place, one.decision, now)
            for place, one in enumerate(choices) if one.what == what]  # fmt: skip
    with store.writing() as connection:
        begin(store, year)
        connection.execute(
            "DELETE FROM year_choice WHERE year = ? AND month = ? AND what = ? "
            "AND ref NOT IN (SELECT value FROM json_each(?))",
            (year, month, what, json.dumps([row[3] for row in rows])),
        )
        connection.executemany(
            "INSERT INTO year_choice (year, month, what, ref, position, decision, decided_at) VALUES (?, ?, ?, ?, ?, ?, ?) "
            "ON CONFLICT DO UPDATE SET position = excluded.position, decision = excluded.decision, "
            "decided_at = excluded.decided_at WHERE (position, decision) IS NOT (excluded.position, excluded.decision)",
            rows,
        )


def answer(store: Store, year: int, question: str, words: str) -> None:
    """Keep the answer to a closing question; "" takes it out."""
    with store.writing() as connection:
        begin(store, year)
        if not words:
            connection.execute("DELETE FROM year_answer WHERE year = ? AND question = ?", (year, question))
            return
        connection.execute(
            "INSERT INTO year_answer (year, question, answer, position, answered_at) "
            "SELECT :year, :question, :answer, coalesce(max(position) + 1, 0), :now FROM year_answer WHERE year = :year "
            "ON CONFLICT DO UPDATE SET answer = excluded.answer, answered_at = excluded.answered_at "
            "WHERE answer <> excluded.answer",
            {"year": year, "question": question, "answer": words, "now": _now()},
        )


def ask(store: Store, year: int, questions: Iterable[str] | None) -> None:
    """Let these be the closing questions of a year, in this order; None: those of the program. Answers stay."""
    told = None if questions is None else json.dumps(list(questions), ensure_ascii=False)
    with store.writing() as connection:
        begin(store, year)
        connection.execute("UPDATE year_page SET questions = ? WHERE year = ?", (told, year))


def reword(store: Store, year: int, old: str, new: str) -> None:
    """Let the answer to a closing question answer another wording of it."""
    with store.writing() as connection:
        connection.execute(
            "UPDATE year_answer SET question = ? WHERE year = ? AND question = ?", (new, year, old)
        )


def lines_between(store: Store, first: date, last: date) -> tuple[Line, ...]:
    """The lines of a span of nights, oldest first.

    Those that rest with their night or its place are marked as resting too.
    """
    rows = store.rows(
        f"SELECT {lines.COLUMNS}, {LINE_AWAKE} FROM line JOIN night ON night.date = line.night "
        f"WHERE number BETWEEN ? AND ? ORDER BY {lines.IN_ORDER}",
        line_numbers(first, last),
    )
    told = (lines.lines_from(store, [row]) for row in rows)
    return tuple(_resting(line, not row[-1]) for found, row in zip(told, rows, strict=True) for line in found)


def _resting(line: Line, resting: bool) -> Line:
    return line if line.resting == resting else replace(line, resting=resting)


def photos_between(store: Store, first: date, last: date) -> tuple[tuple[date, Photo], ...]:
    """The photos awake of the nights awake of a span, each with its night, oldest first.

    The photo chosen for a night comes before its others.
    """
    rows = store.rows(
        f"SELECT night.date, {photos.COLUMNS} FROM night JOIN night_photo ON night_photo.night = night.date "
        f"JOIN photo ON photo.id = night_photo.photo_id WHERE night.date BETWEEN ? AND ? AND {NIGHT_AWAKE} "
        "ORDER BY night.date, photo.id IS NOT night.photo_id, night_photo.position",
        (first.isoformat(), last.isoformat()),
    )
    found = store.made(lambda row: (day(row[0]), photos.photo_from(row[1:])), rows)
    return tuple((night, photo) for night, photo in found if not photo.resting)


def photo_awake(store: Store, photo_id: str) -> Photo | None:
    """The photo with this id, unless it rests or all its nights do."""
    row = store.row(
        f"SELECT {photos.COLUMNS} FROM photo WHERE id = :id AND (NOT EXISTS "
        "(SELECT 1 FROM night_photo WHERE photo_id = :id) OR EXISTS (SELECT 1 FROM night_photo JOIN night "
        f"ON night.date = night_photo.night WHERE night_photo.photo_id = :id AND {NIGHT_AWAKE}))",
        {"id": photo_id},
    )
    photo = next(iter(store.made(photos.photo_from, [row] if row else [])), None)
    return None if photo is None or photo.resting else photo


def photo_count(store: Store, first: date, last: date) -> int:
    """How many photos the nights of a span have, resting ones too."""
    return store.row(
        "SELECT count(DISTINCT photo_id) FROM night_photo WHERE night BETWEEN ? AND ?",
        (first.isoformat(), last.isoformat()),
    )[0]


def nights_awake(store: Store, first: date, last: date) -> tuple[tuple[date, str | None], ...]:
    """The kept nights of a span that do not rest, each with the id of its place, oldest first."""
    rows = store.rows(
        f"SELECT date, place_id FROM night WHERE date BETWEEN ? AND ? AND {NIGHT_AWAKE} ORDER BY date",
        (first.isoformat(), last.isoformat()),
    )
    return store.made(lambda row: (day(row[0]), row[1]), rows)


def last_stay_before(store: Store, night: date) -> tuple[tuple[date, str], ...]:
    """The last night awake before a night at a known place that is not on the way, and those on the way since.

    Each with its place's id, oldest first; none where there is no such place.
    """
    before = f"date < ? AND place_id IS NOT NULL AND {NIGHT_AWAKE}"
    rows = store.rows(
        f"SELECT date, place_id FROM night WHERE {before} AND date >= (SELECT date FROM night WHERE {before} "
        "AND NOT (SELECT on_the_way FROM place WHERE id = place_id) ORDER BY date DESC LIMIT 1) ORDER BY date",
        (night.isoformat(), night.isoformat()),
    )
    return tuple((day(row[0]), row[1]) for row in rows)


def theme_lines(store: Store, first: date, last: date) -> tuple[tuple[str, int, str], ...]:
    """Which themes each line of a span belongs to, its first before its second: its id, the theme's number and name."""
    rows = store.rows(
        f"SELECT line.id, theme.number, theme.name FROM line JOIN {OF_THEMES} AS its ON its.line_id = line.id "
        "JOIN theme ON theme.number = its.theme "
        "WHERE line.number BETWEEN ? AND ? AND theme.retired_at IS NULL ORDER BY line.number, its.second",
        line_numbers(first, last),
    )
    return store.made(lambda row: (row[0], row[1], words(row[2])), rows)


def _now() -> str:
    return utc_text(datetime.now(UTC))
