"""The only room that speaks SQL: a keeper's file, and one module a noun."""

from pathlib import Path

from keeper.store.file.opening import Store, is_keeper, open_store

__all__ = ["Store", "create_store", "is_keeper", "open_store"]


def create_store(folder: Path) -> Store:
    """Begin a new keeper in a folder; see ``keeper.store.file.beginning``.

    Raises CannotWrite when the folder cannot be made, NotAKeeper when a keeper is there already.
    """
    # Once in a keeper's life: no start waits for it.
    from keeper.store.file.beginning import create_store

    return create_store(folder)
