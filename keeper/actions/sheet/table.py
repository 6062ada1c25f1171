"""A part of a table on the clipboard, for the window."""

from keeper.actions.writing import readable
from keeper.exchange import pasted
from keeper.exchange.pasted import write_table

__all__ = ["read_table", "write_table"]


def read_table(text: str) -> pasted.Table:
    """The cells of what was pasted, row by row; halves of characters and control codes made visible or left out."""
    return pasted.read_table(readable(text))
