"""Keeping what was found of themes, all of it or nothing, while lines go on being written.

SQLite lets one write at a time. So all is laid out and compared beside the
file first, in temporary tables that only this connection sees; others wait
for the last step alone, which touches nothing but what differs.
"""

import json
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from keeper.store.file.opening import Store
from keeper.store.ids import new_id
from keeper.store.moments import utc_text
from keeper.store.themes import asked, parts
from keeper.store.themes.found import OUT_OF_THEMES, Outcome, keep_build

if TYPE_CHECKING:
    from sqlite3 import Connection

_TRIES = 5
"""So often it is compared without keeping others waiting, when they write meanwhile."""

_LAID_OUT = {
    "found": "line_id TEXT PRIMARY KEY, theme INTEGER, closeness REAL NOT NULL",
    "found_base": "line_id TEXT PRIMARY KEY, theme INTEGER",
    "found_second": "line_id TEXT PRIMARY KEY, theme INTEGER NOT NULL, closeness REAL NOT NULL, offered INTEGER NOT NULL",
    "found_in": "line_id TEXT PRIMARY KEY, text TEXT NOT NULL",
}

# A line that is gone stays in the base: it may come back.
_LEFT_FOR_LATER = (
    "DELETE FROM found WHERE line_id NOT IN (SELECT id FROM line JOIN found_in AS f ON f.line_id = id WHERE line.text = f.text)",
    "DELETE FROM found_base WHERE line_id IN "
    "(SELECT id FROM line LEFT JOIN found_in AS f ON f.line_id = id WHERE line.text IS NOT f.text)",
    # Of a kind that was put out of themes meanwhile.
    f"DELETE FROM found WHERE line_id IN (SELECT id FROM line WHERE kind IN {OUT_OF_THEMES})",
    f"DELETE FROM found_base WHERE line_id IN (SELECT id FROM line WHERE kind IN {OUT_OF_THEMES})",
)
_COMPARED = {
    "gone": "SELECT line_id FROM theme_line EXCEPT SELECT line_id FROM found",
    "nearer": "SELECT f.line_id, f.closeness FROM found AS f JOIN theme_line AS t USING (line_id) "
    "WHERE t.theme IS f.theme AND t.closeness <> f.closeness",
    "moved": "SELECT f.* FROM found AS f LEFT JOIN theme_line AS t USING (line_id) "
    "WHERE t.line_id IS NULL OR t.theme IS NOT f.theme ORDER BY line_id",
}
_COMPARED_SECOND = {
    "gone_second": "SELECT line_id FROM theme_second EXCEPT SELECT line_id FROM found_second",
    "moved_second": "SELECT f.* FROM found_second AS f JOIN found USING (line_id) LEFT JOIN theme_second AS t USING (line_id) "
    "WHERE t.line_id IS NULL OR t.theme <> f.theme OR t.offered <> f.offered OR t.closeness <> f.closeness "
    "OR line_id IN (SELECT line_id FROM moved) ORDER BY line_id",
}
_COMPARED_BASE = {
    "gone_base": "SELECT line_id FROM theme_base EXCEPT SELECT line_id FROM found_base",
    "moved_base": "SELECT f.* FROM found_base AS f LEFT JOIN theme_base AS t USING (line_id) "
    "WHERE t.line_id IS NULL OR t.theme IS NOT f.theme ORDER BY line_id",
}
_CHANGED = (
    "DELETE FROM theme_line WHERE line_id IN (SELECT line_id FROM gone)",
    "UPDATE theme_line SET closeness = n.closeness FROM nearer AS n WHERE n.line_id = theme_line.line_id",
    "INSERT INTO theme_line (line_id, theme, closeness) SELECT line_id, theme, closeness FROM moved WHERE true "
    "ON CONFLICT (line_id) DO UPDATE SET theme = excluded.theme, closeness = excluded.closeness",
)
_CHANGED_SECOND = (
    "DELETE FROM theme_second WHERE line_id IN (SELECT line_id FROM gone_second)",
    "INSERT INTO theme_second (line_id, theme, closeness, offered) SELECT line_id, theme, closeness, offered FROM moved_second "
    "WHERE line_id IN (SELECT line_id FROM theme_line) "
    "ON CONFLICT (line_id) DO UPDATE SET theme = excluded.theme, closeness = excluded.closeness, offered = excluded.offered",
)
_CHANGED_BASE = (
    "DELETE FROM theme_base WHERE line_id IN (SELECT line_id FROM gone_base)",
    "INSERT INTO theme_base (line_id, theme) SELECT line_id, theme FROM moved_base WHERE true "
    "ON CONFLICT (line_id) DO UPDATE SET theme = excluded.theme",
)


def keep(store: Store, outcome: Outcome, agreed: Callable[[], bool] = lambda: True) -> bool:
    """Put an outcome in the place of the last one, all of it or nothing.

    Lines that were written or reworded while it was made are left without a
    theme, for ``themes.unplaced`` to tell. ``agreed`` is asked when nobody else
    can write any more; where it says no, nothing is kept and False returned.
    """
    with _laid_out(store, outcome):
        for tries_left in reversed(range(_TRIES)):
            compared_at = _compare(store, outcome)
            with store.writing() as connection:
                if not agreed():
                    return False
                current = store.version() == compared_at
                if not current and not tries_left:
                    _compare(store, outcome)
                if current or not tries_left:
                    _change(connection, outcome)
                    keep_build(store, outcome.build, outcome.arrays)
                    return True
    return False


@contextmanager
def _laid_out(store: Store, outcome: Outcome) -> Iterator[None]:
    try:
        with store.beside() as connection:
            for name, columns in _LAID_OUT.items():
                connection.execute(f"CREATE TEMP TABLE {name} ({columns}) STRICT, WITHOUT ROWID")
            connection.executemany("INSERT INTO found VALUES (?, ?, ?)", outcome.members)
            connection.executemany("INSERT INTO found_second VALUES (?, ?, ?, ?)", outcome.seconds)
            connection.executemany("INSERT INTO found_base VALUES (?, ?)", (outcome.base or {}).items())
            connection.executemany("INSERT INTO found_in VALUES (?, ?)", outcome.read.items())
        yield
    finally:
        with store.beside() as connection:
            _drop(connection, (*_COMPARED, *_COMPARED_SECOND, *_COMPARED_BASE, *_LAID_OUT))


def _compare(store: Store, outcome: Outcome) -> int:
    """Tell apart what differs; returns the version of the file that was compared."""
    questions = _COMPARED | _COMPARED_SECOND | ({} if outcome.base is None else _COMPARED_BASE)
    with store.beside() as connection:
        version = store.version()
        _drop(connection, questions)
        for statement in _LEFT_FOR_LATER:
            connection.execute(statement)
        for name, question in questions.items():
            connection.execute(f"CREATE TEMP TABLE {name} AS {question}")
    return version


def _drop(connection: "Connection", names: Iterable[str]) -> None:
    for name in names:
        connection.execute(f"DROP TABLE IF EXISTS temp.{name}")


def _change(connection: "Connection", outcome: Outcome) -> None:
    _change_themes(connection, outcome)
    asked.keep(connection, outcome.unsure)
    parts.keep(connection, outcome.parts, utc_text(outcome.build.built_at))
    for statement in (*_CHANGED, *_CHANGED_SECOND):
        connection.execute(statement)
    if outcome.base is not None:
        connection.execute("UPDATE theme SET base_terms = '[]'")
        connection.executemany(
            "UPDATE theme SET base_terms = ? WHERE number = ?",
            [(json.dumps(list(terms)), number) for number, terms in outcome.base_terms.items()],
        )
        for statement in _CHANGED_BASE:
            connection.execute(statement)


def _change_themes(connection: "Connection", outcome: Outcome) -> None:
    at = utc_text(outcome.build.built_at)
    known = {theme.number: theme for theme in outcome.themes}
    connection.execute("UPDATE theme SET retired_at = coalesce(retired_at, ?)", (at,))
    connection.executemany(
        "INSERT OR IGNORE INTO theme (number, id, begun_at, retired_at) VALUES (?, ?, ?, ?)",
        [(number, new_id(), at, at) for number in sorted({*known, *outcome.base_terms})],
    )
    connection.executemany(
        "UPDATE theme SET name = ?, named = ?, pinned = ?, sure = ?, terms = ?, retired_at = NULL WHERE number = ?",
        [(t.name, int(t.named), int(t.pinned), t.sure, json.dumps(t.terms), n) for n, t in known.items()],
    )
