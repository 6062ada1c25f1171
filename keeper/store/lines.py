"""Lines, their drafts and their earlier wordings."""

from collections.abc import Iterable
from datetime import UTC, date, datetime, time
from sqlite3 import Connection
from typing import TYPE_CHECKING, NamedTuple

from keeper.errors import NotAKeeper, UnknownThing
from keeper.model import Draft, Line, Moment
from keeper.store import kinds
from keeper.store.file.opening import Store
from keeper.store.file.sums import line_sum
from keeper.store.folding import folded_or_none
from keeper.store.ids import new_id
from keeper.store.moments import day, kind, line_number, line_numbers, moment, utc_instant, utc_text, words

if TYPE_CHECKING:
    from keeper.model import Wording
    from keeper.model.later import LaterWord

COLUMNS = (
    "line.id, line.night, line.kind, line.text, line.written_at, line.offset_minutes, line.zone, "
    "EXISTS (SELECT 1 FROM resting WHERE what = 'line' AND ref = line.id), "
    "coalesce((SELECT name FROM kind WHERE kind.key = line.kind), ''), "
    # Of hardly any line there are later words: the rest is not asked.
    "CASE WHEN EXISTS (SELECT 1 FROM later_word WHERE line_id = line.id) THEN (SELECT json_group_array(json_array("
    "said_on, later.text, later.written_at, later.offset_minutes, later.zone, value, "
    "(SELECT name FROM tracker WHERE tracker.id = tracker_id), (SELECT reading.value FROM reading "
    "WHERE reading.tracker_id = later.tracker_id AND reading.night = line.night), tracker_id)) "
    "FROM later_word AS later WHERE line_id = line.id) END"
)

IN_ORDER = "line.night, (SELECT position FROM kind WHERE kind.key = line.kind), line.number"
"""For rows of line: oldest first, those of a night in the person's order of the kinds."""


def line_from(row: tuple) -> Line:
    """A line from the values of COLUMNS. Raises NotAKeeper for a damaged one."""
    later = _later(row[9]) if row[9] else ()
    return Line(words(row[0]), day(row[1]), kind(row[2]), words(row[3]), moment(*row[4:7]), bool(row[7]), words(row[8]), later)


def _later(told: str) -> "tuple[LaterWord, ...]":
    # Only now: of what is seen before one can type there are hardly ever any.
    from keeper.store.later.words import from_told

    return from_told(told)


def lines_from(store: Store, rows: Iterable[tuple]) -> tuple[Line, ...]:
    """The lines from such rows. Of one that is damaged the words are shown if they can be, and it is noted."""
    return store.made(lambda row: _as_far_as_whole(store, row), rows)


def _as_far_as_whole(store: Store, row: tuple) -> Line:
    try:
        return line_from(row)
    except NotAKeeper as damage:
        night = day(row[1])
        # The night itself, where it is no longer known when its words were written.
        written = Moment(datetime.combine(night, time(12), UTC), 0, "")
        line = Line(words(row[0]), night, kind(row[2]), words(row[3]), written, bool(row[7]), words(row[8]))
        store.note_damage(f"{damage} The words of {night.isoformat()} are whole.")
        return line


def of_night(store: Store, night: date) -> tuple[Line, ...]:
    """The night's lines, in the order of the kinds."""
    return of_nights(store, [night])


def of_nights(store: Store, nights: Iterable[date]) -> tuple[Line, ...]:
    """The lines of several nights, oldest first."""
    wanted = [night.isoformat() for night in nights]
    marks = ", ".join("?" * len(wanted))
    rows = store.rows(f"SELECT {COLUMNS} FROM line WHERE night IN ({marks}) ORDER BY {IN_ORDER}", wanted)
    return lines_from(store, rows)


def one(store: Store, night: date, kind: str) -> Line | None:
    """The night's line of a kind."""
    first = line_number(night, 0)
    row = store.row(
        f"SELECT {COLUMNS} FROM line WHERE line.number = ? + (SELECT kind.number FROM kind WHERE key = ?)", (first, kind)
    )
    return next(iter(lines_from(store, [row] if row else [])), None)


def any_between(store: Store, first: date, last: date) -> bool:
    """Whether any night of a span, both ends included, has a line."""
    numbers = line_numbers(first, last)
    return store.row("SELECT 1 FROM line WHERE number BETWEEN ? AND ? LIMIT 1", numbers) is not None


def between(store: Store, first: date, last: date) -> tuple[Line, ...]:
    """The lines of a span of nights, both ends included, oldest first."""
    ends = line_numbers(first, last)
    rows = store.rows(f"SELECT {COLUMNS} FROM line WHERE number BETWEEN ? AND ? ORDER BY {IN_ORDER}", ends)
    return lines_from(store, rows)


def by_id(store: Store, line_id: str) -> Line | None:
    """The line with this id."""
    row = store.row(f"SELECT {COLUMNS} FROM line WHERE id = ?", (line_id,))
    return next(iter(lines_from(store, [row] if row else [])), None)


def still_kept(store: Store, line_id: str) -> Line:
    """The line with this id. Raises UnknownThing when it is gone."""
    found = by_id(store, line_id)
    if found is None:
        raise UnknownThing("That line is no longer in the keeper.")
    return found


def keep(store: Store, night: date, kind: str, text: str, written: Moment, known: str = "") -> Line | None:
    """Make this the night's line of its kind, and return it as it is then; an earlier wording is kept aside.

    The same text again changes nothing; an empty text takes the line out. The
    draft of it goes in the same transaction: ``known`` is the one of which the
    writer knows, any other becomes an earlier wording.
    """
    with store.writing() as connection:
        there = _there(store, night, kind)
        if there.draft is not None:
            _set_aside(connection, there, known, text, written)
            connection.execute("DELETE FROM draft WHERE night = ? AND kind = ?", (there.night, kind))
        if not text.strip():
            connection.execute("DELETE FROM line WHERE number = ?", (there.number,))
            return None
        begun_at = utc_text(written.utc)
        if not there.begun:
            connection.execute("INSERT INTO night (date, begun_at) VALUES (?, ?)", (there.night, begun_at))
        # A line written anew after it was taken out is the same line: it keeps
        # its rest and its place in themes.
        line_id = there.line_id or new_id()
        _put(connection, there.number, (line_id, there.night, kind, text, begun_at, written.offset_minutes, written.zone))
        # One that is quite new need not be read.
        return one(store, night, kind) if there.line_id else Line(line_id, night, kind, text, written, kind_name=there.name)


def call(store: Store, line: Line) -> None:
    """Let the night's line of a kind go by the id of this one, which it is again."""
    with store.writing() as connection:
        where = "WHERE night = ? AND kind = ?"
        night = line.night.isoformat()
        row = store.row(f"SELECT text, written_at, offset_minutes, zone FROM line {where}", (night, line.kind))
        connection.execute(
            f"UPDATE line SET id = ?, sum = ? {where}",
            (line.id, line_sum(line.id, night, line.kind, *row), night, line.kind),
        )


class _There(NamedTuple):
    """What a line comes to: the night as it is spelt, its kind and number, and what was kept of them before.

    ``begun`` is whether anything is kept of the night. ``line_id`` is the line's that is there or was taken
    out, but not moved elsewhere. ``draft`` and ``typed_at`` are None where no words were put aside.
    """

    night: str
    kind: str
    name: str
    number: int
    begun: bool
    line_id: str | None
    draft: str | None
    typed_at: str | None


def _there(store: Store, night: date, kind: str) -> _There:
    """What a line comes to, in one question, since every line kept waits for it. Raises UnknownThing for a kind that is none."""
    spelt = night.isoformat()
    row = store.row(_WHAT_IS_THERE, {"night": spelt, "kind": kind, "first": line_number(night, 0)})
    if row is None:
        raise kinds.unknown()
    return _There(spelt, kind, *row)


_WHAT_IS_THERE = """
    SELECT kind.name, :first + kind.number, EXISTS (SELECT 1 FROM night WHERE date = :night),
    coalesce((SELECT id FROM line WHERE line.number = :first + kind.number), (SELECT line_id FROM wording
    WHERE night = :night AND wording.kind = :kind AND NOT EXISTS (SELECT 1 FROM line WHERE line.id = line_id) LIMIT 1)),
    draft.text, draft.typed_at
    FROM kind LEFT JOIN draft ON draft.night = :night AND draft.kind = kind.key WHERE kind.key = :kind"""


def _put(connection: Connection, number: int, row: tuple) -> None:
    """Let a line be there: its id, night, kind, text, and the moment it was written in three columns."""
    connection.execute(
        "INSERT INTO line (number, folded, id, night, kind, text, written_at, offset_minutes, zone, sum) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (number) DO UPDATE SET "
        "text = excluded.text, folded = excluded.folded, written_at = excluded.written_at, "
        "offset_minutes = excluded.offset_minutes, zone = excluded.zone, sum = excluded.sum "
        "WHERE text <> excluded.text",
        (number, folded_or_none(row[3]), *row, line_sum(*row)),
    )


def _set_aside(connection: Connection, there: _There, known: str, coming: str, now: Moment) -> None:
    """Make a draft of others, not ``known`` and no beginning of what is ``coming``, an earlier wording."""
    if there.draft == known or coming.strip().startswith(there.draft.strip()):
        return
    row = (there.line_id or new_id(), there.night, there.kind, there.draft.strip(), there.typed_at, now.offset_minutes, now.zone)
    connection.execute(
        "INSERT INTO wording (line_id, night, kind, text, written_at, offset_minutes, zone, sum) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        (*row, line_sum(*row)),
    )


def keep_draft(store: Store, draft: Draft, now: Moment, known: str = "") -> None:
    """Put words aside as they are being typed.

    A draft that is there, is not the one ``known`` and does not go on in this
    one, becomes an earlier wording: another window's, or one never shown.
    Raises UnknownThing for a kind that is none.
    """
    with store.writing() as connection:
        # Before SQLite refuses a kind that is none: that would be no sentence.
        there = _there(store, draft.night, draft.kind)
        if there.draft is not None:
            _set_aside(connection, there, known, draft.text, now)
        connection.execute(
            "INSERT INTO draft (night, kind, text, typed_at) VALUES (?, ?, ?, ?) ON CONFLICT DO UPDATE SET "
            "text = excluded.text, typed_at = excluded.typed_at",
            (draft.night.isoformat(), draft.kind, draft.text, utc_text(draft.typed_at)),
        )


def drop_draft(store: Store, night: date, kind: str, known: str | None = None) -> None:
    """Forget the words put aside; if ``known`` is given, only when they are these."""
    with store.writing() as connection:
        connection.execute(
            "DELETE FROM draft WHERE night = :night AND kind = :kind AND (:known IS NULL OR text = :known)",
            {"night": night.isoformat(), "kind": kind, "known": known},
        )


def drafts(store: Store, night: date | None = None) -> tuple[Draft, ...]:
    """Words put aside that never became lines: of one night, or all."""
    only, values = ("WHERE night = ?", (night.isoformat(),)) if night else ("", ())
    order = "night, (SELECT position FROM kind WHERE kind.key = draft.kind), kind"
    rows = store.rows(f"SELECT night, kind, text, typed_at FROM draft {only} ORDER BY {order}", values)
    return store.made(lambda r: Draft(day(r[0]), kind(r[1]), words(r[2]), utc_instant(r[3])), rows)


def wordings(store: Store, night: date, kind: str) -> "tuple[Wording, ...]":
    """The earlier wordings of a night's line, the latest replaced first."""
    rows = store.rows(
        f"{_WORDINGS} WHERE night = ? AND kind = ? ORDER BY replaced_at DESC, rowid DESC",
        (night.isoformat(), kind),
    )
    return store.made(_wording, rows)


_WORDINGS = """
    SELECT id, night, kind, text, written_at, offset_minutes, zone, replaced_at,
    coalesce((SELECT name FROM kind WHERE kind.key = wording.kind), ''),
    EXISTS (SELECT 1 FROM from_paper WHERE from_paper.line_id = wording.line_id AND from_paper.written_at = wording.written_at)
    FROM wording"""


def _wording(row: tuple) -> "Wording":
    from keeper.model import Wording

    return Wording(row[0], day(row[1]), row[2], words(row[3]), moment(*row[4:7]), utc_instant(row[7]), words(row[8]), bool(row[9]))


def all_wordings(store: Store, limit: int, skip: int = 0, sought: str = "") -> "tuple[Wording, ...]":
    """The earlier wordings of all lines, the latest replaced first; those with all words sought."""
    wanted = sought.lower().split()
    asked = " AND ".join(f"instr(lower(text), :w{place})" for place in range(len(wanted))) or "true"
    rows = store.rows(
        f"{_WORDINGS} WHERE {asked} ORDER BY replaced_at DESC, rowid DESC LIMIT :limit OFFSET :skip",
        {"limit": limit, "skip": skip, **{f"w{place}": word for place, word in enumerate(wanted)}},
    )
    return store.made(_wording, rows)


def move(store: Store, line: Line, night: date, kind: str, now: Moment) -> None:
    """Let a line stand elsewhere, where there is none; what it said is an earlier wording where it was."""
    written, number = line.written, line_number(night, kinds.number(store, kind))
    with store.writing() as connection:
        connection.execute(
            "INSERT OR IGNORE INTO night (date, begun_at) VALUES (?, ?)", (night.isoformat(), utc_text(now.utc))
        )
        connection.execute("DELETE FROM line WHERE id = ?", (line.id,))
        moment_ = utc_text(written.utc), written.offset_minutes, written.zone
        _put(connection, number, (line.id, night.isoformat(), kind, line.text, *moment_))


def reworded(store: Store, night: date) -> frozenset[str]:
    """The kinds of which a night has earlier wordings."""
    rows = store.rows("SELECT DISTINCT kind FROM wording WHERE night = ?", (night.isoformat(),))
    return frozenset(row[0] for row in rows)


def from_paper(store: Store, night: date) -> frozenset[str]:
    """The kinds of a night's lines that, as they are worded now, were typed up from paper."""
    rows = store.rows(
        "SELECT kind FROM line JOIN from_paper ON line_id = id AND from_paper.written_at = line.written_at WHERE night = ?",
        (night.isoformat(),),
    )
    return frozenset(row[0] for row in rows)


def count(store: Store) -> int:
    """How many lines the keeper holds."""
    return store.row("SELECT count(*) FROM line")[0]


def span(store: Store) -> tuple[date, date] | None:
    """The first and the last night with a line, or None."""
    ends = [_first_whole(store, order) for order in ("", "DESC")]
    return tuple(ends) if None not in ends else None


def _first_whole(store: Store, order: str) -> date | None:
    row = store.row(f"SELECT night FROM line ORDER BY number {order} LIMIT 1")
    try:
        return day(row[0]) if row else None
    except NotAKeeper:
        rows = store.rows(f"SELECT night FROM line ORDER BY number {order}")
        return next(iter(store.made(lambda row: day(row[0]), rows)), None)


