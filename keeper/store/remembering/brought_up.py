"""When nights were last brought up: told to nobody, no act, and only for choosing what comes next."""

import json
from collections.abc import Iterable
from datetime import date

from keeper.store.file.opening import Store
from keeper.store.moments import day


def note(store: Store, nights: Iterable[date], evening: date) -> None:
    """Keep that these nights were brought up on an evening; once for each evening."""
    with store.writing() as connection:
        connection.executemany(
            "INSERT INTO brought_up (night, evening) VALUES (?1, ?2) ON CONFLICT (night) DO UPDATE SET "
            "before = evening, evening = ?2 WHERE evening < ?2",
            [(night.isoformat(), evening.isoformat()) for night in nights],
        )


def last_before(store: Store, nights: Iterable[date], evening: date) -> dict[date, date]:
    """The last evening before this one on which each of the nights was brought up; those that never were are left out."""
    wanted = json.dumps([night.isoformat() for night in nights])
    rows = store.rows(
        "SELECT night, CASE WHEN evening < ?1 THEN evening ELSE before END AS last FROM json_each(?2) "
        "JOIN brought_up ON night = value WHERE last IS NOT NULL",
        (evening.isoformat(), wanted),
    )
    return dict(store.made(lambda row: (day(row[0]), day(row[1])), rows))
