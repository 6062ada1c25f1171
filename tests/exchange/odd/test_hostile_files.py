"""Files that mean ill: a clear sentence, no crash, no second lost, nothing written."""

import os
import random
import time
import zipfile

import pytest
from hostile_files import ENDINGS, FROM_ELSEWHERE, LAUGHS, SEEDS, mangled, ods, packed, repacked, xlsx
from hypothesis import given, settings
from hypothesis import strategies as st
from odd_files import TONIGHT, read

from keeper.dates.in_files import DatesInFile
from keeper.errors import UnreadableFile
from keeper.exchange import odd_files
from keeper.exchange.tables import packed as looked_over

CELL = b'<row r="1"><c r="A1" t="inlineStr"><is><t>Date</t></is></c></row>'
ODS_CELL = b'<table:table-cell office:value-type="string"%s><text:p>x</text:p></table:table-cell>'


def bomb() -> bytes:
    """A few kilobytes that unpack to far more."""
    return packed({"xl/workbook.xml": b"\0" * 5_000_000})


@pytest.fixture(autouse=True)
def _small_bounds(monkeypatch):
    """So that a bomb need not be made of hundreds of megabytes."""
    monkeypatch.setattr(looked_over, "LARGEST", 3_000_000)


HOSTILE = {
    "bomb.xlsx": bomb, "laughs.xlsx": lambda: xlsx(CELL, head=LAUGHS), "elsewhere.xlsx": lambda: xlsx(CELL, head=FROM_ELSEWHERE),
    "laughs.ods": lambda: ods(b"", LAUGHS), "elsewhere.ods": lambda: ods(b"", FROM_ELSEWHERE),
    "wide elsewhere.ods": lambda: packed({"content.xml": FROM_ELSEWHERE.decode().encode("utf-16")}),
    "million.ods": lambda: ods(b'<table:table-row table:number-rows-repeated="1000000">' + ODS_CELL % b' table:number-columns-repeated="16000"' + b"</table:table-row>"),
    "endless.ods": lambda: ods(b"<table:table-row>" + ODS_CELL % b' table:number-columns-repeated="99999999999999999999"' + b"</table:table-row>"),
    "far.ods": lambda: ods(b'<table:table-row table:number-rows-repeated="900000000"/><table:table-row>' + ODS_CELL % b"" + b"</table:table-row>"),
    "cut.xlsx": lambda: xlsx(CELL)[:-40], "empty.xlsx": lambda: packed({"x": b""}), "not.xlsx": lambda: b"Date,Words\n", "not.ods": lambda: b"\xff" * 99,
    "nothing.csv": lambda: b"", "noughts.csv": lambda: b"\0" * 5000, "open.json": lambda: b"[" * 200_000, "blank.txt": lambda: b" \n\t\n",
}  # fmt: skip


@pytest.mark.parametrize("name", HOSTILE)
def test_it_is_refused_with_a_sentence_in_less_than_a_second(tmp_path, name):
    file = tmp_path / name
    file.write_bytes(HOSTILE[name]())
    begun = time.process_time()
    with pytest.raises(UnreadableFile) as told:
        read(file)
    assert time.process_time() - begun < 1 and name in str(told.value) and str(told.value).endswith(".")


HARMLESS = {
    "columns.csv": b"," * 1_000_000 + b"\n2026-06-03,x\n",
    "noughts.csv": b"Date,Words\n2026-06-03,a\0b\n",
    "quote.csv": b'Date,Words\n2026-06-03,"never closed\n' + b"2026-06-04,x\n" * 40_000,
    "far.xlsx": xlsx(CELL + b'<row r="1048576"><c r="XFD1048576" t="inlineStr"><is><t>far</t></is></c></row>', b"A1:XFD1048576"),
    "halves.json": b'[{"date": "2026-06-03", "text": "\\ud800 half \\u0000 nought"}]',
    "seconds.ics": b"BEGIN:VCALENDAR\nBEGIN:VTIMEZONE\nTZID:X\nBEGIN:STANDARD\nDTSTART:19000101T000000\nRRULE:FREQ=SECONDLY\nEND:STANDARD\n"
    b"END:VTIMEZONE\nBEGIN:VEVENT\nDTSTART;TZID=X:20260603T120000\nRRULE:FREQ=SECONDLY\nSUMMARY:x\nEND:VEVENT\nEND:VCALENDAR\n",
    "deep.ics": b"BEGIN:VEVENT\n" * 100_000 + b"DTSTART:20260603\nEND:VEVENT\n",
    "line.txt": b"2026-06-03 " + b"x" * 5_000_000,
    "marks.md": b"#" * 100_000 + b"\n2026-06-03\n" + b"- * _ [ (" * 20_000,
}  # fmt: skip


@pytest.mark.parametrize("name", HARMLESS)
def test_what_can_be_read_of_it_is_read_within_bounds(tmp_path, name):
    file = tmp_path / name
    file.write_bytes(HARMLESS[name])
    begun = time.process_time()
    _how, names, rows = read(file)
    assert time.process_time() - begun < 2
    assert len(names) <= 200 and all(len(row.cells) <= 200 for row in rows)
    for cell in (cell for row in rows for cell in row.cells):
        assert len(cell) <= 100_000 and "\0" not in cell and not any("\ud800" <= letter <= "\udfff" for letter in cell)


def test_a_locked_spreadsheet_is_told_to_be_locked(tmp_path):
    file = tmp_path / "a.xlsx"
    whole = bytearray(xlsx(CELL))
    # The bit that tells so, in the heads of all parts (APPNOTE 4.4.4).
    for sign, at in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        place = whole.find(sign)
        while place >= 0:
            whole[place + at] |= 1
            place = whole.find(sign, place + 1)
    file.write_bytes(whole)
    with pytest.raises(UnreadableFile, match="password"):
        read(file)


def test_a_part_larger_than_it_says_is_found_out(tmp_path):
    file = tmp_path / "a.xlsx"
    whole = bytearray(packed({"xl/workbook.xml": b"a" * 5_000_000}))
    with zipfile.ZipFile(file, "w"):
        pass
    # It says that it is ten bytes long.
    for sign, at in ((b"PK\x03\x04", 22), (b"PK\x01\x02", 24)):
        place = whole.find(sign)
        whole[place + at : place + at + 4] = (10).to_bytes(4, "little")
    file.write_bytes(whole)
    with pytest.raises(UnreadableFile, match="larger"):
        read(file)


def read_whole(file) -> None:
    """Read a file as the program does; only the sentence may be raised."""
    try:
        how = odd_files.guess(file)
        dates = DatesInFile(how.order, TONIGHT)
        names = odd_files.columns(file, how)
        for row in odd_files.rows(file, how, dates):
            assert len(row.cells) <= max(len(names), 200)
            for cell in row.cells:
                cell.encode("utf-8")
                dates.night(cell)
    except UnreadableFile as told:
        assert str(told).endswith(".")


@given(st.binary(max_size=400), st.sampled_from(ENDINGS))
def test_bytes_of_any_kind(tmp_path, data, ending):
    file = tmp_path / f"any{ending}"
    file.write_bytes(data)
    read_whole(file)


@settings(max_examples=150)
@given(st.integers(0, 2**32), st.sampled_from(SEEDS), st.sampled_from(ENDINGS))
def test_files_that_are_nearly_right(tmp_path, number, seed, ending):
    file = tmp_path / f"nearly{ending}"
    file.write_bytes(mangled(seed, random.Random(number)))
    begun = time.process_time()
    read_whole(file)
    assert time.process_time() - begun < 1
    assert all(name.startswith("nearly") for name in os.listdir(tmp_path))


@pytest.fixture(scope="module")
def sheets():
    rows = b'<row r="1"><c r="A1" t="inlineStr"><is><t>Date</t></is></c><c r="B1"><v>46176</v></c></row>' * 3
    cells = b"<table:table-row>" + ODS_CELL % b"" + ODS_CELL % b' office:date-value="2026-06-03"' + b"</table:table-row>"
    return xlsx(rows), ods(cells * 3)


@settings(max_examples=40)
@given(st.integers(0, 2**32), st.integers(0, 1))
def test_spreadsheets_that_are_nearly_right(tmp_path, sheets, number, which):
    file = tmp_path / f"nearly{('.xlsx', '.ods')[which]}"
    file.write_bytes(repacked(sheets[which], random.Random(number)))
    read_whole(file)
