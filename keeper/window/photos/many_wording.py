"""The words of bringing many photos."""

from collections.abc import Sequence
from pathlib import Path

from keeper.actions.photos.looking import Looked
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
