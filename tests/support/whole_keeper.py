"""All that a keeper holds of what a person did, to be compared."""

from datetime import timedelta

from keeper.store.history.letting_go import let_go_old
from keeper.store.history.watched import watched
from keeper.store.photos import files


def content(store) -> dict[str, list[tuple]]:
    """Every row of every watched table, without what is no act."""
    return {
        table.name: sorted(
            store.rows(f"SELECT {', '.join(table.compared)} FROM {table.name}"), key=repr
        )
        for table in watched(store.connection)
    }


def let_all_go(store) -> None:
    """Let go of every act, and of the files that only they could have brought back."""
    for sha256, ending in let_go_old(store, timedelta(-1)):
        files.take_away(store.folder, sha256, ending)
