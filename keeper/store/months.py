"""Months: the small questions that a month's page asks.

None of them reads the lines of other months; what is known of all years comes
from the index of words and other kept tables.
"""

from collections.abc import Iterable
from datetime import date

from keeper.model import KINDS, Line
from keeper.store import lines
from keeper.store.file.opening import Store
from keeper.store.folding import phrase
from keeper.store.moments import day, line_number, number, words


def has_lines(store: Store, first: date, last: date) -> bool:
    """Whether any night of a span, both ends included, has a line."""
    return store.row("SELECT 1 FROM line WHERE number BETWEEN ? AND ? LIMIT 1", _numbers(first, last)) is not None


def photo_nights(store: Store, first: date, last: date) -> tuple[tuple[str, date], ...]:
    """The photos of a span of nights, by id, each with its night, oldest first."""
    rows = store.rows(
        "SELECT photo_id, night FROM night_photo WHERE night BETWEEN ? AND ? ORDER BY night, position",
        (first.isoformat(), last.isoformat()),
    )
    return store.made(lambda row: (row[0], day(row[1])), rows)


def theme_lines(store: Store, first: date, last: date) -> tuple[tuple[str, int, str, float], ...]:
    """The lines of a span that belong to a theme: line id, theme, its name, closeness."""
    return store.made(_theme_line, store.rows(
        "SELECT line.id, theme.number, theme.name, theme_line.closeness FROM line "
        "JOIN theme_line ON theme_line.line_id = line.id JOIN theme ON theme.number = theme_line.theme "
        "WHERE line.number BETWEEN ? AND ? AND theme.retired_at IS NULL AND theme.name <> '' ORDER BY line.number",
        _numbers(first, last),
    ))  # fmt: skip


def _theme_line(row: tuple) -> tuple[str, int, str, float]:
    return row[0], row[1], words(row[2]), number(row[3], -1e9, 1e9) or 0.0


def lines_of_theme(store: Store, number: int) -> tuple[Line, ...]:
    """All lines of a theme, oldest first."""
    rows = store.rows(
        f"SELECT {lines.COLUMNS} FROM line JOIN theme_line ON theme_line.line_id = line.id "
        "WHERE theme_line.theme = ? ORDER BY line.number",
        (number,),
    )
    return lines.lines_from(store, rows)


def lines_of_place(store: Store, place_id: str) -> tuple[Line, ...]:
    """All lines of a place's nights, oldest first."""
    rows = store.rows(
        f"SELECT {lines.COLUMNS} FROM line JOIN night ON night.date = line.night "
        "WHERE night.place_id = ? ORDER BY line.number",
        (place_id,),
    )
    return lines.lines_from(store, rows)


def theme_totals(store: Store) -> dict[int, int]:
    """How many lines each theme has, in all years."""
    return dict(store.rows("SELECT theme, count(*) FROM theme_line WHERE theme IS NOT NULL GROUP BY theme"))


def themes_before(store: Store, numbers: Iterable[int], night: date) -> frozenset[int]:
    """Those of the themes that have a line before a night."""
    values = [(number, line_number(night, KINDS[0])) for number in numbers]
    return frozenset(number for number, limit in values if store.row(
        "SELECT 1 FROM theme_line JOIN line ON line.id = theme_line.line_id "
        "WHERE theme = ? AND line.number < ? LIMIT 1", (number, limit)))  # fmt: skip


def places_before(store: Store, place_ids: Iterable[str], night: date) -> frozenset[str]:
    """Those of the places that have a night before this one."""
    limit = night.isoformat()
    return frozenset(one for one in place_ids if store.row(
        "SELECT 1 FROM night WHERE place_id = ? AND date < ? LIMIT 1", (one, limit)))  # fmt: skip


def lines_with(store: Store, words: str) -> int:
    """How many lines have these words, one after another."""
    return store.row("SELECT count(*) FROM line_words WHERE line_words MATCH ?", (phrase(words),))[0]


def highest(store: Store, tracker_id: str) -> float:
    """The highest value ever noted, or 0."""
    return store.row("SELECT coalesce(max(value), 0) FROM reading WHERE tracker_id = ?", (tracker_id,))[0]


def questions(store: Store) -> tuple[tuple[date, str], ...]:
    """Every month's question that was asked, oldest first."""
    rows = store.rows("SELECT month || '-01', question FROM month_page WHERE question <> '' ORDER BY month")
    return store.made(lambda row: (day(row[0]), words(row[1])), rows)


def words_in_all(store: Store) -> int:
    """How many words all lines have, of whatever kind."""
    row = store.row("SELECT block FROM line_words_data WHERE id = 1")
    # The "averages" record of FTS5: rows, then words of each column, as varints
    # (fts5_index.c). Counting them from the index would read all of it.
    numbers = _varints(row[0]) if row and row[0] else []
    return numbers[1] if len(numbers) > 1 else 0


def words_beginning(store: Store, beginnings: Iterable[str]) -> dict[str, int]:
    """How often each word with one of these beginnings stands in all lines.

    Words are as the index spells them: lower case, without accents. The index
    keeps the counts, so this reads no line.
    """
    store.connection.execute(
        "CREATE VIRTUAL TABLE IF NOT EXISTS temp.word_total USING fts5vocab('main', 'line_words', 'row')"
    )
    found: dict[str, int] = {}
    for beginning in beginnings:
        # U+10FFFF comes after every word with the beginning.
        ends = (beginning, beginning + "\U0010ffff")
        found.update(store.rows("SELECT term, cnt FROM temp.word_total WHERE term >= ? AND term < ?", ends))
    return found


def _varints(block: bytes) -> list[int]:
    numbers, value = [], 0
    for byte in block:
        value = value << 7 | byte & 0x7F
        if byte < 0x80:
            numbers.append(value)
            value = 0
    return numbers


def _numbers(first: date, last: date) -> tuple[int, int]:
    return line_number(first, KINDS[0]), line_number(last, KINDS[-1])
