"""Whether a keeper's file is whole."""

from keeper.store import Store


def whole(store: Store) -> bool:
    """Whether SQLite finds the file sound, and the index of words agrees with the lines."""
    with store.writing() as connection:
        # Raises when it does not agree.
        connection.execute("INSERT INTO line_words (line_words, rank) VALUES ('integrity-check', 1)")
    sound = store.rows("PRAGMA integrity_check") == [("ok",)]
    return sound and store.rows("PRAGMA foreign_key_check") == []


def emptied(store: Store) -> Store:
    """The store without lines, wordings, drafts and rests, for the next example."""
    with store.writing() as connection:
        for table in ("line", "wording", "draft", "resting"):
            connection.execute(f"DELETE FROM {table}")
    return store
