"""The lines that the person may be asked about, of each theme they began: found anew by each look."""

import json
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from keeper.model import Found
from keeper.store import lines
from keeper.store.file.opening import Store
from keeper.store.search import found_from

if TYPE_CHECKING:
    from sqlite3 import Connection


def keep(connection: "Connection", unsure: Mapping[int, Sequence[str]]) -> None:
    """Put the lines of each theme, least sure first, in the place of those there were."""
    connection.execute("DELETE FROM theme_asked")
    connection.executemany(
        "INSERT INTO theme_asked (theme, position, line_id) SELECT ?, ?, id FROM line WHERE id = ?",
        [(theme, place, line) for theme, found in unsure.items() for place, line in enumerate(found)],
    )


_FOUND = (
    f"SELECT {lines.COLUMNS}, coalesce(place.name, '') FROM {{}} JOIN line ON line.id = {{}} "
    "JOIN night ON night.date = line.night LEFT JOIN place ON place.id = night.place_id "
)


def lines_of(store: Store, theme: int) -> tuple[Found, ...]:
    """The lines to ask about for a theme, least sure first."""
    rows = store.rows(_FOUND.format("theme_asked", "line_id") + "WHERE theme = ? ORDER BY position", (theme,))
    return found_from(store, rows)


def those(store: Store, line_ids: Sequence[str]) -> tuple[Found, ...]:
    """Those of the lines that are there, in the order given."""
    wanted = json.dumps(list(line_ids))
    return found_from(store, store.rows(_FOUND.format("json_each(?)", "value") + "ORDER BY json_each.key", (wanted,)))
