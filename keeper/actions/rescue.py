"""When the keeper cannot be written: the words go to any disk that takes them."""

import os
from collections.abc import Iterator, Mapping
from contextlib import suppress
from datetime import date
from pathlib import Path

from keeper import private


def rescue(words: Mapping[tuple, str], folder: Path, tonight: date, into: Path | None = None) -> Path | None:
    """Write words, by what they are for such as a night and a kind, to a plain text file outside the keeper.

    Only its owner may read it.

    Tries beside the keeper, the home folder, then the system's folder for
    passing files; an earlier rescue stays. With ``into``, the file of a rescue
    before, that one is written anew. Returns the file, or None when none of
    them took it.
    """
    if not words:
        return None
    text = "\n".join(sorted(f"{' '.join(map(str, key))}: {line}" for key, line in words.items()))
    name = f"keeper-unkept-{tonight.isoformat()}"
    for path in [into] if into else _free(name, folder):
        if _written(path, text + "\n"):
            return path
    return rescue(words, folder, tonight) if into else None


def _written(path: Path, text: str) -> bool:
    # What was rescued before stays until all of this is on the disk: one that is full takes names, but no words.
    coming = path.with_name(f"{path.name}.new")
    try:
        with open(coming, "w", encoding="utf-8", errors="replace", opener=private.opener) as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        coming.replace(path)
        return True
    except OSError:
        with suppress(OSError):
            coming.unlink()
        return False


def _free(name: str, folder: Path) -> Iterator[Path]:
    import tempfile

    for place in (lambda: folder.parent, Path.home, lambda: Path(tempfile.gettempdir())):
        # A person without a home, or a system without such a folder.
        with suppress(RuntimeError, OSError):
            yield from _not_taken(place() / name)


def _not_taken(begun: Path) -> Iterator[Path]:
    for number in range(1, 100):
        path = begun.with_name(f"{begun.name}{f'-{number}' if number > 1 else ''}.txt")
        if not path.exists():
            yield path
            return
