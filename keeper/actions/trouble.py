"""What nobody expected to go wrong: noted for whoever mends it."""

from datetime import datetime
from pathlib import Path

from keeper import private
from keeper.errors import KeeperError

FILE = "trouble.txt"
_LONGEST = 1_000_000


def note(folder: Path, problem: BaseException) -> str:
    """Write down what happened, in the keeper's folder; returns a sentence for the person."""
    import traceback

    told = _sentence(problem)
    path = folder / FILE
    try:
        if path.exists() and path.stat().st_size > _LONGEST:
            path.unlink()
        with open(path, "a", encoding="utf-8", errors="replace", opener=private.opener) as file:
            file.write(f"{datetime.now().isoformat()}\n{''.join(traceback.format_exception(problem))}\n")
    except OSError:
        return told
    return f"{told} Details are in {path}."


def _sentence(problem: BaseException) -> str:
    # One of ours is a finished sentence already.
    if isinstance(problem, KeeperError):
        return str(problem)
    return f"Something unexpected went wrong ({type(problem).__name__})."
