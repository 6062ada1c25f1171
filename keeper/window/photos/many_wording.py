"""The words of bringing many photos."""

from collections.abc import Sequence
from pathlib import Path

from keeper.actions.photos.looking import Looked
from keeper.actions.photos.lots import Lot
from keeper.errors import shown_name
from keeper.window.desk import wording

HOW = (
    "Each photo goes to the night of its own date; you see the nights before anything is taken in. "
    "Photos without a date, and files that cannot be read as pictures, are left out and listed here. "
    "Nothing is taken in twice; the files themselves stay where they are."
)


def named(sources: Sequence[Path]) -> str:
    """Which photos are looked at."""
    if len(sources) == 1:
        return f"The photos of {shown_name(sources[0])}."
    return f"{wording.counted(len(sources), 'file and folder', 'files and folders')}."


def looked_told(looked: Looked, sources: Sequence[Path]) -> str:
    """What was found, before anything is taken in."""
    count = sum(len(night.files) for night in looked.nights)
    found = f"{wording.counted(count, 'photo')} for {wording.counted(len(looked.nights), 'night')}." if count else ""
    kept = f"{looked.already:,} in the keeper already." if looked.already else ""
    nothing = "" if count else "There is nothing to take in."
    return " ".join(filter(None, (named(sources), found, kept, nothing)))


def lot_told(lot: Lot) -> str:
    """What the last lot was."""
    came = lot.came_at.astimezone()
    back = " That was undone." if lot.taken_back else ""
    return f"Last came {_photos(lot)}, on {wording.long_date(came.date())}.{back}"


def undone_told(lot: Lot) -> str:
    """What became of a lot that was taken back, or put back."""
    if lot.taken_back:
        return f"Undone: {_photos(lot)}. Until you next bring photos, Redo takes them in again."
    return f"Taken in again: {_photos(lot)}."


def _photos(lot: Lot) -> str:
    return f"{wording.counted(lot.photos, 'photo')} for {wording.counted(lot.nights, 'night')}"
