"""A table as a spreadsheet (.xlsx, ISO/IEC 29500) by openpyxl: words stay words, whatever sign they begin with."""

from collections.abc import Iterable, Sequence
from datetime import date
from io import BytesIO

LONGEST = 32_767
"""Characters that a cell of such a file can hold."""


def workbook(names: Sequence[str], rows: Iterable[Sequence[str | date]], widths: Sequence[int]) -> bytes:
    """One sheet: names at the head, then the rows; ``widths`` are in characters. A text is cut at LONGEST."""
    from openpyxl import Workbook
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.cell.cell import ILLEGAL_CHARACTERS_RE
    from openpyxl.styles import Alignment
    from openpyxl.utils import get_column_letter

    book = Workbook(write_only=True)
    sheet = book.create_sheet("Lines")
    sheet.freeze_panes = "A2"
    for place, width in enumerate(widths, 1):
        sheet.column_dimensions[get_column_letter(place)].width = width

    def cell(value: str | date) -> WriteOnlyCell:
        made = WriteOnlyCell(sheet, value if isinstance(value, date) else ILLEGAL_CHARACTERS_RE.sub("", value)[:LONGEST])
        made.alignment = Alignment(vertical="top", wrap_text=not isinstance(value, date))
        if isinstance(value, date):
            made.number_format = "yyyy-mm-dd"
        else:
            # Else what begins with = would be a formula.
            made.data_type = "s"
        return made

    for row in (names, *rows):
        sheet.append([cell(value) for value in row])
    out = BytesIO()
    book.save(out)
    return out.getvalue()
