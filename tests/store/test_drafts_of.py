"""Drafts of what is no line, and a keeper from before there were any."""

import sqlite3
from datetime import date, timedelta

import pytest
from soundness import whole
from sqlite_utils import Database

from keeper.actions import drafts, reading, writing
from keeper.errors import UnreadableText
from keeper.store import lines, open_store
from keeper.store.file.migrations import migrations
from keeper.store.file.opening import FILE, MARK, SCHEMA

NIGHT = date(2026, 11, 14)


@pytest.fixture
def version_2(folder):
    """A keeper before anything but lines had drafts, with a line's draft in it."""
    (folder / "backups").mkdir(parents=True)
    old = Database(sqlite3.connect(folder / FILE, isolation_level=None))
    old.execute("PRAGMA journal_mode = WAL")
    migrations.apply(old, stop_before="m003_drafts_of")
    old.execute("INSERT INTO about VALUES ('id', 'one')")
    old.execute("INSERT INTO draft VALUES (?, 'memory', 'Half a', '2026-11-14T20:00:00.000000Z')", [str(NIGHT)])
    old.execute(f"PRAGMA application_id = {MARK}")
    old.execute("PRAGMA user_version = 2")
    old.conn.close()
    return folder


def test_a_keeper_of_version_2_gets_drafts_of_other_things_and_keeps_those_of_lines(version_2, clock):
    with open_store(version_2) as store:
        assert store.row("PRAGMA user_version")[0] == SCHEMA
        drafts.put_by(store, "question", "2026-11", "What did I", clock)
        assert drafts.waiting(store, "question", "2026-11") == "What did I"
        assert [draft.text for draft in lines.drafts(store)] == ["Half a"]
        assert whole(store)
    copy = sqlite3.connect(version_2 / "backups" / "before-upgrade-from-2.db")
    assert copy.execute("SELECT count(*) FROM sqlite_master WHERE name = 'draft_of'").fetchone() == (0,)
    copy.close()


def test_a_draft_is_of_one_thing_and_the_last_one_waits(store, clock):
    for what, ref, text in (("goal", "1", "one"), ("goal", "2", "two"), ("goal's word", "1", "word"), ("goal", "1", "on")):
        drafts.put_by(store, what, ref, text, clock)
    told = [drafts.waiting(store, what, ref) for what, ref in (("goal", "1"), ("goal", "2"), ("goal's word", "1"))]
    assert told == ["on", "two", "word"]
    drafts.forget(store, "goal", "1")
    assert drafts.waiting(store, "goal", "1") is None and drafts.waiting(store, "goal", "2") == "two"


def test_what_is_kept_and_its_draft_go_together_or_not_at_all(store, clock):
    drafts.put_by(store, "question", "2026-11", "What", clock)

    def too_long():
        writing.ask_question(store, NIGHT, "Asked?")
        writing.ask_question(store, NIGHT, "x" * 30_000)

    with pytest.raises(UnreadableText):
        drafts.keeping(store, "question", "2026-11", too_long)
    assert reading.month_question(store, NIGHT) == "" and drafts.waiting(store, "question", "2026-11") == "What"
    drafts.keeping(store, "question", "2026-11", lambda: writing.ask_question(store, NIGHT, "Asked?"))
    assert reading.month_question(store, NIGHT) == "Asked?" and drafts.waiting(store, "question", "2026-11") is None


# the drafts of lines


def earlier(store):
    return [wording.text for wording in reading.wordings(store, NIGHT, "memory")]


def test_a_draft_the_writer_does_not_know_becomes_an_earlier_wording(store, clock):
    writing.keep_draft(store, NIGHT, "memory", "theirs", clock)
    writing.write_line(store, NIGHT, "memory", "mine", clock)
    assert earlier(store) == ["theirs"] and lines.drafts(store) == ()
    writing.keep_draft(store, NIGHT, "memory", "one", clock)
    writing.keep_draft(store, NIGHT, "memory", "two", clock)
    assert earlier(store) == ["one", "theirs"] and [draft.text for draft in lines.drafts(store)] == ["two"]


def test_a_draft_the_writer_knows_or_goes_on_with_is_no_earlier_wording(store, clock):
    writing.keep_draft(store, NIGHT, "memory", "one", clock)
    writing.keep_draft(store, NIGHT, "memory", "one two", clock)
    writing.keep_draft(store, NIGHT, "memory", "other", clock, known="one two")
    writing.write_line(store, NIGHT, "memory", "kept", clock, known="other")
    assert earlier(store) == []


def test_a_draft_set_aside_belongs_to_its_line(store, clock):
    line = writing.write_line(store, NIGHT, "memory", "kept", clock)
    writing.keep_draft(store, NIGHT, "memory", "theirs", clock)
    writing.write_line(store, NIGHT, "memory", "mine", clock)
    assert {row[0] for row in store.rows("SELECT line_id FROM wording")} == {line.id}
    assert reading.wordings(store, NIGHT, "memory")[0].written.zone == "Europe/Riga"


def test_only_a_draft_that_is_known_is_dropped(store, clock):
    writing.keep_draft(store, NIGHT, "memory", "theirs", clock)
    writing.drop_draft(store, NIGHT, "memory", known="mine")
    assert len(lines.drafts(store)) == 1
    writing.drop_draft(store, NIGHT, "memory", known="theirs")
    assert lines.drafts(store) == ()


def test_the_kept_line_comes_back_in_place_of_a_draft(store, clock):
    writing.write_line(store, NIGHT, "memory", "kept", clock)
    writing.keep_draft(store, NIGHT, "memory", "typed over it", clock)
    assert writing.set_draft_aside(store, NIGHT, "memory", "typed over it", clock).text == "kept"
    assert "typed over it" in earlier(store) and lines.drafts(store) == ()
    assert reading.night_page(store, NIGHT, NIGHT + timedelta(days=1)).reworded == {"memory"}
