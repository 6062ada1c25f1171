"""What the program did not foresee: noted for whoever mends it."""

from datetime import datetime
from pathlib import Path

FILE = "trouble.txt"
_LONGEST = 1_000_000


def note(folder: Path, problem: BaseException) -> str:
    """Write down what happened, in the keeper's folder; returns a sentence for the person."""
    import traceback

    told = f"Something went wrong that the program did not foresee ({type(problem).__name__})."
    path = folder / FILE
    try:
        if path.exists() and path.stat().st_size > _LONGEST:
            path.unlink()
        with path.open("a", encoding="utf-8", errors="replace") as file:
            file.write(f"{datetime.now().isoformat()}\n{''.join(traceback.format_exception(problem))}\n")
    except OSError:
        return told
    return f"{told} What is needed to mend it is in {path}."
