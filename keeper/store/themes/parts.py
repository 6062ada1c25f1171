"""What lies within wide themes: found anew by each look, but for the numbers, which no other theme or part ever has."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from keeper.model import Found
from keeper.store import lines as kept_lines
from keeper.store.file.opening import Store
from keeper.store.ids import new_id
from keeper.store.moments import words
from keeper.store.search import found_from

if TYPE_CHECKING:
    from sqlite3 import Connection

Kept = tuple[int, int, str, Sequence[str]]
"""A part's number, the theme it is within, its name, and the ids of its lines."""


def keep(connection: "Connection", parts: Sequence[Kept], at: str) -> None:
    """Put these parts in the place of those there were; ``at`` is the moment as it is written."""
    connection.executemany(
        "INSERT OR IGNORE INTO theme (number, id, begun_at, retired_at) VALUES (?, ?, ?, ?)",
        [(number, new_id(), at, at) for number, *_ in parts],
    )
    connection.execute("UPDATE theme_part SET retired = 1")
    connection.executemany(
        "INSERT INTO theme_part (number, theme, name) VALUES (?, ?, ?) "
        "ON CONFLICT (number) DO UPDATE SET theme = excluded.theme, name = excluded.name, retired = 0",
        [(number, theme, name) for number, theme, name, _ in parts],
    )
    connection.execute("DELETE FROM theme_part_line")
    connection.executemany(
        "INSERT INTO theme_part_line (line_id, part) SELECT id, ? FROM line WHERE id = ?",
        [(number, line) for number, _, _, lines in parts for line in lines],
    )


def before(store: Store) -> dict[int, tuple[int, frozenset[str]]]:
    """Theme and line ids of each part as it was last found, by number; also of those not found the last time."""
    lines: dict[int, set[str]] = {}
    for line, part in store.rows("SELECT line_id, part FROM theme_part_line"):
        lines.setdefault(part, set()).add(line)
    rows = store.rows("SELECT number, theme FROM theme_part")
    return {number: (theme, frozenset(lines[number])) for number, theme in rows if number in lines}


def every(store: Store) -> tuple[tuple[int, int, str, int], ...]:
    """Number, theme, name and number of lines of each part, those of most lines first."""
    return store.made(lambda row: (row[0], row[1], words(row[2]), row[3]), store.rows(
        "SELECT part.number, part.theme, part.name, count(line_id) AS lines FROM theme_part AS part "
        "JOIN theme ON theme.number = part.theme JOIN theme_part_line ON theme_part_line.part = part.number "
        "JOIN theme_line USING (line_id) WHERE part.retired = 0 AND theme.retired_at IS NULL AND theme_line.theme = part.theme "
        "GROUP BY part.number ORDER BY lines DESC, part.number",
    ))  # fmt: skip


def line_ids(store: Store, number: int) -> frozenset[str]:
    """The ids of the lines of a part."""
    return frozenset(row[0] for row in store.rows("SELECT line_id FROM theme_part_line WHERE part = ?", (number,)))


def part_of(store: Store, line_ids: Sequence[str]) -> dict[str, int]:
    """The part of each of these lines that is in one."""
    marks = ", ".join("?" * len(line_ids))
    rows = store.rows(f"SELECT line_id, part FROM theme_part_line WHERE line_id IN ({marks})", tuple(line_ids))
    return dict(rows)


def lines_of(store: Store, number: int, limit: int, skip: int, central_first: bool) -> tuple[Found, ...]:
    """The lines of a part that are still in its theme, newest or most central there first."""
    order = "closeness DESC, line.number DESC" if central_first else "line.number DESC"
    rows = store.rows(
        f"SELECT {kept_lines.COLUMNS}, coalesce(place.name, '') FROM theme_part_line "
        "JOIN theme_part ON theme_part.number = part JOIN theme_line ON theme_line.line_id = theme_part_line.line_id "
        "AND theme_line.theme = theme_part.theme JOIN line ON line.id = theme_part_line.line_id "
        "JOIN night ON night.date = line.night LEFT JOIN place ON place.id = night.place_id "
        f"WHERE part = ? ORDER BY {order} LIMIT ? OFFSET ?",
        (number, limit, skip),
    )
    return found_from(store, rows)
