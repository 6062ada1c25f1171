"""That a keeper is known to be damaged: a note beside its file, so that every program knows it at once."""

import os
from pathlib import Path

from keeper import private
from keeper.store.file.folder import DAMAGE
from keeper.store.file.sentences import DAMAGED

__all__ = ["DAMAGED", "clear", "note", "noted"]


def note(folder: Path, sentence: str) -> None:
    """Let the keeper be known as damaged, and why. Raises OSError."""
    with open(folder / DAMAGE, "w", encoding="utf-8", opener=private.opener) as file:
        file.write(f"{sentence}\n")
        file.flush()
        os.fsync(file.fileno())


def clear(folder: Path) -> None:
    """It is well again. Raises OSError."""
    (folder / DAMAGE).unlink(missing_ok=True)


def noted(folder: Path) -> str:
    """Why it is known as damaged; "" where it is not."""
    try:
        return (folder / DAMAGE).read_text("utf-8", "replace").strip() or "It was found to be damaged."
    except FileNotFoundError:
        return ""
    except OSError:
        return "It was found to be damaged."
