"""When the keeper cannot be written: the words go to any disk that takes them."""

from collections.abc import Mapping
from datetime import date
from pathlib import Path


def rescue(words: Mapping[tuple, str], folder: Path, tonight: date) -> Path | None:
    """Write words, by what they are for such as a night and a kind, to a plain text file outside the keeper.

    Tries beside the keeper, the home folder, then the system's folder for
    passing files. Returns the file, or None when none of them took it.
    """
    if not words:
        return None
    import tempfile

    text = "\n".join(sorted(f"{' '.join(map(str, key))}: {line}" for key, line in words.items()))
    for place in (folder.parent, Path.home(), Path(tempfile.gettempdir())):
        path = place / f"keeper-unkept-{tonight.isoformat()}.txt"
        try:
            with path.open("a", encoding="utf-8", errors="replace") as file:
                file.write(text + "\n")
            return path
        except OSError:
            continue
    return None
