"""What the person says of places: a note, what it is, and the photo that stands for it."""

from collections.abc import Mapping

from keeper.model import PlacePage
from keeper.model.places import ROOFS
from keeper.store.file.opening import Store
from keeper.store.moments import words

_COLUMNS = "note, roof, photo_id"


def one(store: Store, place_id: str) -> PlacePage:
    """What is said of a place; an empty one where nothing is."""
    row = store.row(f"SELECT {_COLUMNS} FROM place_page WHERE place_id = ?", (place_id,))
    return next(iter(store.made(_page, [row] if row else [])), PlacePage())


def every(store: Store) -> Mapping[str, PlacePage]:
    """What is said of the places of which anything is, by id."""
    rows = store.rows(f"SELECT {_COLUMNS}, place_id FROM place_page")
    return dict(store.made(lambda row: (row[3], _page(row)), rows))


def keep(store: Store, place_id: str, page: PlacePage) -> None:
    """Write it anew; of a place of which nothing is said, nothing is kept."""
    with store.writing() as connection:
        if page == PlacePage():
            connection.execute("DELETE FROM place_page WHERE place_id = ?", (place_id,))
            return
        connection.execute(
            f"INSERT INTO place_page (place_id, {_COLUMNS}) VALUES (?, ?, ?, ?) ON CONFLICT DO UPDATE SET "
            "note = excluded.note, roof = excluded.roof, photo_id = excluded.photo_id",
            (place_id, page.note, page.roof, page.photo_id),
        )


def _page(row: tuple) -> PlacePage:
    roof = words(row[1])
    return PlacePage(words(row[0]), roof if roof in ROOFS else "", row[2])
