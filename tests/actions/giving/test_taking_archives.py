"""An archive meets a keeper that has something in it, and archives that no keeper has written."""

import json
import os
import tempfile
import threading
import time
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kept_things import NIGHT, fill
from waiting.rows_for_ever import write_rows
from whole_keeper import content

from keeper.actions import resting, writing
from keeper.actions.giving import copying, making, rows_apart
from keeper.actions.giving.making import give
from keeper.actions.giving.taking import look, take
from keeper.actions.giving.wanted import ToGive
from keeper.actions.history import undoing
from keeper.actions.opening import open_or_begin
from keeper.actions.themes import asking as themes
from keeper.actions.themes import begun
from keeper.clock import StoppedClock
from keeper.errors import AlreadyKept, BadArchive, CannotWrite, KeeperError, NotAKeeper, Stopped
from keeper.exchange.archive.bag import Bag
from keeper.exchange.archive.checking import check, listed
from keeper.exchange.out.rows import RowsOut
from keeper.model import Act, Reading, Tracker
from keeper.store import kinds, lines, nights, trackers
from keeper.store.file import copies
from keeper.store.file.opening import SCHEMA
from keeper.store.rows.shape import tables
from keeper.store.themes import decisions, found


@pytest.fixture
def archive(store, clock, tmp_path):
    fill(store, clock, tmp_path)
    give(store, tmp_path / "archive", ToGive(), clock)
    return tmp_path / "archive"


@pytest.fixture
def other(tmp_path):
    with open_or_begin(tmp_path / "other") as opened:
        yield opened


def later(clock) -> StoppedClock:
    return StoppedClock(clock.at + timedelta(hours=1), clock.zone_name)


def test_where_a_line_differs_what_stands_here_stays_and_theirs_is_an_earlier_wording(archive, other, clock):
    writing.write_line(other, NIGHT, "memory", "The kettle was silent.", clock)
    seen = look(other, archive)
    assert [(one.night, one.what, one.here, one.there) for one in seen.differences] == [
        (NIGHT, "Memory", "The kettle was silent.", "The kettle sang.")
    ]
    take(other, archive, clock)
    assert lines.one(other, NIGHT, "memory").text == "The kettle was silent."
    assert [one.text for one in lines.wordings(other, NIGHT, "memory")] == ["The kettle sang."]
    before = content(other)
    assert take(other, archive, clock).act is None and content(other) == before


def test_where_theirs_are_chosen_ours_is_the_earlier_wording(archive, other, clock):
    writing.write_line(other, NIGHT, "memory", "The kettle was silent.", clock)
    before = content(other)
    take(other, archive, clock, [(NIGHT, "memory")])
    assert lines.one(other, NIGHT, "memory").text == "The kettle sang."
    assert [one.text for one in lines.wordings(other, NIGHT, "memory")] == ["The kettle was silent."]
    undoing.undo(other)
    assert content(other) == before


def test_what_differs_of_a_month_a_place_and_a_reading_is_kept_beside(archive, store, other, clock):
    take(other, archive, clock)
    (sleep,) = trackers.every(other)
    trackers.note(other, [Reading(NIGHT, sleep.id, 4.0)], Act("Sleep"))
    with other.writing(Act("A question")):
        other.connection.execute("UPDATE month_page SET question = 'What broke?', words = ''")
    writing.set_place(other, NIGHT, "Cuxhaven", clock)
    taken = take(other, archive, clock)
    told = {(one.what, one.here, one.there) for one in taken.seen.differences}
    assert told == {("Sleep", "4", "7.5"), ("Month 2026-11: question", "What broke?", "What held?"), ("Place", "Cuxhaven", "Riga")}
    kept = {(what, name, text) for what, name, text in other.rows("SELECT what, name, text FROM second_wording")}
    assert {("reading", "value", "7.5"), ("month_page", "question", "What held?")} <= kept
    # What was empty is filled.
    assert other.row("SELECT question, words FROM month_page") == ("What broke?", "A month of bridges.")
    assert nights.one(other, NIGHT).place.name == "Cuxhaven"
    assert take(other, archive, clock).act is None


def test_a_line_that_was_moved_here_is_not_doubled(archive, store, other, clock):
    take(other, archive, clock)
    with other.writing(Act("Moved")):
        lines.move(other, lines.one(other, NIGHT, "memory"), NIGHT + timedelta(1), "memory", clock.moment())
    take(other, archive, clock)
    assert lines.one(other, NIGHT, "memory") is None and lines.count(other) == lines.count(store)


def test_kinds_trackers_and_decisions_of_two_keepers_find_room_beside_each_other(store, other, clock, tmp_path):
    for its, name in ((store, "Dream"), (other, "Weather")):
        with its.writing(Act("A kind")):
            kind = kinds.add(its, kinds.LineKind("", 0, name))
            found.reserve(its, 1, clock.moment().utc)
            decisions.add(its, "rename", {"theme": 1, "name": name}, clock.moment().utc)
            trackers.add(its, Tracker("", name, "count", None, None, "", "neither", NIGHT, key="d"))
        writing.write_line(its, NIGHT, kind.key, f"A {name.lower()}.", clock)
    give(store, tmp_path / "archive", ToGive(), clock)
    take(other, tmp_path / "archive", clock)
    assert [one.name for one in kinds.every(other) if one.name] == ["Weather", "Dream"]
    assert sorted(line.text for line in lines.of_night(other, NIGHT)) == ["A dream.", "A weather."]
    assert [(one.detail["name"], one.detail["theme"]) for one in decisions.standing(other)] == [("Weather", 1), ("Dream", 2)]
    assert sorted(one.key for one in trackers.every(other)) == ["", "d"]
    assert take(other, tmp_path / "archive", clock).act is None


def test_what_rests_rests_there_too(archive, store, other, clock, tmp_path):
    resting.rest_span(store, NIGHT, NIGHT)
    give(store, tmp_path / "again", ToGive(), clock)
    take(other, tmp_path / "again", clock)
    assert [(one.what, one.first) for one in resting.what_rests(other)] == [("span", NIGHT)]


def test_stopped_half_way_nothing_of_it_stays(archive, other, clock, monkeypatch):
    monkeypatch.setattr("keeper.actions.giving.taking._AT_A_TIME", 5)
    before, heard = content(other), []

    def hear(share: float, words: str) -> None:
        heard.append(share)
        if other.row("SELECT count(*) FROM line")[0]:
            raise Stopped

    with pytest.raises(Stopped):
        take(other, archive, clock, progress=hear)
    assert content(other) == before and heard == sorted(heard)


def test_a_photo_that_is_not_in_the_archive_is_told_and_leaves_nothing(store, other, clock, tmp_path):
    fill(store, clock, tmp_path)
    give(store, tmp_path / "words", ToGive(frozenset({"json"})), clock)
    taken = take(other, tmp_path / "words", clock)
    assert taken.sentence == "Taken in: 7 nights, 8 lines. 2 photos had no file in it, and did not come."
    assert other.row("SELECT count(*) FROM photo") == other.row("SELECT count(*) FROM night_photo") == (0,)


# archives that no keeper has written


def made(folder, its_tables: dict, schema: int = SCHEMA, files: dict | None = None):
    """An archive with these rows, sound as a bag."""
    folder.mkdir()
    bag = Bag(folder)
    with bag.text("json/keeper.json") as out:
        rows = RowsOut(out, schema, True)
        for name, its in its_tables.items():
            columns = list(its[0]) if its else []
            rows.table(name, columns, [[row[column] for column in columns] for row in its])
        rows.end()
    for name, data in (files or {}).items():
        bag.bytes(data, name)
    bag.close([])
    return folder


LINE = {
    "id": "01a2228d-4007-7677-a4e0-3090e18901a1", "night": "2026-11-14", "kind": "memory", "text": "x",
    "written_at": "2026-11-14T20:00:00.000000Z", "offset_minutes": 0, "zone": "",
}  # fmt: skip
A_NIGHT = {"date": "2026-11-14", "place_id": None, "place_source": "", "photo_id": None, "begun_at": "2026-11-14T20:00:00.000000Z"}
PHOTO = {
    "id": "p", "sha256": "0" * 64, "ending": "jpg", "bytes": 1, "width": 1, "height": 1, "orientation": 1, "taken_local": None,
    "taken_offset_minutes": None, "latitude": None, "longitude": None, "name": "", "caption": "", "came_at": "2026-11-14T20:00:00Z",
}  # fmt: skip


@pytest.mark.parametrize("wrong", [
    {"night": [{**A_NIGHT, "date": "0001-01-01"}]}, {"night": [{**A_NIGHT, "date": "2026-02-30"}]}, {"night": [{**A_NIGHT, "date": 5}]},
    {"night": [A_NIGHT], "line": [{**LINE, "kind": "nothing"}]}, {"line": [LINE]}, {"night": [A_NIGHT], "line": [{**LINE, "text": ""}]},
    {"night": [A_NIGHT], "line": [{**LINE, "written_at": "soon"}]}, {"night": [A_NIGHT], "line": [{**LINE, "offset_minutes": 5000}]},
    {"night": [A_NIGHT], "line": [{**LINE, "night": ""}]}, {"night": [A_NIGHT], "line": [{**LINE, "written_at": ""}]}, {"night": [{**A_NIGHT, "date": ""}]},
    {"night": [A_NIGHT], "line": [{**LINE, "id": "../../x"}]}, {"night": [A_NIGHT], "line": [{**LINE, "text": "a\0b"}]},
    {"night": [A_NIGHT], "line": [{"id": "x", "night": "2026-11-14"}]}, {"night": [A_NIGHT], "line": [{**LINE, "text": 5}]},
    {"photo": [{**PHOTO, "ending": "jpg/../../../x"}]}, {"photo": [{**PHOTO, "sha256": "../" * 21 + "x"}]},
    {"theme_decision": [{"id": "d", "position": 1, "what": "merge", "detail": "[" * 9999, "decided_at": "2026-11-14T20:00:00Z", "undone_at": None}]},
    {"theme_decision": [{"id": "d", "position": 1, "what": "merge", "detail": '{"x": 1}', "decided_at": "2026-11-14T20:00:00Z", "undone_at": None}]},
    {"resting": [{"id": "r", "what": "line", "since": "x"}]}, {"resting": [{"id": "r", "what": "span", "ref": None, "since": "x"}]},
    {"year_page": [{"year": 2026, "state": "begun", "at": 1, "begun_at": "x", "closed_at": None, "questions": "5"}]},
])  # fmt: skip
def test_rows_that_no_keeper_has_written_are_refused_and_change_nothing(other, clock, tmp_path, wrong):
    before = content(other)
    folder = made(tmp_path / "bad", wrong)
    with pytest.raises(BadArchive) as refused:
        take(other, folder, clock)
    assert str(refused.value).endswith(".")
    assert content(other) == before
    assert not [path for path in (other.folder / "photos").rglob("*") if path.is_file()] if (other.folder / "photos").exists() else True


ANY = st.one_of(
    st.none(), st.integers(-(1 << 63), (1 << 63) - 1), st.floats(allow_nan=False, allow_infinity=False), st.text(max_size=20),
    st.sampled_from(("", "[]", "{}", "null", "[[1]]", "../..", "2026-11-14", "2026-11-14T20:00:00Z", "line", "gratitude", "p")), st.binary(max_size=4),
)  # fmt: skip


@given(st.data())
def test_whatever_stands_in_a_row_it_is_taken_or_refused_in_a_sentence(other, clock, data):
    shape = data.draw(st.sampled_from(tables(other)))
    row = {name: data.draw(ANY, name) for name in shape.names}
    with tempfile.TemporaryDirectory() as room:
        folder = made(Path(room, "any"), {"night": [A_NIGHT], shape.name: [row]} if shape.name != "night" else {"night": [row]})
        try:
            look(other, folder)
            take(other, folder, clock)
        except BadArchive as error:
            assert str(error).endswith(".")


def test_tables_of_which_nothing_is_known_are_passed_over(other, clock, tmp_path):
    folder = made(tmp_path / "more", {"night": [A_NIGHT], "sqlite_master": [{"sql": "x"}], "act": [{"number": 1}], "line": [{**LINE, "more": 1}]})
    take(other, folder, clock)
    assert lines.one(other, date(2026, 11, 14), "memory").text == "x"


def test_an_archive_of_a_newer_version_is_refused(other, clock, tmp_path):
    with pytest.raises(BadArchive, match="newer version"):
        look(other, made(tmp_path / "new", {"night": [A_NIGHT]}, SCHEMA + 1))


def test_a_file_that_was_changed_stops_all_of_it(archive, other, clock):
    (archive / "data/json/keeper.json").write_text((archive / "data/json/keeper.json").read_text().replace("sang", "rang"))
    with pytest.raises(BadArchive, match="changed or damaged"):
        take(other, archive, clock)
    assert lines.count(other) == 0


# making


def test_stopped_while_giving_nothing_is_left(store, clock, tmp_path):
    fill(store, clock, tmp_path)
    asked = []

    def stop_late() -> bool:
        asked.append(1)
        return len(asked) > 3

    (tmp_path / "room").mkdir()
    with pytest.raises(Stopped):
        give(store, tmp_path / "room" / "out", ToGive(), clock, stopped=stop_late)
    assert list((tmp_path / "room").iterdir()) == []


def test_a_full_disk_and_a_closed_one_are_told_and_nothing_is_left(store, clock, tmp_path, small_disk):
    fill(store, clock, tmp_path)
    small_disk.fill()
    with pytest.raises(CannotWrite, match="its disk is full"):
        give(store, small_disk.path / "out", ToGive(), clock)
    small_disk.empty()
    small_disk.close_to_writing()
    with pytest.raises(CannotWrite, match="closed to writing"):
        give(store, small_disk.path / "out", ToGive(), clock)
    small_disk.open_to_writing()
    assert list(small_disk.path.iterdir()) == []


def test_something_there_is_never_written_over(store, clock, tmp_path, archive):
    with pytest.raises(AlreadyKept):
        give(store, archive, ToGive(), clock)
    with pytest.raises(CannotWrite, match="cannot lie in the keeper"):
        give(store, store.folder / "out", ToGive(), clock)


def test_a_damaged_photo_is_left_out_and_told(store, clock, tmp_path):
    fill(store, clock, tmp_path)
    one, other = sorted((store.folder / "photos").rglob("*.jpg"))
    one.write_bytes(b"x" * one.stat().st_size)
    other.unlink()
    came = give(store, tmp_path / "out", ToGive(), clock)
    assert (came.photos, came.lacking) == (0, 2) and "2 photos are not in it" in came.sentence
    assert not list((tmp_path / "out/data").rglob("*.jpg"))
    assert "data/photos" not in (tmp_path / "out/data/text/2026.md").read_text()


def test_photos_copied_by_a_process_of_their_own_are_as_whole(store, clock, tmp_path, monkeypatch):
    fill(store, clock, tmp_path)
    monkeypatch.setattr(copying, "WORTH_A_PROCESS", 0)
    its = sorted((store.folder / "photos").rglob("*.jpg"))
    its[0].write_bytes(b"x" * its[0].stat().st_size)
    asked = []
    right = copying.apart
    monkeypatch.setattr(copying, "apart", lambda *given, **told: asked.append(given[1]) or right(*given, **told))
    came = give(store, tmp_path / "out", ToGive(), clock)
    assert (came.photos, came.lacking) == (1, 1) and len(list((tmp_path / "out/data").rglob("*.jpg"))) == 1
    check(listed(tmp_path / "out"))
    assert asked == [copying.copy_all]


def test_rows_written_by_a_process_of_their_own_are_the_same(store, clock, tmp_path, monkeypatch):
    fill(store, clock, tmp_path)
    give(store, tmp_path / "here", ToGive(), clock)
    monkeypatch.setattr(rows_apart, "WORTH_A_PROCESS", 0)
    asked = []
    right = rows_apart.apart
    monkeypatch.setattr(rows_apart, "apart", lambda *given, **told: asked.append(given[1]) or right(*given, **told))
    give(store, tmp_path / "apart", ToGive(), clock)
    monkeypatch.setattr(rows_apart, "apart", ended)
    give(store, tmp_path / "ended", ToGive(), clock)
    assert asked == [rows_apart.write_rows]
    for name in ("apart", "ended"):
        check(listed(tmp_path / name))
        for path in ("json/keeper.json", "globe/where.geojson", "globe/where.gpx", "globe/where.kml"):
            assert (tmp_path / name / "data" / path).read_bytes() == (tmp_path / "here/data" / path).read_bytes()


def test_a_process_that_writes_rows_ends_when_stopped_and_nothing_is_left(store, clock, tmp_path, monkeypatch):
    fill(store, clock, tmp_path)
    monkeypatch.setattr(rows_apart, "WORTH_A_PROCESS", 0)
    monkeypatch.setattr(rows_apart, "write_rows", write_rows)
    (tmp_path / "there").mkdir()
    whose = []

    def stopped() -> bool:
        whose.extend(int(one.read_text()) for one in (tmp_path / "there").rglob("whose") if not whose)
        return bool(whose)

    with pytest.raises(Stopped):
        give(store, tmp_path / "there" / "out", ToGive(), clock, stopped=stopped)
    assert list((tmp_path / "there").iterdir()) == []
    with pytest.raises(ProcessLookupError):
        os.kill(whose[0], 0)


def test_photos_are_copied_from_both_ends_and_meet(store, clock, tmp_path, monkeypatch):
    fill(store, clock, tmp_path)
    monkeypatch.setattr(copying, "WORTH_A_PROCESS", 0)
    there = []

    def late(_store, act, those, progress, stopped):
        # It comes to nothing before the other has made them all.
        while not all(one.target.exists() for one in those):
            time.sleep(0.005)
        there.append(act(None, those, progress, stopped))
        return there[0]

    monkeypatch.setattr(copying, "apart", late)
    came = give(store, tmp_path / "out", ToGive(), clock)
    check(listed(tmp_path / "out"))
    assert there == [copying.Copied(frozenset(), ())] and (came.photos, came.lacking) == (2, 0)


def test_half_a_copy_of_a_process_that_ended_is_made_anew(store, clock, tmp_path, monkeypatch):
    fill(store, clock, tmp_path)
    monkeypatch.setattr(copying, "WORTH_A_PROCESS", 0)
    begun = threading.Event()

    def half(_store, _act, those, **_):
        those[0].target.write_bytes(b"half")
        begun.set()
        raise KeeperError("The work ended before it was done.")

    monkeypatch.setattr(copying, "apart", half)
    right = copying.Copying.bad
    monkeypatch.setattr(copying.Copying, "bad", lambda *given: begun.wait(30) and right(*given))
    came = give(store, tmp_path / "out", ToGive(), clock)
    check(listed(tmp_path / "out"))
    assert (came.photos, came.lacking) == (2, 0)


def ended(store, act, file, target, globe, stopped):
    """A process that ended halfway."""
    for one in (target, *globe.values()):
        one.write_text("{")
    raise KeeperError("The work ended before it was done.")


def test_a_damaged_keeper_is_told_though_its_copy_is_checked_meanwhile(store, clock, tmp_path, monkeypatch):
    fill(store, clock, tmp_path)
    right = copies._looked_at
    monkeypatch.setattr(copies, "_looked_at", lambda file: replace(right(file), verdict="row 5 missing"))
    (tmp_path / "there").mkdir()
    with pytest.raises(NotAKeeper, match="row 5 missing"):
        give(store, tmp_path / "there" / "out", ToGive(), clock)
    assert list((tmp_path / "there").iterdir()) == []


def test_a_disk_that_keeps_something_else_is_told(store, clock, tmp_path, monkeypatch):
    fill(store, clock, tmp_path)
    right = making.differing
    monkeypatch.setattr(making, "differing", lambda folder, hashes, **told: right(folder, dict.fromkeys(hashes, "0" * 64), **told))
    with pytest.raises(CannotWrite, match="could not be read again as it was written"):
        give(store, tmp_path / "out", ToGive(frozenset({"json"})), clock)
    assert not (tmp_path / "out").exists()


def test_all_of_it_is_of_one_moment(store, clock, tmp_path):
    fill(store, clock, tmp_path)
    with open_or_begin(store.folder) as beside:
        def write_meanwhile(share: float, words: str) -> None:
            writing.write_line(beside, NIGHT, "reflection", f"Written at {share}.", clock)

        give(store, tmp_path / "out", ToGive(), clock, write_meanwhile)
    told = json.loads((tmp_path / "out/data/json/keeper.json").read_text("utf-8"))["tables"]["line"]
    text = (tmp_path / "out/data/text/2026.md").read_text("utf-8")
    (meanwhile,) = (row["text"] for row in told if row["kind"] == "reflection")
    assert meanwhile in text and lines.one(store, NIGHT, "reflection").text != meanwhile


def test_a_theme_that_was_begun_comes_with_its_answers_beside_those_here(store, other, clock, tmp_path):
    for its, day, text in ((store, 0, "My knee hurt."), (store, 1, "Both knees."), (store, 2, "The knee of the stove pipe."), (other, 5, "Soup.")):
        writing.write_line(its, NIGHT + timedelta(day), "memory", text, clock)
    begun.begin(other, "Soups", (), ("soup",), clock)
    first, _, pipe = (lines.one(store, NIGHT + timedelta(day), "memory").id for day in range(3))
    number = begun.begin(store, "My knees", (first,), ("knee",), clock)
    begun.answer(store, number, pipe, begun.NO, clock)
    give(store, tmp_path / "archive", ToGive(), clock)
    take(other, tmp_path / "archive", clock)
    soups, knees = begun.begun(other).values()
    assert (soups.name, knees.name) == ("Soups", "My knees") and soups.theme != knees.theme
    assert [lines.by_id(other, line).text for line in (*knees.lines, *knees.no)] == ["My knee hurt.", "The knee of the stove pipe."]
    themes.look_again(other, clock)
    assert {one.line.text for one in themes.lines_of(other, knees.theme)} == {"My knee hurt.", "Both knees."}
