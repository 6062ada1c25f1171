"""What is typed, read as a person would: weekdays, seasons, dates, places and people."""

from datetime import date

import pytest

from keeper.actions import finding, people, writing
from keeper.actions.finding import Sought
from keeper.actions.finding.known import known
from keeper.actions.finding.reading_words import read
from keeper.dates.spelling import Spelling

TONIGHT = date(2026, 11, 14)
GERMAN = Spelling(
    "dmy", months=(("Januar",), ("Februar",), ("März",), ("April",), ("Mai",), ("Juni",), ("Juli",), ("August",), ("September",),
                   ("Oktober",), ("November",), ("Dezember",)),
    weekdays=(("Montag", "Mo"), ("Dienstag",), ("Mittwoch",), ("Donnerstag",), ("Freitag",), ("Samstag",), ("Sonntag", "So")), language="de",
)  # fmt: skip


@pytest.fixture
def kept(store, clock):
    """Two Sundays and a Monday in Turku, a Sunday in Visby, and who is named there."""
    for night, place, text in (
        (date(2024, 6, 2), "Turku", "Pauli rowed us over, and the ferry waved."),
        (date(2025, 1, 5), "Turku", "Ice in the harbour."),
        (date(2025, 1, 6), "Turku", "Felt and brass."),
        (date(2025, 6, 1), "Visby", "The roses began, said Mrs Öberg."),
    ):
        writing.write_line(store, night, "memory", text, clock)
        writing.set_place(store, night, place, clock)
    people.add(store, "Pauli")
    people.add(store, "Mrs Öberg, Öberg")
    return store


@pytest.mark.parametrize(
    ("typed", "told", "nights"),
    [
        ("a sunday in Turku", "in Turku, on Sundays", ["2025-01-05", "2024-06-02"]),
        ("sundays, turku", "in Turku, on Sundays", ["2025-01-05", "2024-06-02"]),
        ("in winter", "in winter", ["2025-01-06", "2025-01-05"]),
        ("june in turku or visby", "in Turku or Visby, in June", ["2025-06-01", "2024-06-02"]),
        ("turku 2024", "in Turku, in 2024", ["2024-06-02"]),
        ("ferry in summer with pauli", "\u201cferry\u201d naming Pauli, in summer", ["2024-06-02"]),
        ("mrs oberg", "naming Mrs Öberg", ["2025-06-01"]),
        ("january 2025", "in January 2025", ["2025-01-06", "2025-01-05"]),
        ("on 5.1.2025", "on 5 January 2025", ["2025-01-05"]),
        ("harbour last winter", "\u201charbour\u201d from December 2025, until February 2026", []),
    ],
)  # fmt: skip
def test_it_is_told_as_understood_and_its_lines_are_listed(kept, typed, told, nights):
    meant = read(known(kept), typed, TONIGHT)
    assert meant.told == told
    found = finding.with_every_word(kept, meant.narrowing(Sought(typed)))
    assert [one.line.night.isoformat() for one in found] == nights


@pytest.mark.parametrize("typed", ["sun on the quay", "12 herring", "3 4", "may we", '"a sunday in Turku"', "", "  ", "the last of it", "ferry"])
def test_words_that_are_no_such_thing_stay_words(kept, typed):
    meant = read(known(kept), typed, TONIGHT)
    assert meant is None or (typed, meant.told) == ("may we", "\u201cwe\u201d in May")


@pytest.mark.parametrize(
    ("typed", "told"),
    [("ein Sonntag in Turku", "in Turku, on Sundays"), ("sonntags im Winter", "on Sundays, in winter"), ("Juni in Turku", "in Turku, in June"),
     ("Herbst", "in autumn")],
)  # fmt: skip
def test_it_is_read_in_the_language_of_the_date_field(kept, typed, told):
    assert read(known(kept), typed, TONIGHT, GERMAN).told == told


def test_winter_is_in_july_where_most_places_lie_in_the_south(kept):
    from dataclasses import replace

    south = replace(known(kept), south=True)
    assert read(south, "winter", TONIGHT).phrases[0].value == (6, 7, 8)


def test_what_was_read_narrows_beside_what_is_narrowed_already(kept):
    told = finding.otherwise_read(kept, Sought("a sunday in turku", first=date(2025, 1, 1)), TONIGHT)
    assert (told.told, told.lines, [one.line.text for one in told.found]) == ("in Turku, on Sundays", 1, ["Ice in the harbour."])
    assert finding.otherwise_read(kept, Sought("a monday in visby"), TONIGHT) is None


def test_nights_understood_stay_within_those_asked_for(kept):
    meant = read(known(kept), "january 2025", TONIGHT)
    narrower = meant.narrowing(Sought("", first=date(2025, 1, 6)))
    assert (narrower.first, narrower.last) == (date(2025, 1, 6), date(2025, 1, 31))
    assert not finding.with_every_word(kept, meant.narrowing(Sought("", last=date(2024, 12, 31))))
