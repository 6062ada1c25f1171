"""Lines that have somebody's name."""

from collections.abc import Sequence

from keeper.model import Found
from keeper.store import lines
from keeper.store.file.opening import Store
from keeper.store.folding import any_named
from keeper.store.search import found_from


def found_with(store: Store, spellings: Sequence[str]) -> tuple[Found, ...]:
    """Every line that has any of these names by the index of words, with its place, newest first."""
    match = any_named(spellings)
    rows = store.rows(
        f"SELECT {lines.COLUMNS}, coalesce(place.name, '') FROM line_words JOIN line ON line.number = line_words.rowid "
        "JOIN night ON night.date = line.night LEFT JOIN place ON place.id = night.place_id "
        "WHERE line_words MATCH ? ORDER BY line_words.rowid DESC", (match,),
    ) if match else ()  # fmt: skip
    return found_from(store, rows)
