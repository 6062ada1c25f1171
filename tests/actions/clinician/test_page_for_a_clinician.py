"""The page for a clinician gathered from a real file, and the same as a table read by Python's csv."""

import csv
import io
import json
from datetime import date, timedelta
from statistics import median, quantiles

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.actions.clinician import making
from keeper.actions.clinician.chosen import Chosen, offered
from keeper.actions.clinician.contents import page_of
from keeper.actions.trying import beginning
from keeper.actions.trying.beginning import WantedPlan
from keeper.book.clinician import lay_out_page
from keeper.cautions import LABEL, OF_THE_BODY
from keeper.errors import CannotWrite, UnknownThing, UnreadableDate
from keeper.model import Act, Reading, Tracker
from keeper.review.clinician.page import ClinicianPage, ClinicianReading, PatternSaid
from keeper.review.patterns.whole import NO_CAUSE
from keeper.store import trackers
from keeper.study.trend import wilson

FIRST, LAST = date(2026, 8, 1), date(2026, 10, 9)
TONIGHT = date(2026, 11, 14)
NIGHTS = [FIRST + timedelta(n) for n in range(70)]
MOOD = [None if n % 7 == 3 else float(3 + n % 6) for n in range(70)]
SLEEP = [5.5 + n % 4 / 2 for n in range(70)]


def tracker(name: str, form: str = "scale", **other) -> Tracker:
    low, high = (0.0, 10.0) if form == "scale" else (None, None)
    unit = {"hours": "h", "amount": "km"}.get(form, "")
    return Tracker(name, name, form, low, high, unit, "neither", date(2025, 1, 1), **other)


@pytest.fixture
def known(store):
    for one in (tracker("mood"), tracker("sleep", "hours"), tracker("walked", "amount"), tracker("tea", "mark")):
        trackers.add(store, one, Act("Readings"))
    its = [Reading(night, "mood", value) for night, value in zip(NIGHTS, MOOD, strict=True) if value is not None]
    its += [Reading(night, "sleep", value) for night, value in zip(NIGHTS, SLEEP, strict=True)]
    its += [Reading(night, "tea", 1.0) for night in NIGHTS[::5]]
    trackers.note(store, its, Act("Readings"))
    return store


def page(store, *ids: str, first: date = FIRST, last: date = LAST) -> ClinicianPage:
    return page_of(store, Chosen(first, last, ids), TONIGHT)


def table(of: ClinicianPage) -> list[list[str]]:
    return list(csv.reader(io.StringIO(making.table_of(of).decode("utf-8"), newline=""), strict=True))


def test_readings_stand_in_the_persons_order_whatever_the_order_they_were_chosen_in(known):
    one, other = page(known, "tea", "sleep", "mood"), page(known, "mood", "tea", "sleep")
    assert one == other and [each.tracker.name for each in one.readings] == ["mood", "sleep", "tea"]


def test_the_counts_are_those_of_the_standard_library(known):
    mood, tea = page(known, "mood", "tea").readings
    noted = [value for value in MOOD if value is not None]
    low, middle, high = quantiles(noted, n=4, method="inclusive")
    assert (mood.spread.low, mood.spread.middle, mood.spread.high) == (low, middle, high) and middle == median(noted)
    # A mark left empty on a night that was kept is a no.
    assert tea.spread.middle == 14 / 70 and (tea.spread.low, tea.spread.high) == wilson(14, 70)


def test_what_was_not_noted_in_these_nights_is_left_out(known):
    assert [one.tracker.name for one in page(known, "mood", "walked").readings] == ["mood"]
    with pytest.raises(UnknownThing, match="nothing was noted"):
        page(known, "walked")
    with pytest.raises(UnknownThing, match="at least one"):
        page(known)
    with pytest.raises(UnknownThing, match="16 readings have room"):
        page(known, *map(str, range(17)))
    with pytest.raises(UnreadableDate, match="comes before the first"):
        page(known, "mood", first=LAST, last=FIRST)


def test_what_is_offered_was_noted_or_is_a_mark_under_way(known):
    assert [one.name for one in offered(known, FIRST, LAST)] == ["mood", "sleep", "tea"]
    assert [one.name for one in offered(known, FIRST + timedelta(3), FIRST + timedelta(3))] == ["sleep", "tea"]
    assert offered(known, date(2024, 1, 1), date(2024, 2, 1)) == ()


def test_the_cautions_are_those_of_readings(known):
    assert page(known, "sleep").cautions == (LABEL,)
    trackers.change(known, tracker("mood", body=True), Act("Mood"))
    assert page(known, "sleep", "mood").cautions == (OF_THE_BODY,)


def test_what_was_tried_is_told_where_both_are_on_the_page(known):
    beginning.begin(known, WantedPlan("tea", "mood", FIRST, 10, 7), 4, FIRST, agreed=True)
    assert page(known, "mood", "sleep").said == ()
    (said,) = page(known, "mood", "tea").said
    assert said.sentence.startswith("Tried, by lot: “tea”, and mood: 10 blocks of 7 nights, ") and "drawn to be with “tea”" in said.sentence
    assert "randomization test, p" in said.small and "all count as drawn" in said.small
    assert "Edgington & Onghena 2007" in page(known, "mood", "tea").method
    assert page_of(known, Chosen(FIRST, LAST, ("mood", "tea"), patterns=False), TONIGHT).said == ()
    # While it goes on nothing of it is told.
    assert page_of(known, Chosen(FIRST, LAST, ("mood", "tea")), LAST).said == ()


def test_patterns_of_chosen_readings_alone_are_told(known, monkeypatch):
    from types import SimpleNamespace as Some

    def shown(first: str, second: str) -> Some:
        return Some(told=Some(first=first, second=second), sentence=f"{first} and {second}.", small="From 70 nights.")

    pairs = (("reading:mood", "reading:sleep"), ("reading:mood", "season"), ("reading:mood", "reading:tea"), ("theme:1", "reading:mood"))
    view = Some(asked=True, told=[shown(*pair) for pair in pairs])
    monkeypatch.setattr("keeper.actions.clinician.contents.patterns_view", lambda store: view)
    found = page(known, "mood", "sleep")
    assert found.said == (
        PatternSaid("reading:mood and reading:sleep.", "From 70 nights."), PatternSaid("reading:mood and season.", "From 70 nights."),
    )  # fmt: skip
    assert "Benjamini & Hochberg 1995" in found.method and found.none == ""
    assert found.cautions == (NO_CAUSE, LABEL)
    only = page(known, "sleep")
    assert only.cautions == (LABEL,)
    assert only.said == () and only.none == "Nothing that was asked of these readings stands out from chance."


def test_of_many_patterns_so_many_are_told_as_have_room(known, monkeypatch):
    from types import SimpleNamespace as Some

    told = [Some(told=Some(first="reading:mood", second="reading:sleep"), sentence=f"{n}.", small="") for n in range(20)]
    monkeypatch.setattr("keeper.actions.clinician.contents.patterns_view", lambda store: Some(asked=True, told=told))
    said = [one.sentence for one in page(known, "mood", "sleep").said]
    assert said == [f"{n}." for n in range(7)] + ["13 more have no room here."]


def test_where_nothing_was_asked_nothing_is_said_of_it(known):
    found = page(known, "mood")
    assert found.none == "" and "asked" not in found.method


# as a table


def test_the_table_has_a_row_a_night_then_the_counts_then_the_words(known):
    heads, *rows = table(page(known, "mood", "sleep", "tea"))
    assert heads == ["row", "night", "mood", "sleep (hours)", "tea"]
    assert {len(row) for row in rows} == {5}
    nights = [row for row in rows if row[0] == "night"]
    assert [row[1] for row in nights] == [night.isoformat() for night in NIGHTS]
    assert [None if row[2] == "" else float(row[2]) for row in nights] == MOOD
    assert [float(row[3]) for row in nights] == SLEEP
    assert [row[4] for row in nights] == ["no" if n % 5 else "yes" for n in range(70)]
    assert [row[0] for row in rows[70:]] == [
        "nights noted", "nights with yes", "share of yes", "share from", "share to", "median", "lower quartile", "upper quartile",
        "lowest", "highest", "how", "caution",
    ]  # fmt: skip
    assert rows[70][2:] == ["60", "70", "70"] and rows[71][2:] == ["", "", "14"] and rows[-1][2] == LABEL


def test_the_table_is_rfc_4180_to_the_byte(known):
    # RFC 4180, section 2: rows end with CRLF, all have as many fields, a field with a comma or a quote stands in quotes.
    text = making.table_of(page(known, "mood")).decode("ascii")
    assert text.endswith("\r\n") and "\n" not in text.replace("\r\n", "") and not text.startswith("\ufeff")
    assert '"A record, not a diagnosis.' in text


@pytest.mark.parametrize("name", ["=1+1", "+mood", "-mood", "@sum", '=HYPERLINK("x")', "\uff1dcmd"])
def test_a_name_like_a_formula_is_written_as_text(store, name):
    trackers.add(store, tracker(name), Act("Readings"))
    trackers.note(store, [Reading(FIRST, name, 5.0)], Act("Readings"))
    heads = table(page(store, name))[0]
    assert heads[2] == f"'{name}"


def test_numbers_below_nought_stay_numbers():
    row = making.table_of(made([tracker("warmth", "amount")], [[-3.5]])).decode().split("\r\n")[1]
    assert row.endswith(",-3.5")


def made(its: list[Tracker], values: list[list[float | None]], said: tuple[PatternSaid, ...] = ()) -> ClinicianPage:
    last = FIRST + timedelta(len(values[0]) - 1)
    readings = tuple(ClinicianReading(one, tuple(its_values), 0.0, 10.0, "line") for one, its_values in zip(its, values, strict=True))
    return ClinicianPage(FIRST, last, readings, said, "", "Noted.", ("Care.",))


words = st.text(st.characters(exclude_categories=("Cs",)), min_size=1, max_size=12)


@given(st.lists(words, min_size=1, max_size=4, unique=True), st.lists(st.one_of(st.none(), st.integers(-50, 50)), min_size=1, max_size=9), words)
def test_whatever_the_names_the_table_reads_back_the_same(names, values, sentence):
    values = [None if value is None else value / 4 for value in values]
    of = made([tracker(name) for name in names], [[0.0, *values]] * len(names), (PatternSaid(sentence),))
    heads, *rows = table(of)
    assert len({len(row) for row in (heads, *rows)}) == 1
    assert [head.removeprefix("'") for head in heads[2:]] == [name.removeprefix("'") for name in names]
    assert [[None if cell == "" else float(cell) for cell in row[2:]] for row in rows if row[0] == "night"] == [
        [value] * len(names) for value in [0.0, *values]
    ]


@given(st.permutations(["mood", "sleep", "tea"]), st.lists(st.integers(0, 10), min_size=2, max_size=6))
def test_the_order_of_columns_changes_no_column(order, values):
    of = made([tracker(name) for name in order], [[float(value + at) for value in values] for at in map(["mood", "sleep", "tea"].index, order)])
    heads, *rows = table(of)
    columns = {head: [row[at] for row in rows if row[0] not in ("how", "caution")] for at, head in enumerate(heads)}
    assert columns["mood"][: len(values)] == [str(value) for value in values]
    assert columns["sleep"][len(values) :][0] == str(len(values))
    assert set(columns) == {"row", "night", "mood", "sleep", "tea"}


# put into files


def test_a_file_that_cannot_be_written_leaves_what_was_there(known, tmp_path):
    target = tmp_path / "missing" / "page.csv"
    with pytest.raises(CannotWrite, match="The table cannot be put into"):
        making.make_table(known, Chosen(FIRST, LAST, ("mood",)), target, TONIGHT)
    there = tmp_path / "there.csv"
    there.write_text("mine")
    with pytest.raises(UnknownThing):
        making.make_table(known, Chosen(FIRST, LAST, ("walked",)), there, TONIGHT)
    assert there.read_text() == "mine"
    assert making.make_table(known, Chosen(FIRST, LAST, ("mood",)), there, TONIGHT) == 70
    assert there.read_bytes() == making.table_of(page(known, "mood"))


@pytest.mark.parametrize(("before", "kinds"), [(0, {"line", "mark"}), (600, {"line"})])
def test_where_a_point_is_many_nights_everything_is_drawn_as_a_line(known, tmp_path, before, kinds):
    its = page_of(known, Chosen(FIRST - timedelta(before), LAST, ("mood", "tea")), TONIGHT)
    lay_out_page(its, tmp_path)
    strips = json.loads((tmp_path / "clinician.json").read_text("utf-8"))["strips"]
    assert {one["kind"] for one in strips} == kinds and len(strips) == 2
