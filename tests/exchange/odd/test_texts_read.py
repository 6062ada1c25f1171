"""Texts with dates in many spellings, calendars, folders of texts."""

from datetime import date

import pytest
from odd_files import TONIGHT, cells, read

from keeper.dates.in_files import DatesInFile, order_of

JUNE = "2026-06-03"

MARKS = {
    "2026-06-03\nwords": JUNE, "2026-06-03: words": JUNE, "## 2026-06-03\n\nwords": JUNE, "3 June 2026\nwords": JUNE,
    "**Wednesday, June 3rd, 2026**\nwords": JUNE, "- 3.6.2026 words": JUNE, "# Mittwoch, 3. Juni 2026\nwords": JUNE,
    "3 juin 2026 \u2014 words": JUNE, "3 de junio de 2026: words": JUNE, "2026-06-03 22:15 words": JUNE,
    "2026-06-04 01:15 words": JUNE, "2026\u5e746\u67083\u65e5\nwords": JUNE, "# 2026\n## 3 June\nwords": JUNE,
    "# 2026\n## June\n### 3\nwords": JUNE, "# June 2026\n## 3.\nwords": JUNE, "---\ntitle: x\ndate: 2026-06-03\n---\nwords": JUNE,
    "[2026-06-03] words": JUNE, "03/06/2026\twords": JUNE, "3 \u0438\u044e\u043d\u044f 2026\nwords": JUNE,
}  # fmt: skip


@pytest.mark.parametrize("written", MARKS)
def test_a_date_is_understood_wherever_and_however_it_stands(tmp_path, written):
    file = tmp_path / "a.md"
    file.write_text(written, "utf-8")
    assert cells(file) == [(MARKS[written], "words")]


def test_numbers_among_words_begin_no_night(tmp_path):
    file = tmp_path / "a.txt"
    file.write_text("2026-06-03\nIn 1998 we were 12.\n3 pianos, 7 to 9.\n12 strings: all new\n7.30 home\n2026 was far.\n")
    assert cells(file) == [(JUNE, "In 1998 we were 12.\n3 pianos, 7 to 9.\n12 strings: all new\n7.30 home\n2026 was far.")]


def test_words_before_any_date_are_told_with_their_line(tmp_path):
    file = tmp_path / "notes.txt"
    file.write_text("\nWho knows when.\n2026-06-03\nwords\n")
    _, _, rows = read(file)
    assert (rows[0].number, rows[0].cells) == (2, ()) and "no date stands before it" in rows[0].trouble
    assert rows[1].cells == (JUNE, "words")


def test_a_day_that_there_is_not_is_told_and_goes_to_no_other_night(tmp_path):
    file = tmp_path / "a.txt"
    file.write_text("30.11.2018 Good.\n31.11.2018 No such day.\nmore of it\n1.12.2018 After.\n")
    _, _, rows = read(file)
    assert [row.cells for row in rows] == [("2018-11-30", "Good."), (), ("2018-12-01", "After.")]
    assert rows[1].number == 2 and rows[1].trouble == "\u201c31.11.2018\u201d is not a date: \u201c31.11.2018 No such day. more of it\u201d"


@pytest.mark.parametrize("day", ["February 30, 2018", "30 February 2018", "31. November 2018", "29 f\u00e9vrier 2018", "31 de junio de 2018"])
def test_nor_does_one_that_is_spelt(tmp_path, day):
    file = tmp_path / "a.txt"
    file.write_text(f"1 January 2018: Good.\n{day}: No such day.\nmore of it\n1 December 2018: After.\n", "utf-8")
    _, _, rows = read(file)
    assert [row.cells for row in rows] == [("2018-01-01", "Good."), (), ("2018-12-01", "After.")]
    assert rows[1].trouble == f"\u201c{day}\u201d is not a date: \u201c{day}: No such day. more of it\u201d"


NAMES = {"2026-06-03.txt": JUNE, "20260603 walk.md": JUNE, "3 June 2026.txt": JUNE, "notes_2026.06.03.txt": JUNE}


@pytest.mark.parametrize("name", NAMES)
def test_a_folder_of_texts_goes_by_the_names_of_its_files(tmp_path, name):
    (tmp_path / "deeper").mkdir()
    (tmp_path / "deeper" / name).write_text("words")
    (tmp_path / "picture.jpg").write_text("no text")
    _, _, rows = read(tmp_path)
    assert [(row.cells, row.file) for row in rows] == [((NAMES[name], "words"), f"deeper/{name}")]


def test_links_are_not_followed(tmp_path):
    outside = tmp_path / "outside"
    outside.mkdir()
    (outside / "2026-06-03.txt").write_text("secret")
    inside = tmp_path / "inside"
    inside.mkdir()
    (inside / "2026-06-04.txt").symlink_to(outside / "2026-06-03.txt")
    (inside / "away").symlink_to(outside)
    assert cells(inside) == []


# RFC 5545: section 3.6.3 (VJOURNAL), 3.6.1 (VEVENT, an anniversary), 3.1 (folding), 3.3.11 (escapes).
CALENDAR = """BEGIN:VCALENDAR\r
VERSION:2.0\r
BEGIN:VJOURNAL\r
UID:19970901T130000Z-123405@example.com\r
DTSTAMP:19970901T130000Z\r
DTSTART;VALUE=DATE:19970317\r
SUMMARY:Staff meeting minutes\r
DESCRIPTION:1. Staff meeting: Participants include Joe\\,\r
  Lisa\\, and Bob. Aurora project plans were reviewed.\r
  There is currently no budget reserves for this project.\r
  Lisa will escalate. Next meeting on Tuesday.\\n\r
 2. Telephone Conference: ABC Corp. sales representative\r
  called to discuss new printer. Promised to get us a demo by\r
  Friday.\\n3. Henry Miller (Handsoff Insurance): Car was\r
  totaled by tree. Is looking into a loaner car. 555-2323\r
  (tel).\r
END:VJOURNAL\r
BEGIN:VEVENT\r
DTSTART;TZID=America/New_York:19970903T163000\r
SUMMARY:Annual Employee Review\r
LOCATION:Conference Room - F123\\, Bldg. 002\r
BEGIN:VALARM\r
DESCRIPTION:Not this\r
END:VALARM\r
END:VEVENT\r
BEGIN:VTODO\r
SUMMARY:Not this either\r
END:VTODO\r
END:VCALENDAR\r
"""


def test_the_examples_of_rfc_5545(tmp_path):
    file = tmp_path / "a.ics"
    file.write_text(CALENDAR, newline="")
    journal, event = cells(file)
    assert journal[:2] == ("1997-03-17", "Staff meeting minutes")
    assert journal[2].startswith("1. Staff meeting: Participants include Joe, Lisa, and Bob. Aurora project")
    assert journal[2].endswith("555-2323 (tel).") and journal[2].count("\n") == 2
    assert event == ("1997-09-03 16:30:00", "Annual Employee Review", "", "Conference Room - F123, Bldg. 002")


def test_a_calendar_that_icalendar_wrote(tmp_path):
    import icalendar

    calendar, entry = icalendar.Calendar(), icalendar.Journal()
    entry.add("dtstart", date(2026, 6, 3))
    entry.add("description", "Tuned; \u201cquiet\u201d, then tea \u2014 and a long, long walk along the water in the evening light of Lübeck\nand home")
    calendar.add_component(entry)
    file = tmp_path / "a.ics"
    file.write_bytes(calendar.to_ical())
    assert cells(file) == [(JUNE, "", str(entry["description"]))]


ORDERS = {("03/06/2026", "25/12/2026"): ("dmy", True), ("03/06/2026", "12/25/2026"): ("mdy", True), ("03/06/2026",): ("dmy", False),
          ("2026-06-03",): ("dmy", True), ("86/06/03", "86/12/25"): ("ymd", True)}  # fmt: skip


@pytest.mark.parametrize("spelt", ORDERS)
def test_the_order_of_a_whole_column(spelt):
    assert order_of(spelt, "dmy") == ORDERS[spelt]


NIGHTS = {"2026-06-03T23:15:00+02:00": JUNE, "2026-06-04T01:00": JUNE, "2026-06-03 00:00:00": JUNE, "3.6.26": JUNE, "20260603": JUNE,
          "2026-02-30": None, "yesterday": None, "3 June": None, "12": None, "": None, "0000-00-00": None, "9999-01-01": None,
          "3 June 2026 at 11:20 pm": JUNE, "June 2026": None}  # fmt: skip


@pytest.mark.parametrize("spelt", NIGHTS)
def test_one_date_of_a_file(spelt):
    night = DatesInFile("dmy", TONIGHT).night(spelt)
    assert (night and night.isoformat()) == NIGHTS[spelt]
