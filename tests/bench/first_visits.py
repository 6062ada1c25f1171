"""How long the window is held up by the first visit of each page, in a process that has imported none of them.

Run by test_bench_typing.py: ``python first_visits.py KEEPER at-once`` goes to the pages as soon as one can type,
``python first_visits.py KEEPER after-quiet`` when the window has been left alone for a while.
"""

import gc
import os
import sys
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parent), str(Path(__file__).parents[1]), str(Path(__file__).parents[1] / "support")]
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

QUIET = 8000


def main(folder: Path, when: str) -> None:
    """Go to every page once and tell the longest block of each."""
    # As the command does it (see keeper/start.py).
    gc.disable()
    from turns import Turns, opened

    from keeper.window.frame import opening

    frame, turns = opened(folder), Turns()
    waited = turns.after(lambda: opening.at_ease(frame), QUIET if when == "after-quiet" else 300)
    told = {"the wait before": waited}
    for page in frame.buttons:
        told[page] = turns.after(lambda page=page: frame.go(page), 1200)
    print("; ".join(f"{page} {longest:.0f}" for page, longest in told.items()))
    frame.leave()


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2])
