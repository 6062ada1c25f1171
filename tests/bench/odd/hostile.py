"""Files without end that mean ill, through all readers: no crash, no second lost, nothing written.

    .venv/bin/python tests/bench/odd/hostile.py [CASES] [FIRST SEED]

A million cases by default, in processes of their own, one for each core; what
fails is kept beside with the seed that makes it. Prints how many were read,
how many were refused with a sentence, and the slowest.
"""

import os
import random
import sys
import tempfile
import time
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "exchange" / "odd"))

from hostile_files import ENDINGS, SEEDS, mangled, ods, repacked, xlsx
from odd_files import TONIGHT

from keeper.dates.in_files import DatesInFile
from keeper.errors import UnreadableFile
from keeper.exchange import odd_files

AT_ONCE, LONGEST = 500, 1.0
_TOLD_AFTER = 10_000
SHEETS = (
    xlsx(b'<row r="1"><c r="A1" t="inlineStr"><is><t>Date</t></is></c><c r="B1"><v>46176</v></c></row>' * 3),
    ods(b'<table:table-row><table:table-cell office:value-type="string"><text:p>x</text:p></table:table-cell></table:table-row>' * 3),
)


def case(number: int) -> tuple[str, bytes]:
    """The name and the bytes of a case."""
    chance = random.Random(number)
    which = chance.randrange(10)
    if which == 0:
        return f"any{chance.choice(ENDINGS)}", chance.randbytes(chance.randint(0, 600))
    if which == 1:
        sheet = chance.randrange(2)
        return f"sheet{('.xlsx', '.ods')[sheet]}", repacked(SHEETS[sheet], chance)
    if which == 2:
        sheet = chance.randrange(2)
        return f"cut{('.xlsx', '.ods')[sheet]}", mangled(SHEETS[sheet], chance)
    return f"nearly{chance.choice(ENDINGS)}", mangled(chance.choice(SEEDS), chance)


def read(file: Path) -> bool:
    """Read a file as the program does; False where it was refused with a sentence."""
    try:
        how = odd_files.guess(file)
        dates = DatesInFile(how.order, TONIGHT)
        odd_files.columns(file, how)
        for row in odd_files.rows(file, how, dates):
            for cell in row.cells:
                cell.encode("utf-8")
                dates.night(cell)
    except UnreadableFile as told:
        assert str(told).endswith(".")
        return False
    return True


def some(first: int) -> tuple[int, int, float, list[str]]:
    """Some cases, from a number on: how many were read and refused, the slowest, and what failed."""
    whole = refused = 0
    slowest, failed = 0.0, []
    with tempfile.TemporaryDirectory() as folder:
        for number in range(first, first + AT_ONCE):
            name, data = case(number)
            file = Path(folder, name)
            file.write_bytes(data)
            begun = time.process_time()
            try:
                good = read(file)
                whole, refused = whole + good, refused + (not good)
            except BaseException as error:
                failed.append(f"{number} ({name}): {type(error).__name__}: {error}")
            lasted = time.process_time() - begun
            slowest = max(slowest, lasted)
            if lasted > LONGEST:
                failed.append(f"{number} ({name}): {lasted:.1f} s")
            if os.listdir(folder) != [name]:
                failed.append(f"{number} ({name}): wrote {os.listdir(folder)}")
            file.unlink()
    return whole, refused, slowest, failed


def main(cases: int, first: int) -> int:
    """Run all; 1 when any failed."""
    whole = refused = wrong = 0
    slowest = 0.0
    with ProcessPoolExecutor() as pool:
        for good, bad, slow, failed in pool.map(some, range(first, first + cases, AT_ONCE)):
            whole, refused, slowest, wrong = whole + good, refused + bad, max(slowest, slow), wrong + len(failed)
            print(*failed, sep="\n", end="\n" if failed else "", flush=True)
            if not (whole + refused) % _TOLD_AFTER:
                print(f"so far {whole} read, {refused} refused, {wrong} wrong; the slowest took {slowest:.2f} s", flush=True)
    print(f"{whole} read, {refused} refused with a sentence, {wrong} wrong; the slowest took {slowest:.2f} s")
    return 1 if wrong else 0


if __name__ == "__main__":
    asked = [int(one) for one in sys.argv[1:]]
    sys.exit(main(*(asked + [1_000_000, 0][len(asked) :])))
