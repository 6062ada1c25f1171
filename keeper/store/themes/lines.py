"""The lines of themes, and where and when they were written: what the pages ask for."""

import json
from collections.abc import Iterable
from datetime import date

from keeper.model import Found, Line
from keeper.store import lines
from keeper.store.file.opening import Store
from keeper.store.lines import OF_THEMES
from keeper.store.moments import day, line_number, line_numbers, number, words
from keeper.store.resting import LINE_AWAKE
from keeper.store.search import found_from


def nights_kept(store: Store) -> tuple[date, ...]:
    """Every night with a line, oldest first."""
    return store.made(lambda row: day(row[0]), store.rows("SELECT DISTINCT night FROM line ORDER BY night"))


def nights_by_theme(store: Store) -> dict[int | None, list[date]]:
    """The night of each line that has a place, by theme, oldest first; a night twice when it has two such lines."""
    found: dict[int | None, list[date]] = {}
    rows = store.rows(f"SELECT theme, night FROM {OF_THEMES} JOIN line ON id = line_id ORDER BY number")
    known = dict(store.made(lambda row: (row[0], day(row[0])), {(row[1],) for row in rows}))
    for theme, night in rows:
        if night in known:
            found.setdefault(theme, []).append(known[night])
    return found


def nights_of(store: Store, number: int | None) -> tuple[date, ...]:
    """The night of each line of a theme (None: of the loose lines), oldest first."""
    rows = store.rows(
        f"SELECT night FROM {OF_THEMES} JOIN line ON id = line_id WHERE theme IS ? ORDER BY number", (number,)
    )
    return store.made(lambda row: day(row[0]), rows)


def central(store: Store, number: int, limit: int) -> tuple[Line, ...]:
    """The lines nearest to a theme's middle that may be brought up unasked."""
    rows = store.rows(
        f"SELECT {lines.COLUMNS} FROM theme_line JOIN line ON line.id = line_id JOIN night ON night.date = line.night "
        f"WHERE theme = ? AND {LINE_AWAKE} ORDER BY closeness DESC, line.number LIMIT ?",
        (number, limit),
    )
    return lines.lines_from(store, rows)


def lines_of(store: Store, number: int | None, limit: int, skip: int, central_first: bool) -> tuple[Found, ...]:
    """A theme's lines (None: the loose ones), newest or most central first."""
    order = "closeness DESC, line.number DESC" if central_first else "line.number DESC"
    rows = store.rows(
        f"SELECT {lines.COLUMNS}, coalesce(place.name, '') FROM {OF_THEMES} JOIN line ON line.id = line_id "
        "JOIN night ON night.date = line.night LEFT JOIN place ON place.id = night.place_id "
        f"WHERE theme IS ? ORDER BY {order} LIMIT ? OFFSET ?",
        (number, limit, skip),
    )
    return found_from(store, rows)


def member_ids(store: Store, number: int | None) -> tuple[str, ...]:
    """The ids of a theme's lines, most central first."""
    rows = store.rows("SELECT line_id FROM theme_line WHERE theme IS ? ORDER BY closeness DESC, line_id", (number,))
    return tuple(row[0] for row in rows)


def places_of(store: Store, number: int, limit: int) -> tuple[tuple[str, int], ...]:
    """The names of the places where a line awake of a theme came up, with the number of nights there, most first."""
    return tuple(
        store.rows(
            f"SELECT place.name, count(DISTINCT night.date) AS times FROM {OF_THEMES} JOIN line ON line.id = line_id "
            "JOIN night ON night.date = line.night JOIN place ON place.id = night.place_id "
            f"WHERE theme = ? AND {LINE_AWAKE} GROUP BY place.id ORDER BY times DESC, place.name LIMIT ?",
            (number, limit),
        )
    )


def themes_at(store: Store, place_id: str, limit: int) -> tuple[tuple[int, str, int], ...]:
    """The themes that came up at a place: number, name, and how many lines there, most first."""
    return tuple(
        store.rows(
            f"SELECT theme.number, theme.name, count(*) AS times FROM night JOIN line ON line.night = night.date "
            f"JOIN {OF_THEMES} AS its ON line_id = line.id JOIN theme ON theme.number = its.theme "
            "WHERE night.place_id = ? AND theme.retired_at IS NULL "
            "GROUP BY theme.number ORDER BY times DESC, theme.number LIMIT ?",
            (place_id, limit),
        )
    )


def photos_of(store: Store, number: int, limit: int) -> tuple[tuple[str, date], ...]:
    """Photos of a theme's lines awake, each with a night; those of the most central lines first."""
    rows = store.rows(
        f"SELECT night_photo.photo_id, line.night, max(closeness) AS nearest FROM {OF_THEMES} JOIN line ON line.id = line_id "
        "JOIN night ON night.date = line.night JOIN night_photo ON night_photo.night = line.night "
        f"WHERE theme = ? AND {LINE_AWAKE} "
        "GROUP BY night_photo.photo_id ORDER BY nearest DESC, night_photo.photo_id LIMIT ?",
        (number, limit),
    )
    return store.made(lambda row: (row[0], day(row[1])), rows)


def beside(store: Store, number: int | None, line_ids: Iterable[str]) -> dict[str, tuple[int, str]]:
    """Of a theme's lines, number and name of the other theme that each stands in; of loose ones (None) of the nearest theme."""
    its = OF_THEMES if number is not None else "(SELECT line_id, theme FROM theme_second WHERE offered)"
    rows = store.rows(
        f"SELECT line_id, theme.number, theme.name FROM {its} AS its JOIN theme ON theme.number = its.theme "
        "WHERE its.theme IS NOT ? AND theme.retired_at IS NULL AND theme.name <> '' AND line_id IN (SELECT value FROM json_each(?))",
        (number, json.dumps(list(line_ids))),
    )
    return {row[0]: (row[1], words(row[2])) for row in rows}


def every_line_of(store: Store, theme: int) -> tuple[Line, ...]:
    """All lines of a theme, oldest first."""
    rows = store.rows(
        f"SELECT {lines.COLUMNS} FROM line JOIN {OF_THEMES} AS its ON its.line_id = line.id "
        "WHERE its.theme = ? ORDER BY line.number",
        (theme,),
    )
    return lines.lines_from(store, rows)


def named_between(store: Store, first: date, last: date) -> tuple[tuple[str, int, str, float], ...]:
    """The lines of a span that belong to a theme: line id, theme, its name, closeness."""
    return store.made(_named, store.rows(
        "SELECT line.id, theme.number, theme.name, its.closeness FROM line "
        f"JOIN {OF_THEMES} AS its ON its.line_id = line.id JOIN theme ON theme.number = its.theme "
        "WHERE line.number BETWEEN ? AND ? AND theme.retired_at IS NULL AND theme.name <> '' ORDER BY line.number, its.second",
        line_numbers(first, last),
    ))  # fmt: skip


def _named(row: tuple) -> tuple[str, int, str, float]:
    return row[0], row[1], words(row[2]), number(row[3], -1e9, 1e9) or 0.0


def totals(store: Store) -> dict[int, int]:
    """How many lines each theme has, in all years."""
    return dict(store.rows(f"SELECT theme, count(*) FROM {OF_THEMES} WHERE theme IS NOT NULL GROUP BY theme"))


def known_before(store: Store, themes: Iterable[int], night: date) -> frozenset[int]:
    """Those of the themes that have a line before a night."""
    limit = line_number(night, 0)
    return frozenset(theme for theme in themes if store.row(
        f"SELECT 1 FROM {OF_THEMES} JOIN line ON line.id = line_id "
        "WHERE theme = ? AND line.number < ? LIMIT 1", (theme, limit)))  # fmt: skip
