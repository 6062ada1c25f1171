"""Earlier nights that have something in common with tonight, and a line awake."""

import json
from collections.abc import Iterable
from datetime import date

from keeper.store.file.opening import Store
from keeper.store.moments import day
from keeper.store.resting import LINE_AWAKE

_AWAKE = f"EXISTS (SELECT 1 FROM line WHERE line.night = night.date AND {LINE_AWAKE})"


def among(store: Store, nights: Iterable[date]) -> tuple[date, ...]:
    """Those of the nights that have a line awake, oldest first."""
    wanted = json.dumps([night.isoformat() for night in nights])
    rows = store.rows(f"SELECT date FROM json_each(?) JOIN night ON date = value WHERE {_AWAKE} ORDER BY date", (wanted,))
    return store.made(lambda row: day(row[0]), rows)


def at_place(store: Store, place_id: str, before: date) -> tuple[date, ...]:
    """The nights at a place before another with a line awake, oldest first."""
    rows = store.rows(
        f"SELECT date FROM night WHERE place_id = ? AND date < ? AND {_AWAKE} ORDER BY date", (place_id, before.isoformat())
    )
    return store.made(lambda row: day(row[0]), rows)


def answered(store: Store, months: Iterable[date], kind: str) -> tuple[date, ...]:
    """The nights of some months with a line awake of a kind, oldest first."""
    wanted = json.dumps([month.isoformat()[:7] for month in months])
    rows = store.rows(
        "SELECT line.night FROM json_each(?) JOIN night ON date BETWEEN value || '-01' AND value || '-31' "
        f"JOIN line ON line.night = date WHERE kind = ? AND {LINE_AWAKE} ORDER BY date",
        (wanted, kind),
    )
    return store.made(lambda row: day(row[0]), rows)


def marked(store: Store, tracker_id: str, before: date) -> tuple[date, ...]:
    """The nights before another on which a mark was noted as a yes, oldest first."""
    rows = store.rows(
        "SELECT night FROM reading WHERE tracker_id = ? AND night < ? AND value = 1 ORDER BY night", (tracker_id, before.isoformat())
    )
    return store.made(lambda row: day(row[0]), rows)


def longest_unseen(store: Store, before: date, evening: date) -> tuple[date, ...]:
    """The nights before another with a line awake that were not brought up for the longest, never first; some of them."""
    rows = store.rows(
        "SELECT date FROM night LEFT JOIN brought_up ON brought_up.night = date "
        f"WHERE date < ?1 AND {_AWAKE} ORDER BY CASE WHEN evening < ?2 THEN evening ELSE before END, date LIMIT 40",
        (before.isoformat(), evening.isoformat()),
    )
    return store.made(lambda row: day(row[0]), rows)
