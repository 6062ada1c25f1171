"""Every verb against keepers that are damaged, in whatever column: a sentence, never a traceback, and the rest is told."""

import os
import random
import shutil
import sqlite3
from datetime import date, timedelta
from itertools import cycle
from pathlib import Path

import pytest
from damaged_keeper import VALUES, columns, damage
from sample_pictures import save

from keeper.actions import opening, people, trouble, writing
from keeper.actions.photos import kept as photos
from keeper.actions.resting import rest_span
from keeper.actions.themes import asking as themes
from keeper.cli.command import DONE, MISUSED, WRONG, main
from keeper.model import Reading, Tracker
from keeper.store import create_store, trackers
from keeper.store.file.opening import FILE

NIGHT = date(2026, 11, 14)

VERBS = [
    ("show", "2026-11-14"), ("show", "2026-11-14", "--earlier"), ("find", "kettle"), ("find", "--best", "kettle"),
    ("find", "--kind", "m"), ("find", "--place", "Riga", "kettle"), ("ask", "--month", "2026-11"), ("themes",), ("where",),
    ("write", "More.", "--night", "2026-11-14", "--add"), ("rest", "2026-11-14"), ("wake", "2026-11-14"),
    ("rest", "--person", "Maija"), ("wake", "--person", "Maija"), ("rest", "--from", "2026-11", "--until", "2026-11"),
    ("ask", "What?", "--month", "2026-11"),
]  # fmt: skip


LOOKED_AT = ("line", "wording", "draft", "night", "place")
"""Tables of which a night is made."""


@pytest.fixture(scope="module")
def sound(tmp_path_factory) -> Path:
    """A keeper with a row of nearly everything, closed."""
    from datetime import UTC, datetime

    from keeper.clock import StoppedClock

    clock, folder = StoppedClock(datetime(2026, 11, 14, 22, tzinfo=UTC)), tmp_path_factory.mktemp("sound") / "keeper"
    with create_store(folder) as store:
        for day in range(20):
            night = NIGHT - timedelta(days=day)
            writing.set_place(store, night, "Riga" if day % 2 else "Visby", clock)
            writing.write_line(store, night, "memory", f"The kettle sang {day}, Maija too.", clock)
        writing.write_line(store, NIGHT, "memory", "The kettle sang again.", clock)
        writing.keep_draft(store, NIGHT, "gratitude", "On its w", clock)
        writing.ask_question(store, NIGHT, "What was new?")
        people.add(store, "Maija")
        rest_span(store, NIGHT - timedelta(days=5), NIGHT - timedelta(days=4))
        photos.take_in(store, save(folder.parent / "one.jpg"), clock, NIGHT)
        opening.change_settings(store, {"ink": "plum"})
        tracker = trackers.add(store, Tracker("", "Sleep", "hours", 0, 12, "h", "higher", NIGHT - timedelta(days=9)))
        trackers.note(store, [Reading(NIGHT, tracker, 7.5)])
        themes.rebuild_themes(store, clock)
    return folder


@pytest.fixture
def unexpected(monkeypatch) -> list[BaseException]:
    """What was caught only by the last net of all."""
    found = []

    def note(folder: Path, problem: BaseException) -> str:
        found.append(problem)
        return "Unexpected."

    monkeypatch.setattr(trouble, "note", note)
    return found


pytestmark = pytest.mark.usefixtures("clock_stands")


def copied(sound: Path, folder: Path) -> Path:
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    shutil.copy(sound / FILE, folder)
    return folder


def test_every_column_damaged_gives_a_sentence_or_works(sound, folder, capsys, unexpected):
    chance, verbs, tried = random.Random(5), cycle(VERBS), 0
    for table, column in columns(sound):
        looked_at = table in LOOKED_AT
        for value in chance.sample(VALUES, 2 if looked_at else 1):
            if not damage(copied(sound, folder), table, column, value):
                continue
            for verb in VERBS[1:3] if looked_at else (next(verbs),):
                status = main(["--in", str(folder), *verb], lambda *_, **__: DONE)
                told = capsys.readouterr()
                tried += 1
                what = f"{table}.{column} = {value!r}: {verb}"
                assert status in (DONE, WRONG), what
                assert status == DONE or told.err.endswith(".\n"), what
                # What would not fit the schema may be refused by SQLite itself.
                assert [one for one in unexpected if not isinstance(one, sqlite3.IntegrityError)] == [], what
    assert tried > 200


@pytest.mark.parametrize(
    ("table", "column", "value"),
    [("line", "written_at", "Thursday"), ("line", "offset_minutes", 2**62), ("line", "zone", None),
     ("wording", "replaced_at", "9999-12-31T23:59:59Z"), ("draft", "typed_at", None), ("place", "name", None),
     ("place", "latitude", float("inf")), ("photo", "taken_local", "0001-01-01")],
)  # fmt: skip
def test_the_words_of_the_night_are_shown_all_the_same(sound, folder, capsys, table, column, value):
    assert damage(copied(sound, folder), table, column, value)
    for verb in (("show", "2026-11-14", "--earlier"), ("find", "kettle")):
        assert main(["--in", str(folder), *verb], lambda *_, **__: DONE) == DONE
        assert "The kettle sang again." in capsys.readouterr().out


def test_of_lines_that_can_no_longer_be_read_the_others_are_found_and_it_is_said(sound, folder, capsys):
    copied(sound, folder)
    connection = sqlite3.connect(folder / FILE)
    connection.execute("UPDATE line SET written_at = 'Thursday' WHERE night = '2026-11-14'")
    connection.execute("UPDATE line SET text = CAST(x'6bffe0' AS TEXT) WHERE night = '2026-11-13'")
    connection.commit()
    connection.close()
    assert main(["--in", str(folder), "find", "--kind", "m"], lambda *_, **__: DONE) == DONE
    told = capsys.readouterr()
    assert len(told.out.splitlines()) == 20
    assert "k\ufffd\ufffd" in told.out and "a mark stands for letters" in told.err
    assert "The words of 2026-11-14 are whole." in told.err


@pytest.mark.skipif(os.name != "posix", reason="pipes with names are different there")
@pytest.mark.parametrize("verb", [*VERBS, ("photo", __file__), ("book", "2026"), ("write", "x"), ("show",), ()], ids=" ".join)
@pytest.mark.parametrize("bad", ["pipe", "pipe for a folder", "link to nothing", "device", "empty file", "no keeper", "folder"])
def test_every_verb_in_a_bad_place_is_a_sentence(tmp_path, capsys, unexpected, verb, bad):
    place = tmp_path / "place"
    place.mkdir() if bad not in ("pipe for a folder", "device") else None
    if bad == "pipe":
        os.mkfifo(place / FILE)
    elif bad == "pipe for a folder":
        os.mkfifo(place)
    elif bad == "device":
        place = Path("/dev/null")
    elif bad == "link to nothing":
        (place / FILE).symlink_to(tmp_path / "nowhere")
    elif bad == "folder":
        (place / FILE).mkdir()
    elif bad != "no keeper":
        (place / FILE).touch()
    status = main(["--in", str(place), *verb], lambda *_, **__: WRONG)
    told = capsys.readouterr()
    assert status in (WRONG, MISUSED) or verb[0] in ("where", "ask")
    assert status != WRONG or told.err.endswith(".\n") or not verb
    assert unexpected == []
