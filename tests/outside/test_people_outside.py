"""Cards, birthdays in calendars, and days of the year, against RFC 6350, RFC 5545, vobject, dateutil and Qt's calendars."""

from datetime import UTC, date, datetime

import pytest
from dateutil.rrule import rrulestr
from PySide6.QtCore import QCalendar, QDate
from waiting.when_used import WhenUsed

from keeper.dates.calendars import converted
from keeper.dates.yearly import coming, falls
from keeper.errors import UnreadableDate
from keeper.exchange.people import birthdays, vcards
from keeper.exchange.people.card import Card, CardDay
from keeper.exchange.people.day_values import NotADay, day_from

vobject = WhenUsed("vobject")
icalendar = WhenUsed("icalendar")

# RFC 6350, section 8, the author's card (as published, without its key).
AUTHOR = """BEGIN:VCARD
VERSION:4.0
FN:Simon Perreault
N:Perreault;Simon;;;ing. jr,M.Sc.
BDAY:--0203
ANNIVERSARY:20090808T1430-0500
GENDER:M
LANG;PREF=1:fr
LANG;PREF=2:en
ORG;TYPE=work:Viagenie
ADR;TYPE=work:;Suite D2-630;2875 Laurier;
 Quebec;QC;G1V 2M2;Canada
TEL;VALUE=uri;TYPE="work,voice";PREF=1:tel:+1-418-656-9254;ext=102
TEL;VALUE=uri;TYPE="work,cell,voice,video,text":tel:+1-418-262-6501
EMAIL;TYPE=work:simon.perreault@viagenie.ca
GEO;TYPE=work:geo:46.772673,-71.282945
TZ:-0500
URL;TYPE=home:http://nomis80.org
END:VCARD
"""


def read(text: str) -> list[Card]:
    return list(vcards.read(text.splitlines(keepends=True)))


def test_the_card_of_the_rfcs_section_8_is_read():
    (card,) = read(AUTHOR)
    assert card.names == ("Simon Perreault",) and card.given == "Simon" and card.troubles == ()
    assert card.days == (CardDay("birthday", 2, 3), CardDay("Anniversary", 8, 8, 2009))


@pytest.mark.parametrize(("value", "day"), [
    # RFC 6350, 6.2.5 and 6.2.6.
    ("19960415", (4, 15, 1996)), ("--0415", (4, 15, None)), ("19531015T231000Z", (10, 15, 1953)), ("20090808T1430-0500", (8, 8, 2009)),
    # RFC 2426 (version 3.0), 3.1.5.
    ("1996-04-15", (4, 15, 1996)), ("1953-10-15T23:10:00Z", (10, 15, 1953)), ("1987-09-27T08:30:00-06:00", (9, 27, 1987)),
    # RFC 6350, 4.3.4: date-and-or-time.
    ("19961022T140000", (10, 22, 1996)), ("--1022T1400", (10, 22, None)), ("19850412", (4, 12, 1985)), ("--0412", (4, 12, None)),
])  # fmt: skip
def test_days_as_the_rfcs_spell_them(value, day):
    assert day_from(value) == day


@pytest.mark.parametrize("value", ["1985-04", "1985", "--04", "---12", "---22T14", "T102200", "T10", "circa 1800", "20230229", "--0230", ""])
def test_what_the_rfcs_allow_but_tells_no_day_is_told_as_such(value):
    with pytest.raises(NotADay):
        day_from(value)


def test_a_birthday_told_in_words_is_no_day():
    # RFC 6350, 6.2.5.
    (card,) = read("BEGIN:VCARD\nVERSION:4.0\nFN:Anna\nBDAY;VALUE=text:circa 1800\nEND:VCARD\n")
    assert card.days == () and card.troubles == ("its birthday is told in words, \u201ccirca 1800\u201d",)


def test_nicknames_and_notes_of_the_rfc():
    # RFC 6350, 6.2.3 and 6.7.2.
    (card,) = read(
        "BEGIN:VCARD\nVERSION:4.0\nFN:Robert\nNICKNAME:Jim,Jimmie\nNICKNAME;TYPE=work:Boss\n"
        "NOTE:This fax number is operational 0800 to 1715 \n EST\\, Mon-Fri.\nEND:VCARD\n"
    )
    assert card.names == ("Robert", "Jim", "Jimmie", "Boss")
    assert card.about == "This fax number is operational 0800 to 1715 EST, Mon-Fri."


SEVERAL = (
    Card(("Henning Vo\u00df", "Henni", "\u738b\u82b3"), (CardDay("birthday", 2, 29, 1960, True), CardDay("Anniversary", 8, 8, 2009)), "Tunes, listens;\nwaits"),
    Card(("\u0641\u0627\u0637\u0645\u0629",), (CardDay("birthday", 2, 3), CardDay("Name day", 7, 26)), uid="urn:uuid:01a22363-0b29-7dde-868a-ca681c5f596a"),
)  # fmt: skip


def test_what_is_given_is_read_by_vobject():
    found = list(vobject.readComponents(vcards.written(SEVERAL).decode()))
    assert [one.fn.value for one in found] == ["Henning Vo\u00df", "\u0641\u0627\u0637\u0645\u0629"]
    assert [one.bday.value for one in found] == ["19600229", "--0203"] and [one.version.value for one in found] == ["4.0", "4.0"]
    assert found[0].note.value == "Tunes, listens;\nwaits" and found[0].anniversary.value == "20090808"
    assert found[1].uid.value == "urn:uuid:01a22363-0b29-7dde-868a-ca681c5f596a"


def test_what_vobject_writes_in_version_3_is_read():
    card = vobject.vCard()
    card.add("fn").value = "\u00c5sa Lind"
    card.add("n").value = vobject.vcard.Name(family="Lind", given="\u00c5sa")
    card.add("bday").value = "1971-12-31"
    card.add("note").value = "Long " * 60 + "\nend"
    (found,) = read(card.serialize())
    assert found.names == ("\u00c5sa Lind",) and found.given == "\u00c5sa" and found.days == (CardDay("birthday", 12, 31, 1971),)
    assert found.about == ("Long " * 60 + "\nend")


def test_no_row_is_longer_than_75_octets():
    # RFC 6350, 3.2.
    long = Card(("\u00e9" * 200,), (CardDay("birthday", 1, 1),), "\u738b" * 400)
    assert all(len(row) <= 75 for row in vcards.written([long]).split(b"\r\n"))


def test_events_fall_where_dateutil_says_by_their_rule():
    now = datetime(2026, 11, 14, 20, tzinfo=UTC)
    made = icalendar.Calendar.from_ical(birthdays.written(SEVERAL, now, "1"))
    events = {str(one["SUMMARY"]): one for one in made.walk("VEVENT")}
    for name, after in (("Birthday of Henning Vo\u00df", True),):
        rule = rrulestr(events[name]["RRULE"].to_ical().decode(), dtstart=datetime(1960, 2, 29))
        found = [one.date() for one in rule.between(datetime(1995, 1, 1), datetime(2105, 1, 1))]
        assert found == [falls(2, 29, after, year) for year in range(1995, 2105)]
    other = birthdays.written([Card(("Anna",), (CardDay("birthday", 2, 29, 1960),))], now, "1")
    (event,) = icalendar.Calendar.from_ical(other).walk("VEVENT")
    rule = rrulestr(event["RRULE"].to_ical().decode(), dtstart=datetime(1960, 2, 29))
    assert [one.date() for one in rule.between(datetime(1995, 1, 1), datetime(2105, 1, 1))] == [falls(2, 29, False, y) for y in range(1995, 2105)]


def test_a_29_february_falls_on_a_day_of_every_year_and_is_the_next():
    for year in range(1890, 2110):
        # The calendar's own word for it (Python's datetime, proleptic Gregorian).
        leap = (date(year, 3, 1) - date(year, 2, 28)).days == 2
        assert falls(2, 29, False, year) == (date(year, 2, 29) if leap else date(year, 2, 28))
        assert falls(2, 29, True, year) == (date(year, 2, 29) if leap else date(year, 3, 1))
    assert coming(2, 29, False, date(2026, 3, 1)) == date(2027, 2, 28) and coming(2, 29, True, date(2026, 3, 1)) == date(2026, 3, 1)
    assert coming(2, 29, False, date(2027, 12, 31)) == date(2028, 2, 29)


@pytest.mark.parametrize(("calendar", "system", "years"), [
    ("Persian", QCalendar.System.Jalali, range(1310, 1410, 49)), ("Julian", QCalendar.System.Julian, range(1850, 2030, 11)),
    ("Islamic, civil", QCalendar.System.IslamicCivil, range(1320, 1450, 9)),
])  # fmt: skip
def test_other_calendars_are_turned_as_qt_turns_them(calendar, system, years):
    its = QCalendar(system)
    for year in years:
        # Where the lengths of months change; a Persian day is reckoned from the sun, which takes long.
        for month in (1, 6, 7, 12) if calendar == "Persian" else range(1, 13):
            for day in (1, its.daysInMonth(month, year)):
                there = QDate(year, month, day, its)
                assert converted(f"{day}.{month}.{year}", calendar) == date(there.year(), there.month(), there.day())
            with pytest.raises(UnreadableDate):
                converted(f"{its.daysInMonth(month, year) + 1}.{month}.{year}", calendar)


def test_worked_examples_of_other_calendars():
    # Reingold and Dershowitz, Calendrical Calculations, table of sample dates: 19 February 1992 (from memory).
    assert converted("15 Adar 5752", "Hebrew") == date(1992, 2, 19)
    assert converted("6 2 1992", "Julian") == date(1992, 2, 19)
    assert converted("30 Bahman 1370", "Persian") == date(1992, 2, 19)
    # The Coptic new year, 1 Thout 1708, by the almanacs: 12 September 1991, as the next Julian year is a leap year (from memory).
    assert converted("1 Thout 1708", "Coptic") == date(1991, 9, 12)
