"""The only room that speaks SQL: a keeper's file, and one module a noun."""

from keeper.store.file.beginning import create_store
from keeper.store.file.opening import Store, is_keeper, open_store

__all__ = ["Store", "create_store", "is_keeper", "open_store"]
