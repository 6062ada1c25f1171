"""Files without end that mean ill, through all readers: no crash, no second lost, nothing written.

    .venv/bin/python tests/bench/odd/hostile.py [KIND] [CASES] [FIRST NUMBER] [PROCESSES]

The kinds are those of ``meaning_ill``; a million cases by default, in
processes of their own, one for each core. A case that fails is told with the
number that makes it. Prints how many were read, how many were refused with a
sentence, and the slowest in seconds of this process; of PDFs that is not the
drawing, which is ended in its own process after ``pdf_drawing.A_SECOND``, and
somewhat more for a large file.
"""

import faulthandler
import os
import sys
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "support"))

from meaning_ill import KINDS, tried

AT_ONCE, TOLD_AFTER, FOR_EVER = 250, 10_000, 120


def some(kind: str, first: int) -> tuple[int, int, float, list[str]]:
    """Some cases, from a number on: how many were read and refused, the slowest, and what failed."""
    whole = refused = 0
    slowest, failed = 0.0, []
    for read, lasted, wrong in tried(kind, first, AT_ONCE):
        faulthandler.dump_traceback_later(FOR_EVER, exit=True)
        whole, refused, slowest = whole + read, refused + (not read), max(slowest, lasted)
        failed += [wrong] if wrong else []
    faulthandler.cancel_dump_traceback_later()
    return whole, refused, slowest, failed


def main(kind: str, cases: int, first: int, processes: int) -> int:
    """Run all; 1 when any failed."""
    whole = refused = wrong = 0
    slowest, begun = 0.0, list(range(first, first + cases, AT_ONCE))
    with ProcessPoolExecutor(processes) as pool:
        try:
            for good, bad, slow, failed in pool.map(some, [kind] * len(begun), begun):
                whole, refused, slowest, wrong = whole + good, refused + bad, max(slowest, slow), wrong + len(failed)
                print(*failed, sep="\n", end="\n" if failed else "", flush=True)
                if not (whole + refused) % TOLD_AFTER:
                    print(f"{kind}: so far {whole} read, {refused} refused, {wrong} wrong; the slowest took {slowest:.2f} s", flush=True)
        except BrokenProcessPool:
            print(f"{kind}: a process ended within the {AT_ONCE} cases from {first + whole + refused} on")
            return 1
    print(f"{kind}: {whole} read, {refused} refused with a sentence, {wrong} wrong; the slowest took {slowest:.2f} s")
    return 1 if wrong else 0


if __name__ == "__main__":
    kind = sys.argv[1] if sys.argv[1:] else KINDS[0]
    asked = [int(one) for one in sys.argv[2:]]
    sys.exit(main(kind, *(asked + [1_000_000, 0, os.cpu_count() or 1][len(asked) :])))
