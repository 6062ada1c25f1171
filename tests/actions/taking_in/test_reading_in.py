"""A file read in: weighed before, one act, nothing twice, other words kept beside one another, columns remembered."""

import csv
from dataclasses import replace
from datetime import date
from itertools import islice

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from keeper.actions import kinds, reading, writing
from keeper.actions.finding import Sought, find
from keeper.actions.history import undoing
from keeper.actions.opening import open_or_begin
from keeper.actions.places import known as places
from keeper.actions.readings import changing
from keeper.actions.readings import trackers as its
from keeper.actions.taking_in import keeping, looking, told, weighing
from keeper.actions.taking_in.meant import ASIDE, JOIN, REPLACE
from keeper.errors import UnreadableFile
from keeper.exchange import odd_files
from keeper.model import Tracker

JUNE_3, JUNE_4 = date(2026, 6, 3), date(2026, 6, 4)


@pytest.fixture
def file(tmp_path):
    """Writes a file, and gives its path."""

    def write(text: str, name: str = "nights.csv"):
        path = tmp_path / name
        path.write_text(text, "utf-8")
        return path

    return write


@pytest.fixture
def read_in(store, clock):
    """Reads a file in as a person does who says what the columns are."""

    def read(path, columns=None, other_words=JOIN, stopped=lambda: False):
        looked = looking.look(store, path, clock)
        meant = replace(looked.meant, columns=columns or looked.meant.columns, other_words=other_words)
        looked = replace(looked, meant=meant)
        weighed = weighing.weigh(store, looked, clock)
        return weighed, keeping.keep(store, looked, weighed, clock, stopped=stopped)

    return read


def texts(store, night) -> dict[str, str]:
    return {line.kind: line.text for line in reading.one_night(store, night).lines}


TABLE = """Date;Memory;Gratitude;Place;Mood;Swam
03.06.2026;Tuned in Lübeck;The tea;Lübeck;7,5;ja
04.06.2026;Walked;;Lübeck;8;nein
"""


@pytest.fixture
def trackers(store):
    mood = Tracker("", "mood", "scale", 0.0, 10.0, "", "higher", JUNE_4, step=0.5)
    return changing.begin(store, mood), changing.begin(store, Tracker("", "swam", "mark", None, None, "", "neither", JUNE_3))


def test_columns_go_to_kinds_places_readings_and_marks(store, file, read_in, trackers):
    weighed, kept = read_in(file(TABLE))
    assert (weighed.lines["new"], weighed.places["new"], weighed.readings["new"], weighed.troubles) == (3, 2, 4, [])
    assert texts(store, JUNE_3) == {"memory": "Tuned in Lübeck", "gratitude": "The tea"}
    assert reading.one_night(store, JUNE_3).place.name == "Lübeck"
    noted = {(one.tracker.name, one.reading.value) for one in its.of_night(store, JUNE_3)}
    assert noted == {("mood", 7.5), ("swam", 1.0)}
    # Mood began a night later, until the file told of an earlier one.
    assert {one.began for one in its.every(store)} == {JUNE_3}
    assert told.brought(kept, JOIN) == "Kept: 3 lines, a place for 2 nights, 4 readings."


def test_what_brings_nothing_says_why(store, file, read_in):
    assert told.encoding_called("utf-8-sig") == told.encoding_called("utf-8") == "UTF-8"
    read_in(file("Date;Memory\n2026-06-03;Once\n"))
    _, kept = read_in(file("Date;Memory\n2026-06-03;Once\n"))
    assert told.brought(kept, JOIN) == "Nothing was added. 1 was there already."
    weighed, kept = read_in(file("Date;Memory\n2026-16-93;Once\n"))
    assert told.would_bring(weighed) == "It has 1 row, and that was not understood."


def test_all_of_it_is_one_act_and_undone_by_one(store, file, read_in, trackers):
    before = [row for table in ("line", "night", "place", "reading") for row in store.rows(f"SELECT * FROM {table}")]
    began = its.every(store)
    _, kept = read_in(file(TABLE))
    assert store.row("SELECT told FROM act WHERE number = ?", (kept.act,)) == ("What “nights.csv” brought",)
    undoing.turn(store, kept.act)
    assert [row for table in ("line", "night", "place", "reading") for row in store.rows(f"SELECT * FROM {table}")] == before
    assert its.every(store) == began
    undoing.redo(store)
    assert texts(store, JUNE_4) == {"memory": "Walked"}


def test_the_same_file_twice_adds_nothing(store, file, read_in, trackers):
    path = file(TABLE)
    read_in(path)
    changes = store.row("SELECT max(seq) FROM change")
    weighed, kept = read_in(path)
    assert not weighed.brings_something and weighed.lines == {"there": 3}
    assert store.row("SELECT max(seq) FROM change") == changes and kept.act is None
    assert "adds nothing" in told.would_bring(weighed)


@pytest.mark.parametrize("how", [JOIN, ASIDE, REPLACE])
def test_both_wordings_are_kept_however_it_is_chosen(store, clock, file, read_in, how):
    writing.write_line(store, JUNE_3, "memory", "What I wrote.", clock)
    path = file("Date,Memory\n2026-06-03,What the file has.\n")
    weighed, _ = read_in(path, other_words=how)
    assert weighed.lines["other"] == 1
    assert told.other(weighed.others[0]) == ("3 June 2026", "What I wrote.", "What the file has.")
    line, earlier = texts(store, JUNE_3)["memory"], {one.text for one in reading.wordings(store, JUNE_3, "memory")}
    wanted = {JOIN: "What I wrote.\nWhat the file has.", ASIDE: "What I wrote.", REPLACE: "What the file has."}
    assert line == wanted[how]
    assert all(any(words in text for text in (line, *earlier)) for words in ("What I wrote.", "What the file has."))
    # And whatever was chosen then, the same file adds nothing now.
    before = store.rows("SELECT text FROM line UNION ALL SELECT text FROM wording ORDER BY 1")
    weighed, _ = read_in(path, other_words=how)
    assert weighed.lines == {"there": 1} and store.rows("SELECT text FROM line UNION ALL SELECT text FROM wording ORDER BY 1") == before


def test_words_that_are_being_typed_are_words_too(store, clock, file, read_in):
    writing.keep_draft(store, JUNE_3, "memory", "Half a sen", clock)
    read_in(file("Date,Memory\n2026-06-03,What the file has.\n"), other_words=REPLACE)
    assert texts(store, JUNE_3) == {"memory": "What the file has."}
    assert "Half a sen" in {one.text for one in reading.wordings(store, JUNE_3, "memory")}


MANY = "Date,Memory\n" + "".join(f"{date.fromordinal(JUNE_3.toordinal() - number)},Night {number}\n" for number in range(4500))


def test_a_file_that_cannot_be_read_to_its_end_is_told_and_goes_on_from_there(store, clock, file, monkeypatch):
    """A stick that is drawn out while it is read."""
    looked = looking.look(store, file(MANY), clock)
    weighed, whole = weighing.weigh(store, looked, clock), odd_files.rows

    def drawn_out(*asked):
        yield from islice(whole(*asked), 3000)
        raise UnreadableFile("\u201cnights.csv\u201d cannot be read: input/output error.")

    with monkeypatch.context() as stick:
        stick.setattr(odd_files, "rows", drawn_out)
        kept = keeping.keep(store, looked, weighed, clock)
    so_far = store.row("SELECT count(*) FROM line")[0]
    assert 0 < so_far <= 3000 and kept.act is not None
    assert told.brought(kept, JOIN).endswith("input/output error. What was kept until then stays, and the same file goes on from there.")
    again = keeping.keep(store, looked, weighed, clock)
    assert store.row("SELECT count(*) FROM line") == (4500,) and "goes on" not in told.brought(again, JOIN)
    for _ in range(2):
        undoing.undo(store)
    assert store.row("SELECT count(*) FROM line") == (0,)


def test_a_disk_that_is_full_midway_keeps_what_came_tells_how_much_and_goes_on(store, clock, file):
    looked = looking.look(store, file(MANY), clock)
    weighed = weighing.weigh(store, looked, clock)

    def fill_up(share: float, words: str) -> None:
        # After the first batch there is no room for one page more.
        store.row(f"PRAGMA max_page_count = {store.row('PRAGMA page_count')[0]}")

    kept = keeping.keep(store, looked, weighed, clock, fill_up)
    so_far = store.row("SELECT count(*) FROM line")[0]
    assert 0 < so_far < 4500 and kept.lines["new"] == so_far and kept.act is not None
    assert "disk is full" in kept.broken_off and f"Kept: {so_far:,} lines" in told.brought(kept, JOIN)
    store.row("PRAGMA max_page_count = 1073741823")
    again = keeping.keep(store, looked, weighed, clock)
    assert store.row("SELECT count(*) FROM line") == (4500,) and again.broken_off == ""


def test_of_a_file_that_is_gone_nothing_is_written_at_all(store, clock, file):
    path = file("Date,Hours\n2026-06-03,7.5\n2026-06-04,8\n")
    looked = looking.look(store, path, clock)
    looked = replace(looked, meant=replace(looked.meant, columns=("date", "new:amount")))
    weighed = weighing.weigh(store, looked, clock)
    path.unlink()
    with pytest.raises(UnreadableFile):
        keeping.keep(store, looked, weighed, clock)
    assert not its.every(store)
    assert store.row("SELECT count(*) FROM act") == (0,)


def test_a_file_that_changed_since_it_was_looked_at_is_told(store, clock, file):
    looked = looking.look(store, file(MANY), clock)
    weighed = weighing.weigh(store, looked, clock)
    file("Date,Memory\n2026-06-03,Only this\n")
    kept = keeping.keep(store, looked, weighed, clock)
    assert told.brought(kept, JOIN) == "Kept: 1 line. The file changed meanwhile: 4,500 rows had been looked at, 1 was read."


def test_another_place_or_reading_stays_unless_the_file_is_to_be_taken(store, clock, file, read_in, trackers):
    writing.set_place(store, JUNE_3, "Riga", clock)
    path = file("Date,Place\n2026-06-03,Tartu\n")
    weighed, kept = read_in(path)
    assert weighed.places == {"other": 1} and reading.one_night(store, JUNE_3).place.name == "Riga"
    assert "1 other place or reading stayed as it was." in told.brought(kept, JOIN)
    read_in(path, other_words=REPLACE)
    assert reading.one_night(store, JUNE_3).place.name == "Tartu"


def test_several_rows_of_a_night_are_joined_in_their_order(store, file, read_in):
    path = file("Date,Memory\n2026-06-03,Morning.\n2026-06-03,Evening.\n2026-06-03,Morning.\n")
    weighed, _ = read_in(path)
    assert weighed.lines == {"new": 1, "more": 1, "there": 1}
    assert texts(store, JUNE_3) == {"memory": "Morning.\nEvening."}
    assert read_in(path)[0].lines == {"there": 3}


def test_what_is_not_understood_is_told_with_its_line_and_the_rest_is_kept(store, file, read_in, trackers, tmp_path, clock):
    path = file('Date,Memory,mood\n2026-02-31,No such day,7\n2026-06-03,"Two\nrows",nine\n,Nowhere,7\n2027-01-01,Tomorrow,7\n')
    weighed, _kept = read_in(path)
    assert [(one.number, one.why.split(";")[0]) for one in weighed.troubles] == [
        (2, "“2026-02-31” is not a date"), (3, "“nine” is not on the scale of mood: it goes from 0 to 10 in half steps."),
        (5, "there is no date in it"), (6, "1 January 2027 is still to come"),
    ]  # fmt: skip
    assert texts(store, JUNE_3) == {"memory": "Two\nrows"}
    told.save_list(tmp_path / "list.txt", looking.look(store, path, clock), weighed.troubles)
    saved = (tmp_path / "list.txt").read_text("utf-8")
    assert "line 5: there is no date in it (Nowhere 7)" in saved


def test_a_column_called_date_is_one_though_many_a_cell_of_it_is_none(file, read_in, store):
    table = "\ufeffDate;Memory\n03.06.2026;Tuned in L\u00fcbeck\n04.06.2026;Walked\n31.02.2026;Never\nnothing;At all\nnone;Of it\n"
    weighed, _ = read_in(file(f"\ufeff{table}"))
    assert [texts(store, night) for night in (JUNE_3, JUNE_4)] == [{"memory": "Tuned in L\u00fcbeck"}, {"memory": "Walked"}]
    assert [trouble.number for trouble in weighed.troubles] == [4, 5, 6]


def test_columns_are_remembered_for_the_next_file_of_the_shape(store, file, read_in, clock):
    read_in(file("When,What,How\n01.02.2026,Tuned a piano today,1\n"), columns=("date", "kind:reflection", ""), other_words=ASIDE)
    looked = looking.look(store, file("When,What,How\n03.02.2026,Another day of tuning,2\n", "next.csv"), clock)
    assert looked.known and looked.meant.columns == ("date", "kind:reflection", "") and looked.meant.other_words == ASIDE
    other = looking.look(store, file("When,What\n03.02.2026,Another day of tuning\n", "other.csv"), clock)
    assert not other.known


def test_a_column_can_begin_a_reading(store, file, read_in):
    read_in(file("Date,Steps,Slept\n2026-06-03,9120,7:30\n2026-06-04,10400,23:30-6:45\n"), columns=("date", "new:amount", "new:hours"))
    begun = {one.name: (one.form, one.began) for one in its.every(store)}
    assert begun == {"Steps": ("amount", JUNE_3), "Slept": ("hours", JUNE_3)}
    assert {one.tracker.name: one.reading.value for one in its.of_night(store, JUNE_4)} == {"Steps": 10400.0, "Slept": 7.25}


def test_stopped_what_is_in_stays_and_the_same_file_goes_on(store, file, read_in, monkeypatch):
    monkeypatch.setattr(weighing, "AT_ONCE", 10)
    monkeypatch.setattr(weighing.batches, "__defaults__", (10,))
    path = file("Date,Memory\n" + "".join(f"2026-05-{day:02d},Line {day}\n" for day in range(1, 31)))
    asked = iter([False, True])
    _, kept = read_in(path, stopped=lambda: next(asked, True))
    assert kept.stopped and store.row("SELECT count(*) FROM line") == (10,)
    read_in(path)
    assert store.row("SELECT count(*) FROM line") == (30,)
    undoing.turn(store, kept.act)
    assert store.row("SELECT count(*) FROM line") == (20,)


def test_a_line_that_was_taken_out_comes_back_as_the_same_line(store, clock, file, read_in):
    line = writing.write_line(store, JUNE_3, "memory", "Once.", clock)
    writing.write_line(store, JUNE_3, "memory", "", clock)
    read_in(file("Date,Memory\n2026-06-03,Again.\n"))
    assert reading.one_night(store, JUNE_3).line("memory").id == line.id


def test_what_is_read_in_is_found_and_sound(store, file, read_in):
    read_in(file("Date,Memory\n2026-06-03,Žluťoučký kůň at the harbour\n"))
    assert [found.line.text for found in find(store, Sought("zlutoucky harb"))] == ["Žluťoučký kůň at the harbour"]
    assert store.row("PRAGMA integrity_check") == ("ok",)


def test_decimals_are_read_by_the_sign_of_the_file(store, file, read_in):
    points = changing.begin(store, Tracker("", "far", "amount", None, None, "km", "neither", JUNE_3))
    read_in(file("Date;far\n03.06.2026;1.234,5\n04.06.2026;7,500\n"))
    assert {one.reading.value for night in (JUNE_3, JUNE_4) for one in its.of_night(store, night)} == {1234.5, 7.5}
    assert points.name == "far"


def test_kinds_by_the_names_the_person_gave_them(store, file, clock):
    kinds.rename(store, "memory", "Logbook")
    looked = looking.look(store, file("date,logbook,zzz\n2026-06-03,Tuned.,1\n"), clock)
    assert looked.meant.columns == ("date", "kind:memory", "")


def test_a_column_called_words_is_a_line_however_short(store, file, clock):
    looked = looking.look(store, file("date,mood,text\n2026-06-03,7,A swim\n2026-06-04,8,Rain\n"), clock)
    assert looked.meant.columns[0] == "date" and looked.meant.columns[2].startswith("kind:")


def test_one_place_by_its_name_however_it_is_written(store, clock, file, read_in):
    writing.set_place(store, date(2026, 6, 1), "Lübeck", clock)
    read_in(file("Date,Place\n2026-06-03,lubeck\n2026-06-04,LÜBECK\n"))
    assert len(places.places_view(store).places) == 1


LINES = st.text(st.characters(codec="utf-8", exclude_categories=("Cs", "Cc")), min_size=1, max_size=40).map(str.strip).filter(bool)


@settings(max_examples=10)
@given(st.dictionaries(st.dates(date(1900, 1, 1), date(2026, 11, 14)), LINES, min_size=1, max_size=8), st.sampled_from([JOIN, ASIDE, REPLACE]))
def test_whatever_words_are_read_in_are_there_and_nothing_twice(tmp_path_factory, clock, nights, how):
    folder = tmp_path_factory.mktemp("read")
    path = folder / "a.csv"
    with path.open("w", newline="", encoding="utf-8") as opened:
        csv.writer(opened).writerows([("Date", "Memory"), *((night.isoformat(), text) for night, text in nights.items())])
    with open_or_begin(folder / "keeper") as store:
        looked = looking.look(store, path, clock)
        looked = replace(looked, meant=replace(looked.meant, columns=("date", "kind:memory"), other_words=how))
        for _ in range(2):
            keeping.keep(store, looked, weighing.weigh(store, looked, clock), clock)
            assert {night: texts(store, night)["memory"] for night in nights} == nights
