"""The person's settings, kept beside their words."""

from keeper.settings import OF_WINDOW
from keeper.store.file.opening import Store

_TABLES = ("setting", "window_state")
"""What the person set, and how the window was left."""


def read(store: Store) -> dict[str, str]:
    """All settings that were ever changed, as text."""
    rows = store.rows(" UNION ALL ".join(f"SELECT name, value FROM {table}" for table in _TABLES))
    return {name: value for name, value in rows if isinstance(value, str)}


def write(store: Store, changed: dict[str, str]) -> None:
    """Keep some settings."""
    with store.writing() as connection:
        for name, value in changed.items():
            connection.execute(
                f"INSERT INTO {_TABLES[name in OF_WINDOW]} (name, value) VALUES (?, ?) "
                "ON CONFLICT (name) DO UPDATE SET value = excluded.value",
                (name, value),
            )
