"""Kinds become rows in a keeper of an earlier version, and its lines are numbered anew: nothing is lost by it."""

import random
import shutil
import sqlite3
import subprocess
import sys
import time
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from soundness import whole
from sqlite_utils import Database

from keeper.actions import finding, writing
from keeper.actions.finding import Sought
from keeper.model import KINDS, LineKind, Moment
from keeper.store import Store, create_store, lines, open_store, resting
from keeper.store import kinds as kept_kinds
from keeper.store.file.migrations import migrations
from keeper.store.file.opening import FILE, MARK, SCHEMA

FIRST = date(2026, 1, 30)
NIGHTS = 40
THEN = "2026-11-14T20:00:00.000000Z"
LINES = "SELECT id, night, kind, text, folded, written_at, offset_minutes, zone FROM line ORDER BY number"
HANGING = (
    "SELECT line_id, theme, closeness FROM theme_line ORDER BY line_id", "SELECT line_id, theme FROM theme_base ORDER BY line_id",
    "SELECT line_id, night, kind, text FROM wording ORDER BY night, kind", "SELECT night, kind, text FROM draft ORDER BY night, kind",
    "SELECT what, ref FROM resting ORDER BY ref", "SELECT year, month, ref FROM year_choice ORDER BY ref",
)  # fmt: skip
STEPS = {1: "m002_place_merges", 2: "m003_drafts_of", 6: "m007_kinds_as_rows"}


def old_keeper(folder: Path, version: int, nights: int = NIGHTS) -> Path:
    """A keeper as an earlier version left it: every kind on every night, and all that hangs on lines."""
    (folder / "backups").mkdir(parents=True)
    old = Database(sqlite3.connect(folder / FILE, isolation_level=None))
    old.execute("PRAGMA journal_mode = WAL")
    migrations.apply(old, stop_before=STEPS[version])
    old.execute("BEGIN")
    for day in range(nights):
        night = FIRST + timedelta(days=day)
        old.execute("INSERT INTO night (date, begun_at) VALUES (?, ?)", [str(night), THEN])
        for place, kind in enumerate(KINDS):
            old.execute(
                "INSERT INTO line (number, id, night, kind, text, folded, written_at, offset_minutes, zone) "
                "VALUES (?, ?, ?, ?, ?, ?, ?, 60, 'Europe/Riga')",
                [night.toordinal() * 4 + place, f"{kind}-{day}", str(night), kind, f"Æther {kind} of day{day}",
                 f"Aether {kind} of day{day}", THEN],
            )  # fmt: skip
    old.execute("INSERT INTO theme (number, id, begun_at) VALUES (4, 't', ?)", [THEN])
    old.execute("INSERT INTO theme_line SELECT id, 4, 0.25 FROM line WHERE number % 3 = 0")
    old.execute("INSERT INTO theme_base SELECT id, 4 FROM line WHERE number % 3 = 0")
    old.execute("UPDATE line SET text = text || ' again', folded = folded || ' again' WHERE number % 5 = 0")
    old.execute("INSERT INTO draft VALUES ('2026-01-29', 'reflection', 'half a th', ?)", [THEN])
    old.execute("INSERT INTO resting (id, what, ref, since) VALUES ('r', 'line', 'memory-3', ?)", [THEN])
    old.execute("INSERT INTO year_page (year, state, at, begun_at) VALUES (2026, 'begun', 2, ?)", [THEN])
    old.execute("INSERT INTO year_choice VALUES (2026, 1, 'line', 'gratitude-1', 0, 'kept', ?)", [THEN])
    old.execute("COMMIT")
    old.execute(f"PRAGMA application_id = {MARK}")
    old.execute(f"PRAGMA user_version = {version}")
    old.conn.close()
    return folder


def seen(folder: Path) -> dict[str, list]:
    """What lines say and what hangs on them."""
    connection = sqlite3.connect(folder / FILE)
    found = {question: connection.execute(question).fetchall() for question in (LINES, *HANGING)}
    connection.close()
    return found


def numbers_right(store: Store) -> bool:
    """Whether each line has the number of its night and kind, and the index finds it by that."""
    of_kind = {kind.key: kind.number for kind in kept_kinds.every(store)}
    rows = store.rows("SELECT number, night, kind FROM line")
    store.connection.execute("INSERT INTO line_words (line_words, rank) VALUES ('integrity-check', 1)")
    return all(number == date.fromisoformat(night).toordinal() * 64 + of_kind[kind] for number, night, kind in rows)


@pytest.mark.parametrize("version", STEPS)
def test_nothing_but_numbers_changes_in_a_keeper_of_an_earlier_version(folder, version):
    before = seen(old_keeper(folder, version))
    assert len(before[LINES]) == NIGHTS * 3
    assert all(before[question] for question in HANGING)
    with open_store(folder) as store:
        assert store.row("PRAGMA user_version") == (SCHEMA,) and whole(store) and numbers_right(store)
        assert store.row("PRAGMA foreign_keys") == (1,) and store.rows("PRAGMA foreign_key_check") == []
        assert kept_kinds.every(store) == tuple(LineKind(key, place, position=place) for place, key in enumerate(KINDS))
    assert seen(folder) == before
    copy = sqlite3.connect(folder / "backups" / f"before-upgrade-from-{version}.db")
    assert copy.execute("PRAGMA integrity_check").fetchone() == ("ok",) and copy.execute(LINES).fetchall() == before[LINES]
    copy.close()


def test_what_hangs_on_lines_goes_on_after_that(folder, clock):
    old_keeper(folder, 6)
    with open_store(folder) as store:
        night = next(night for night in map(date.fromordinal, range(FIRST.toordinal(), 10**6)) if (night.toordinal() * 4 + 1) % 15 == 3)
        line = lines.one(store, night, "memory")
        assert store.row("SELECT count(*) FROM theme_line WHERE line_id = ?", (line.id,)) == (1,)
        assert len([one for one in finding.find(store, Sought("day7")) if not one.near]) == 3
        writing.write_line(store, night, "memory", "Of the harbour crane.", clock)
        assert [one.text for one in lines.wordings(store, night, "memory")] == [line.text]
        assert store.row("SELECT count(*) FROM theme_line WHERE line_id = ?", (line.id,)) == (0,)
        assert [one.line.id for one in finding.find(store, Sought("harbour"))] == [line.id]
        writing.write_line(store, night, "memory", "", clock)
        assert all(one.near for one in finding.find(store, Sought("harbour"))) and len(lines.wordings(store, night, "memory")) == 2
        again = writing.write_line(store, FIRST + timedelta(days=3), "memory", "Reworded, and resting still.", clock)
        assert again.id == "memory-3" and again.resting
        assert [one.text for one in lines.drafts(store)] == ["half a th"] and whole(store) and numbers_right(store)
        with pytest.raises(sqlite3.IntegrityError), store.writing() as connection:
            connection.execute("UPDATE line SET kind = 'complaint' WHERE id = 'memory-3'")


def test_a_night_of_which_nothing_is_known_does_not_hold_it_up(folder):
    old_keeper(folder, 6)
    damaged = sqlite3.connect(folder / FILE)
    damaged.execute("DELETE FROM night WHERE date = ?", (str(FIRST),))
    damaged.commit()
    damaged.close()
    with open_store(folder) as store:
        assert len(lines.of_night(store, FIRST)) == 3 and resting.id_of(store, "line", "memory-3") == "r"


@pytest.fixture(scope="module")
def many(tmp_path_factory) -> Path:
    """A keeper of version 6 with a good deal in it, so that there is something to break off."""
    return old_keeper(tmp_path_factory.mktemp("many") / "keeper", 6, nights=1500)


OPENS = "import sys; from pathlib import Path; from keeper.store import open_store; print(1, flush=True); open_store(Path(sys.argv[1]))"


def opened(folder: Path, killed_after: float | None) -> float:
    """Let another program open a keeper, and kill it after so many seconds; how long it took."""
    opening = subprocess.Popen([sys.executable, "-c", OPENS, folder], stdout=subprocess.PIPE)
    opening.stdout.readline()
    begun = time.perf_counter()
    if killed_after is not None:
        time.sleep(killed_after)
        opening.kill()
    opening.communicate()
    return time.perf_counter() - begun


def test_it_may_be_killed_at_any_moment_and_begun_again(many, tmp_path):
    before, chance, left_at = seen(many), random.Random(7), []
    takes = opened(shutil.copytree(many, tmp_path / "whole"), None)
    # The first at once, however much faster the others are than what was timed.
    for number, share in enumerate((0, *(chance.uniform(0.3, 1.0) for _ in range(3)))):
        folder = shutil.copytree(many, tmp_path / str(number))
        opened(folder, share * takes)
        left = sqlite3.connect(folder / FILE)
        left_at += left.execute("PRAGMA user_version").fetchone()
        assert left_at[-1] in (6, SCHEMA) and left.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        left.close()
        with open_store(folder) as store:
            assert store.row("PRAGMA user_version") == (SCHEMA,) and whole(store) and numbers_right(store)
        assert seen(folder) == before
    assert 6 in left_at


def test_a_new_keeper_has_the_three_and_each_further_kind_a_number_of_its_own(folder):
    with create_store(folder) as store:
        added = [kept_kinds.add(store, LineKind("", -1, f"kind {number}")) for number in range(4)]
        assert [kind.number for kind in added] == [3, 4, 5, 6] and len({kind.key for kind in added}) == 4
        assert all(len(kind.key) == 36 for kind in added)
        lines.keep(store, FIRST, added[3].key, "The last.", _moment())
        lines.keep(store, FIRST - timedelta(days=1), added[3].key, "The night before.", _moment())
        lines.keep(store, FIRST, "gratitude", "The first.", _moment())
        assert numbers_right(store)
        assert [one.text for one in lines.between(store, FIRST, FIRST)] == ["The first.", "The last."]


def _moment() -> Moment:
    return Moment(datetime(2026, 11, 14, 20, tzinfo=UTC), 60, "Europe/Riga")
