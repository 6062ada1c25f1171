"""The person's settings, kept beside their words."""

from keeper.store.file.opening import Store


def read(store: Store) -> dict[str, str]:
    """All settings that were ever changed, as text."""
    return {name: value for name, value in store.rows("SELECT name, value FROM setting") if isinstance(value, str)}


def write(store: Store, changed: dict[str, str]) -> None:
    """Keep some settings."""
    with store.writing() as connection:
        connection.executemany("INSERT OR REPLACE INTO setting VALUES (?, ?)", changed.items())
