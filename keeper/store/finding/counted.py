"""What a search finds, counted: by month, and by place."""

from datetime import date

from keeper.store.file.opening import Store
from keeper.store.moments import day, words
from keeper.store.search import Sought, asked


def months(store: Store, sought: Sought) -> tuple[tuple[date, int], ...]:
    """The first day of each month with a line that answers, and how many do, the newest first."""
    source, conditions, values = asked(store, sought)
    rows = store.rows(
        f"SELECT substr(line.night, 1, 7) || '-01' AS month, count(*) FROM {source} JOIN night ON night.date = line.night "
        f"WHERE {' AND '.join(conditions)} GROUP BY month ORDER BY month DESC",
        values,
    )
    return store.made(lambda row: (day(row[0]), int(row[1])), rows)


def places(store: Store, sought: Sought) -> dict[str, tuple[date, ...]]:
    """The nights with a line that answers, oldest first, by the id of their place."""
    source, conditions, values = asked(store, sought)
    rows = store.rows(
        f"SELECT DISTINCT night.place_id, line.night FROM {source} JOIN night ON night.date = line.night "
        f"WHERE {' AND '.join(conditions)} AND night.place_id IS NOT NULL ORDER BY line.night",
        values,
    )
    found: dict[str, list[date]] = {}
    for place, night in store.made(lambda row: (words(row[0]), day(row[1])), rows):
        found.setdefault(place, []).append(night)
    return {place: tuple(nights) for place, nights in found.items()}
