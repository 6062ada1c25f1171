"""The odd files that people have, as ``hostile_files`` of the tests makes them."""

import random
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "exchange" / "odd"))

from hostile_files import ENDINGS, SEEDS, mangled, ods, repacked, xlsx
from odd_files import TONIGHT

from keeper.dates.in_files import DatesInFile
from keeper.errors import UnreadableFile
from keeper.exchange import odd_files
from meaning_ill import must_be_a_sentence

SHEETS = (
    xlsx(b'<row r="1"><c r="A1" t="inlineStr"><is><t>Date</t></is></c><c r="B1"><v>46176</v></c></row>' * 3),
    ods(b'<table:table-row><table:table-cell office:value-type="string"><text:p>x</text:p></table:table-cell></table:table-row>' * 3),
)


def case(number: int, folder: Path) -> Path:
    """A file that means ill."""
    name, data = _made(random.Random(number))
    file = folder / name
    file.write_bytes(data)
    return file


def _made(chance: random.Random) -> tuple[str, bytes]:
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


class Reader:
    """Reads a file as the program does."""

    def __init__(self, room: Path) -> None:
        """Nothing is needed."""

    def read(self, file: Path) -> bool:
        """Whether it was read."""
        try:
            how = odd_files.guess(file)
            dates = DatesInFile(how.order, TONIGHT)
            odd_files.columns(file, how)
            for row in odd_files.rows(file, how, dates):
                for cell in row.cells:
                    cell.encode("utf-8")
                    dates.night(cell)
        except UnreadableFile as told:
            must_be_a_sentence(told)
            return False
        return True
