"""Separated values, spreadsheets and lists in JSON, as other programs write them."""

import csv
import json
from dataclasses import replace
from datetime import date, datetime, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from odd_files import cells, read
from waiting.when_used import WhenUsed

from keeper.errors import UnreadableFile
from keeper.exchange.tables import workbook
from keeper.exchange.tables.encoding import encoding_of
from keeper.exchange.tables.shape import How, plain

openpyxl, pandas = WhenUsed("openpyxl"), WhenUsed("pandas")

RFC_4180 = {
    # Section 2, rules 1 to 7, each with what it says the fields are.
    b"aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n": [("aaa", "bbb", "ccc"), ("zzz", "yyy", "xxx")],
    b"aaa,bbb,ccc\r\nzzz,yyy,xxx": [("aaa", "bbb", "ccc"), ("zzz", "yyy", "xxx")],
    b'"aaa","bbb","ccc"\r\nzzz,yyy,xxx': [("aaa", "bbb", "ccc"), ("zzz", "yyy", "xxx")],
    b'"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx': [("aaa", "b\nbb", "ccc"), ("zzz", "yyy", "xxx")],
    b'"aaa","b""bb","ccc"\r\nzzz,yyy,xxx': [("aaa", 'b"bb', "ccc"), ("zzz", "yyy", "xxx")],
}


@pytest.mark.parametrize("written", RFC_4180)
def test_the_examples_of_rfc_4180(tmp_path, written):
    file = tmp_path / "a.csv"
    file.write_bytes(written)
    how, _, _ = read(file)
    assert how.separator == ","
    assert cells(file, replace(how, headed=False)) == RFC_4180[written]


@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
def test_the_separator_is_guessed_though_others_stand_in_the_words(tmp_path, separator):
    file = tmp_path / "a.csv"
    with file.open("w", newline="", encoding="utf-8") as opened:
        writer = csv.writer(opened, delimiter=separator)
        writer.writerow(["Date", "Words", "Mood"])
        writer.writerows([f"2026-06-{day:02d}", "Tuned, retuned; a fork | and\ttea", "7,5"] for day in range(1, 31))
    how, names, rows = read(file)
    assert (how.separator, names, len(rows)) == (separator, ("Date", "Words", "Mood"), 30)
    assert rows[4].cells == ("2026-06-05", "Tuned, retuned; a fork | and\ttea", "7,5")


WORDS = {
    "utf-8": "Łódź, Žilina, 東京", "utf-8-sig": "Žilina", "utf-16": "東京の夜", "utf-16-le": "Lübeck am Wasser, mit Tee",
    "cp1252": "Den Flügel gestimmt, “leise” – und Tee mit der Küsterin in Lübeck",
    "cp1251": "Настроил рояль в церкви, потом пили чай и долго гуляли у воды, было тихо",
}  # fmt: skip


@pytest.mark.parametrize("encoding", WORDS)
def test_the_encoding_is_guessed(tmp_path, encoding):
    file = tmp_path / "a.csv"
    file.write_bytes(("Date;Words\r\n" + "".join(f"2026-06-0{day};{WORDS[encoding]}\r\n" for day in range(1, 9))).encode(encoding))
    assert {row[1] for row in cells(file)} == {WORDS[encoding]}


def test_utf_8_is_known_however_late_the_first_letter_that_is_not_ascii(tmp_path):
    file = tmp_path / "a.txt"
    file.write_bytes(b"a" * 3_000_000 + "é".encode())
    assert encoding_of(file) == "utf-8"
    file.write_bytes(b"a" * 3_000_000 + "é".encode("cp1252"))
    assert encoding_of(file) == "cp1252"


def test_a_row_goes_by_the_line_it_begins_on(tmp_path):
    file = tmp_path / "a.csv"
    file.write_text('Date,Words\n2026-06-01,"one\ntwo\nthree"\n\n2026-06-02,four\n')
    assert [row.number for row in read(file)[2]] == [2, 6]


def table():
    return pandas.DataFrame({
        "Date": pandas.to_datetime(["2026-06-03 00:00", "2026-06-04 00:00", "2026-06-05 23:15"]),
        "Words": ["Tuned in Lübeck", "Two\nrows", "   "],
        "Mood": [7.5, 8, None],
        "Walked": [True, False, True],
    })  # fmt: skip


@pytest.mark.parametrize(("ending", "engine"), [("xlsx", "openpyxl"), ("ods", "odf")])
def test_spreadsheets_that_pandas_wrote(tmp_path, ending, engine):
    file = tmp_path / f"a.{ending}"
    table().to_excel(file, index=False, engine=engine, sheet_name="Nights")
    how, names, rows = read(file)
    assert (how.form, how.sheets, names) == (ending, ("Nights",), ("Date", "Words", "Mood", "Walked"))
    assert [row.cells for row in rows] == [
        ("2026-06-03", "Tuned in Lübeck", "7.5", "yes"), ("2026-06-04", "Two\nrows", "8", "no"), ("2026-06-05 23:15:00", "", "", "yes"),
    ]  # fmt: skip
    assert [row.number for row in rows] == [2, 3, 4]


def test_csv_that_pandas_wrote(tmp_path):
    file = tmp_path / "a.csv"
    table().to_csv(file, index=False)
    assert cells(file)[1] == ("2026-06-04 00:00:00", "Two\nrows", "8.0", "False")


def test_the_sheet_that_is_chosen_is_read_and_hidden_ones_are_not_offered(tmp_path):
    book = openpyxl.Workbook()
    book.active.title = "First"
    book.active.append(["Date", "Words"])
    second = book.create_sheet("Second")
    second.append(["Date", "Words"])
    second.append([datetime(2026, 6, 3), "There"])
    book.create_sheet("Hidden").sheet_state = "hidden"
    file = tmp_path / "a.xlsx"
    book.save(file)
    how, _, rows = read(file)
    assert (how.sheets, rows) == (("First", "Second"), [])
    assert cells(file, replace(how, sheet="Second")) == [("2026-06-03", "There")]


def test_dates_and_lengths_of_time_in_cells(tmp_path):
    book = openpyxl.Workbook()
    book.active.append([date(2026, 6, 3), time(7, 30), timedelta(hours=31, minutes=5), 12.0, 0.25, "07"])
    file = tmp_path / "a.xlsx"
    book.save(file)
    assert next(workbook.rows(file, How("xlsx"))).cells == ("2026-06-03", "07:30", "31:05", "12", "0.25", "07")


LISTS = {
    '[{"date": "2026-06-03", "text": "One"}, {"text": "Two", "date": "2026-06-04"}]': [("2026-06-03", "One"), ("2026-06-04", "Two")],
    '{"nights": [{"date": "2026-06-03", "place": {"name": "Riga", "far": 1.50}}]}': [("2026-06-03", "Riga", "1.50")],
    '[["2026-06-03", "One", true], ["2026-06-04", null]]': [("2026-06-03", "One", "yes"), ("2026-06-04",)],
    '["One", "Two"]': [("One",), ("Two",)],
    '[{"date": "2026-06-03", "tags": ["a", "b"], "n": 10000000000000000000001}]': [("2026-06-03", "a, b", "10000000000000000000001")],
}  # fmt: skip


@pytest.mark.parametrize("written", LISTS)
def test_lists_in_json(tmp_path, written):
    file = tmp_path / "a.json"
    file.write_text(written)
    assert cells(file) == LISTS[written]


BROKEN = ("[1, 2", "[{]", "{}", "[" * 100_000, '["a" "b"]', "not json", '[{"a": 1}, nonsense]')


@pytest.mark.parametrize("written", BROKEN)
def test_what_is_no_list_is_told(tmp_path, written):
    file = tmp_path / "a.json"
    file.write_text(written)
    with pytest.raises(UnreadableFile, match=r"a\.json.* (is not a list|breaks off)"):
        read(file)


@given(st.lists(st.tuples(st.text(st.characters(exclude_categories=("Cs", "Cc")), max_size=20)), min_size=1, max_size=5))
def test_cells_come_back_as_they_were_written(tmp_path, rows):
    file = tmp_path / "a.csv"
    with file.open("w", newline="", encoding="utf-8") as opened:
        csv.writer(opened).writerows([["name", "other"], *((cell, "x") for (cell,) in rows)])
    assert [row[0] for row in cells(file, How("table", "utf-8", ","))] == [plain(cell) for (cell,) in rows]


def test_the_list_of_words_is_data_not_a_machine_of_json(tmp_path):
    file = tmp_path / "a.json"
    file.write_text(json.dumps([{f"column {n}": n for n in range(1000)}]))
    assert len(read(file)[1]) == 200
