"""Opening a keeper's file, and every way in which it can be unfit."""

import os
import random
import shutil
import sqlite3
import subprocess
import sys
import tempfile
from datetime import UTC, date, datetime
from pathlib import Path

import pytest
from soundness import whole
from sqlite_utils import Database

from keeper.actions import finding, opening, reading, writing
from keeper.actions.months import shown as months
from keeper.actions.places import merging as place_merging
from keeper.actions.remembering import bringing_up
from keeper.clock import Clock, StoppedClock
from keeper.errors import CannotWrite, KeeperError, NewerKeeper, NotAKeeper
from keeper.store import create_store, is_keeper, lines, month_pages, open_store, year_pages
from keeper.store.file.migrations import migrations
from keeper.store.file.opening import FILE, MARK, SCHEMA, back_up

NIGHT = date(2026, 11, 14)


def kept_bytes(folder: Path) -> dict[str, bytes]:
    """Every file of a folder and what is in it."""
    return {str(file.relative_to(folder)): file.read_bytes() for file in folder.rglob("*") if file.is_file()}


@pytest.fixture(scope="module")
def filled_once(tmp_path_factory) -> Path:
    """A keeper with some hundred lines, closed."""
    folder, clock = tmp_path_factory.mktemp("filled") / "keeper", StoppedClock(datetime(2026, 11, 14, 22, tzinfo=UTC))
    with create_store(folder) as store, store.writing():
        for day in range(1, 29):
            for month in (1, 3, 5, 11):
                text = f"Ferry {month} of {day}, \u00e6r\u00f8 way"
                writing.write_line(store, date(2025, month, day), "memory", text, clock)
        writing.set_place(store, date(2025, 1, 1), "Riga", clock)
    return folder


@pytest.fixture
def filled(filled_once, folder) -> Path:
    """A copy of it."""
    return shutil.copytree(filled_once, folder)


def test_a_new_keeper_is_whole_and_set_as_promised(store, folder):
    assert whole(store)
    pragmas = {name: store.row(f"PRAGMA {name}")[0] for name in ("journal_mode", "synchronous", "foreign_keys")}
    assert pragmas == {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1}
    assert store.row("PRAGMA busy_timeout")[0] >= 1000
    assert (store.row("PRAGMA application_id")[0], store.row("PRAGMA user_version")[0]) == (MARK, SCHEMA)
    assert {path.name for path in folder.iterdir()} >= {FILE, "photos", "backups"}
    assert not list(folder.glob("*.new*"))


def test_what_is_kept_is_there_after_closing(folder, clock):
    with create_store(folder) as store:
        writing.write_line(store, NIGHT, "memory", "The kettle sang.", clock)
    with open_store(folder) as store:
        assert [line.text for line in lines.of_night(store, NIGHT)] == ["The kettle sang."]


def test_two_keepers_never_have_one_id(tmp_path):
    with create_store(tmp_path / "a") as one, create_store(tmp_path / "b") as two:
        ids = [store.row("SELECT value FROM about WHERE name = 'id'")[0] for store in (one, two)]
    assert len(set(ids)) == 2


def test_no_keeper_is_begun_over_another(filled):
    before = kept_bytes(filled)
    with pytest.raises(NotAKeeper, match="already"):
        create_store(filled)
    assert kept_bytes(filled) == before


def test_programs_that_begin_at_once_end_with_one_keeper(folder):
    begin = (
        "import sys; from pathlib import Path; from keeper.actions.opening import open_or_begin\n"
        "store = open_or_begin(Path(sys.argv[1])); print(store.row(\"SELECT value FROM about WHERE name = 'id'\")[0])"
    )
    running = [subprocess.Popen([sys.executable, "-c", begin, folder], stdout=subprocess.PIPE) for _ in range(3)]
    assert [process.communicate(timeout=200)[0] != b"" for process in running] == [True] * 3
    with open_store(folder) as store:
        assert whole(store)
    assert not list(folder.glob("*.new*"))


def strangers() -> dict[str, bytes]:
    """Files that are no keeper."""
    return {"empty": b"", "a note": b"Dear sister, " * 400, "cut short": b"SQLite format 3\0" + b"\0" * 40,
            "noise": random.Random(3).randbytes(9000)}  # fmt: skip


@pytest.mark.parametrize("content", strangers().values(), ids=strangers().keys())
def test_a_file_that_is_no_keeper_is_refused_and_left_as_it_is(folder, content):
    folder.mkdir()
    (folder / FILE).write_bytes(content)
    with pytest.raises(NotAKeeper, match=r"is not a keeper.*\.$"):
        opening.open_or_begin(folder)
    assert kept_bytes(folder) == {FILE: content}


def test_a_database_that_is_no_keeper_is_refused_and_left_as_it_is(folder):
    folder.mkdir()
    with sqlite3.connect(folder / FILE) as other:
        other.execute("CREATE TABLE line (text)")
    other.close()
    before = kept_bytes(folder)
    with pytest.raises(NotAKeeper, match="not a keeper"):
        opening.open_or_begin(folder)
    assert kept_bytes(folder) == before


def test_a_folder_in_place_of_the_file_is_refused(folder):
    (folder / FILE).mkdir(parents=True)
    with pytest.raises(NotAKeeper, match="is a folder, not a keeper"):
        opening.open_or_begin(folder)
    assert (folder / FILE).is_dir()


def test_a_file_in_place_of_the_folder_is_refused(folder):
    folder.write_text("a note")
    with pytest.raises(CannotWrite, match="cannot be made"):
        opening.open_or_begin(folder)
    assert folder.read_text() == "a note"


def test_where_there_is_no_keeper_none_is_begun_by_looking(folder):
    with pytest.raises(NotAKeeper, match="There is no keeper"):
        opening.open_kept(folder)
    assert not folder.exists()


def test_a_keeper_of_a_newer_version_is_refused_and_unchanged_to_the_byte(filled):
    with sqlite3.connect(filled / FILE) as newer:
        newer.execute(f"PRAGMA user_version = {SCHEMA + 1}")
    newer.close()
    before = kept_bytes(filled)
    with pytest.raises(NewerKeeper, match="newer version"):
        opening.open_or_begin(filled)
    assert kept_bytes(filled) == before


def test_even_what_a_newer_version_left_unfinished_is_unchanged(filled):
    newer = sqlite3.connect(filled / FILE, isolation_level=None)
    newer.execute(f"PRAGMA user_version = {SCHEMA + 1}")
    newer.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    newer.execute("PRAGMA wal_autocheckpoint = 0")
    newer.execute("CREATE TABLE later (thing)")
    abandoned = {name: data for name, data in kept_bytes(filled).items() if not name.endswith("-shm")}
    newer.close()
    for name, data in abandoned.items():
        (filled / name).write_bytes(data)
    before = kept_bytes(filled)
    assert before[f"{FILE}-wal"]
    with pytest.raises(NewerKeeper):
        opening.open_or_begin(filled)
    assert kept_bytes(filled) == before


def test_a_newer_version_that_only_the_log_tells_of_is_refused_too(filled):
    newer = sqlite3.connect(filled / FILE, isolation_level=None)
    newer.execute("PRAGMA wal_autocheckpoint = 0")
    newer.execute(f"PRAGMA user_version = {SCHEMA + 1}")
    with pytest.raises(NewerKeeper):
        opening.open_or_begin(filled)
    newer.close()


def use(store) -> None:
    """Do a little of everything."""
    writing.write_line(store, date(2025, 6, 1), "gratitude", "A new line.", Clock())
    reading.night_page(store, date(2025, 1, 1), date(2025, 1, 3))
    bringing_up.looking_back(store, date(2026, 1, 1))
    for best in (False, True):
        finding.find(store, finding.Sought("ferr", best_first=best))
    reading.ticks(store, date(2025, 1, 1), date(2025, 12, 31))
    reading.known_places(store)
    reading.wordings(store, NIGHT, "memory")
    opening.read_settings(store)


def broken_copy(sound: bytes, chance: random.Random) -> bytes:
    """The file with bytes of one page overwritten, and now and then cut short."""
    broken = bytearray(sound)
    page = chance.randrange(len(broken) // 4096) * 4096
    for _ in range(chance.choice((1, 8, 200))):
        broken[page + chance.randrange(4096)] = chance.randrange(256)
    return bytes(broken[: chance.choice((len(broken),) * 9 + (chance.randrange(len(broken)),))])


def test_a_broken_file_gives_a_sentence_or_works(filled):
    chance, sound, told = random.Random(1), (filled / FILE).read_bytes(), []
    for _ in range(100):
        (filled / FILE).write_bytes(broken_copy(sound, chance))
        try:
            with opening.open_or_begin(filled) as store:
                # Not durably: that would only make the test slow.
                store.connection.execute("PRAGMA synchronous = OFF")
                use(store)
        except KeeperError as error:
            told.append(str(error))
        except sqlite3.IntegrityError as error:
            told.append(f"{error}.")  # A row that another refers to was overwritten.
        assert (filled / FILE).exists()
    assert all(sentence.endswith(".") for sentence in told)
    assert 10 < len(told) < 100


def test_a_broken_page_is_told_of_and_left_as_it_is(filled):
    broken = bytearray((filled / FILE).read_bytes())
    broken[4096:] = b"\xa5" * (len(broken) - 4096)
    (filled / FILE).write_bytes(broken)
    (filled / "backups" / "one.db").write_bytes(b"a copy")
    with pytest.raises(NotAKeeper, match=r"damaged.*Earlier copies are in .*backups\.$"), opening.open_or_begin(filled) as store:
        use(store)
    assert (filled / FILE).read_bytes() == broken


@pytest.mark.parametrize("written", ["Thursday", "0001-01-01T00:00:00Z", "9999-12-31T23:59:59Z", "2026-11-14", ""])
def test_words_whose_moment_is_damaged_are_shown_and_it_is_told_of(store, clock, written):
    writing.write_line(store, NIGHT, "memory", "The kettle sang.", clock)
    store.connection.execute("UPDATE line SET written_at = ?", (written,))
    assert [line.text for line in lines.of_night(store, NIGHT)] == ["The kettle sang."]
    assert len(store.damage) == 1
    assert f"damaged: it has \u201c{written}\u201d for a moment. The words of 2026-11-14 are whole." in store.damage[0]


def test_letters_that_are_damaged_get_a_mark_and_it_is_told_of(store, clock):
    writing.write_line(store, NIGHT, "gratitude", "The k\u00e6ttle sang.", clock)
    writing.write_line(store, NIGHT, "memory", "The kettle sang.", clock)
    store.connection.execute("UPDATE line SET text = CAST(x'41ffe042' AS TEXT) WHERE kind = 'memory'")
    told = [line.text for line in lines.of_night(store, NIGHT)]
    assert told == ["The k\u00e6ttle sang.", "A\ufffd\ufffdB"]
    assert len(store.damage) == 1 and "damaged: a mark stands for letters" in store.damage[0]
    assert store.row("SELECT text FROM line WHERE kind = 'gratitude'") == ("The k\u00e6ttle sang.",)


def test_a_line_that_cannot_be_read_does_not_take_the_others_with_it(store, clock):
    for kind in ("gratitude", "memory"):
        writing.write_line(store, NIGHT, kind, f"The {kind}.", clock)
    store.connection.execute("PRAGMA foreign_keys = OFF")
    store.connection.execute("UPDATE line SET night = 'Thursday' WHERE kind = 'memory'")
    assert [found.line.text for found in finding.find(store, finding.Sought("the"))] == ["The gratitude."]
    assert lines.span(store) == (NIGHT, NIGHT)
    page = reading.night_page(store, NIGHT, NIGHT)
    assert [line.text for line in page.night.lines] == ["The gratitude."]
    assert any("Thursday" in sentence and "left out" in sentence for sentence in store.damage)
    assert store.news_of_damage() and not store.news_of_damage()


def test_a_full_disk_is_told_of_and_nothing_is_lost(store, clock):
    writing.write_line(store, NIGHT, "memory", "Kept before.", clock)
    pages = store.row("PRAGMA page_count")[0]
    store.row(f"PRAGMA max_page_count = {pages}")
    with pytest.raises(CannotWrite, match=r"disk is full\. Free some space and try again\.$"):
        for day in range(1, 28):
            writing.write_line(store, date(2026, 10, day), "memory", f"{day} " + "much to say " * 1500, clock)
    assert lines.one(store, NIGHT, "memory").text == "Kept before."
    assert not store.connection.in_transaction
    store.row(f"PRAGMA max_page_count = {pages * 50}")
    assert writing.write_line(store, NIGHT, "gratitude", "Room again.", clock).text == "Room again."
    assert whole(store)


def test_a_file_that_can_only_be_read_is_told_of(store, clock):
    writing.write_line(store, NIGHT, "memory", "Kept before.", clock)
    store.connection.execute("PRAGMA query_only = ON")
    with pytest.raises(CannotWrite, match="closed to writing"):
        writing.write_line(store, NIGHT, "memory", "After.", clock)
    assert lines.one(store, NIGHT, "memory").text == "Kept before."


@pytest.fixture
def locked(filled, unprivileged, monkeypatch) -> Path:
    """A keeper in a folder that may be read, not written. (The tests' own folder is closed to others.)"""
    place = Path(tempfile.gettempdir()) / f"keeper-locked-{os.getpid()}"
    shutil.move(filled, place)
    for path in (place, *place.rglob("*")):
        path.chmod(0o555 if path.is_dir() else 0o444)
    unprivileged()
    yield place
    if os.getuid() == 0:
        os.seteuid(0)
    for path in (place, *place.rglob("*")):
        path.chmod(0o755)
    shutil.move(place, filled)


@pytest.mark.skipif(sys.platform == "win32", reason="permissions are different there")
def test_a_folder_that_can_only_be_read_is_told_of(locked, clock):
    before = kept_bytes(locked)
    with pytest.raises(CannotWrite, match=r"\.$"), opening.open_or_begin(locked) as store:
        writing.write_line(store, NIGHT, "memory", "After.", clock)
    assert kept_bytes(locked) == before


@pytest.mark.skipif(sys.platform == "win32", reason="permissions are different there")
def test_a_folder_that_is_closed_is_told_of(filled, unprivileged):
    filled.chmod(0o000)
    unprivileged()
    try:
        with pytest.raises(CannotWrite, match="permission denied"):
            opening.open_or_begin(filled)
    finally:
        if os.getuid() == 0:
            os.seteuid(0)
        filled.chmod(0o755)


def test_a_keeper_held_by_another_program_is_told_of(store, folder, clock):
    other = sqlite3.connect(folder / FILE, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    store.connection.execute("PRAGMA busy_timeout = 50")
    with pytest.raises(CannotWrite, match="another program is holding it"):
        writing.write_line(store, NIGHT, "memory", "After.", clock)
    other.execute("ROLLBACK")
    other.close()
    assert writing.write_line(store, NIGHT, "memory", "After.", clock).text == "After."


def test_half_a_transaction_is_nothing(store):
    with pytest.raises(ZeroDivisionError), store.writing() as connection:
        connection.execute("INSERT INTO setting VALUES ('ink', 'plum')")
        with store.writing() as inner:
            inner.execute("INSERT INTO setting VALUES ('palette', 'day')")
        _ = 1 / 0
    assert store.rows("SELECT * FROM setting") == []


def test_another_programs_writing_shows(store, folder, clock):
    before = store.version()
    with open_store(folder) as other:
        writing.write_line(other, NIGHT, "memory", "From elsewhere.", clock)
    assert store.version() != before


def test_a_back_up_is_the_same_keeper(filled, tmp_path):
    with open_store(filled) as store:
        back_up(store, tmp_path / "copies" / "one.db")
        wanted = list(store.connection.iterdump())
    with sqlite3.connect(tmp_path / "copies" / "one.db") as copy:
        assert copy.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert list(copy.iterdump()) == wanted
    copy.close()


def test_a_back_up_without_room_is_told_of(filled, tmp_path):
    (tmp_path / "copies").write_text("a file, not a folder")
    with open_store(filled) as store, pytest.raises(KeeperError, match=r"\.$"):
        back_up(store, tmp_path / "copies" / "one.db")


# From each older version there is one test here: a file of that version goes
# in; a keeper of today, and a sound copy of the old one, come out.


@pytest.fixture
def version_0(folder) -> Path:
    """A keeper before the first migration: marked, and empty."""
    folder.mkdir()
    with sqlite3.connect(folder / FILE) as old:
        old.execute(f"PRAGMA application_id = {MARK}")
        old.execute("CREATE TABLE _migrations (migration_set TEXT, name TEXT, applied_at TEXT)")
    old.close()
    return folder


def test_a_keeper_of_version_0_is_copied_and_brought_up_to_date(version_0, clock):
    with open_store(version_0) as store:
        assert store.row("PRAGMA user_version")[0] == SCHEMA
        assert writing.write_line(store, NIGHT, "memory", "First.", clock).text == "First."
        assert whole(store)
    copy = sqlite3.connect(version_0 / "backups" / "before-upgrade-from-0.db")
    assert copy.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    assert copy.execute("SELECT name FROM sqlite_master").fetchall() == [("_migrations",)]
    copy.close()


def test_an_upgrade_that_cannot_be_copied_first_does_not_begin(version_0):
    (version_0 / "backups").write_text("a file, not a folder")
    before = kept_bytes(version_0)
    with pytest.raises(CannotWrite):
        open_store(version_0)
    assert kept_bytes(version_0) == before


@pytest.fixture
def version_1(folder) -> Path:
    """A keeper before places could be taken apart, with a night at a place and its line."""
    (folder / "backups").mkdir(parents=True)
    old = Database(sqlite3.connect(folder / FILE, isolation_level=None))
    old.execute("PRAGMA journal_mode = WAL")
    migrations.apply(old, stop_before="m002_place_merges")
    old.execute("INSERT INTO about VALUES ('id', 'one')")
    old.execute("INSERT INTO place (id, name, begun_at) VALUES ('p', 'Riga', '2026-11-14T20:00:00.000000Z')")
    old.execute(f"INSERT INTO night VALUES ('{NIGHT}', 'p', 'said', NULL, '2026-11-14T20:00:00.000000Z')")
    old.execute(
        "INSERT INTO line VALUES (1, 'l', ?, 'memory', 'Before.', NULL, '2026-11-14T20:00:00.000000Z', 0, '')",
        [str(NIGHT)],
    )
    old.execute(f"PRAGMA application_id = {MARK}")
    old.execute("PRAGMA user_version = 1")
    old.conn.close()
    return folder


def test_a_keeper_of_version_1_is_copied_and_its_places_can_be_taken_apart(version_1, clock):
    with open_store(version_1) as store:
        assert store.row("PRAGMA user_version")[0] == SCHEMA
        visby = writing.set_place(store, NIGHT.replace(day=1), "Visby", clock)
        place_merging.merge(store, "p", visby.id, clock)
        place_merging.take_apart(store, place_merging.merged_into(store, visby.id)[0].id)
        night = reading.night_page(store, NIGHT, NIGHT).night
        assert (night.place.name, night.line("memory").text) == ("Riga", "Before.")
        assert whole(store)
    copy = sqlite3.connect(version_1 / "backups" / "before-upgrade-from-1.db")
    assert copy.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    assert copy.execute("PRAGMA user_version").fetchone() == (1,)
    assert copy.execute("SELECT count(*) FROM sqlite_master WHERE name = 'place_merge'").fetchone() == (0,)
    copy.close()


@pytest.fixture
def version_2(version_1) -> Path:
    """A keeper before carried goals were known by where they came from, with one that was carried on."""
    old = Database(sqlite3.connect(version_1 / FILE, isolation_level=None))
    migrations.apply(old, stop_before="m004_goals_and_closing_questions")
    for month, outcome in (("2026-10", "carried on"), ("2026-11", "set")):
        old.execute("INSERT INTO month_page VALUES (?, 'Why?', 'Words.', NULL)", [month])
        old.execute("INSERT INTO goal VALUES (?, ?, 'Swim', ?, '', 0)", [f"g{month}", month, outcome])
    old.execute("INSERT INTO year_page VALUES (2025, 'closed', 13, 'then', 'later')")
    old.execute("INSERT INTO year_answer VALUES (2025, 'What held?', 'The bridge.', 0, 'then')")
    old.execute("PRAGMA user_version = 2")
    old.conn.close()
    return version_1


def test_goals_carried_on_before_they_were_known_by_origin_never_go(version_2):
    with open_store(version_2) as store:
        assert store.row("PRAGMA user_version")[0] == SCHEMA
        october, november = date(2026, 10, 1), date(2026, 11, 1)
        months.close_goal(store, october, "g2026-10", "done")
        # It may be the one carried on, or the person's own of the same words.
        assert [one.text for one in month_pages.one(store, november).goals] == ["Swim"]
        year = year_pages.one(store, 2025)
        assert (year.state, year.questions, year.answers[0].answer) == ("closed", None, "The bridge.")
        assert whole(store)


def test_programs_that_open_an_older_keeper_at_once_bring_it_up_to_date_once(version_1):
    look = (
        "import sys; from pathlib import Path; from keeper.actions.opening import open_kept\n"
        "print(open_kept(Path(sys.argv[1])).row('PRAGMA user_version')[0])"
    )
    running = [subprocess.Popen([sys.executable, "-c", look, version_1], stdout=subprocess.PIPE) for _ in range(4)]
    assert [int(process.communicate(timeout=200)[0]) for process in running] == [SCHEMA] * 4
    copy = sqlite3.connect(version_1 / "backups" / "before-upgrade-from-1.db")
    assert copy.execute("PRAGMA user_version").fetchone() == (1,)
    copy.close()
    with open_store(version_1) as store:
        assert whole(store)


def test_is_keeper(filled, tmp_path):
    assert is_keeper(filled)
    assert not is_keeper(tmp_path / "nowhere")
