"""Under which words the desk, and the drafts, know a cell."""

from keeper.actions.sheet.asking import PLACE_DRAFT, READING_DRAFT, Cell

LINE = "line on paper"


def key(cell: Cell) -> tuple[str, str]:
    """What a cell's words are for, and of which one."""
    night, _, rest = cell[0].isoformat(), *cell[1].partition(":")[1:]
    if cell[1].startswith("line:"):
        return LINE, f"{night} {rest}"
    return (READING_DRAFT, f"{night} {rest}") if rest else (PLACE_DRAFT, night)


def kind_of(cell: Cell) -> str:
    """The kind of line of a cell; "" where it is of something else."""
    return cell[1].removeprefix("line:") if cell[1].startswith("line:") else ""
