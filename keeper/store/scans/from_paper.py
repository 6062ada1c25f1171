"""Which lines were typed up from paper."""

from datetime import date

from keeper.store.file.opening import Store
from keeper.store.moments import line_number


def mark(store: Store, night: date, kind: str) -> None:
    """Note that the night's line of a kind, as it is worded now, came from paper."""
    with store.writing() as connection:
        connection.execute(
            "INSERT INTO from_paper (line_id, written_at) SELECT id, written_at FROM line "
            "WHERE number = ? + (SELECT kind.number FROM kind WHERE key = ?) ON CONFLICT DO NOTHING",
            (line_number(night, 0), kind),
        )
