"""The in-tray: what waits is told, taken in as one act, moved aside and never deleted; what is not whole is left alone."""

import os
from datetime import date, datetime

import pytest
from sample_pictures import quarters, save

from keeper.actions import reading, writing
from keeper.actions.history import undoing
from keeper.actions.taking_in import tray
from keeper.errors import BadSetting

NOW = datetime(2026, 11, 14, 22, 30).timestamp()
CHANGED = datetime.fromisoformat("2026-10-02T21:00+03:00").timestamp()


@pytest.fixture
def folder_(tmp_path, store):
    made = tmp_path / "from the telephone"
    made.mkdir()
    tray.choose(store, made)
    return made


@pytest.fixture
def put(folder_):
    """Puts a text into the in-tray, as of an evening in October."""

    def put(name: str, text: str = "words", changed: float = CHANGED):
        path = folder_ / name
        path.write_text(text, "utf-8")
        os.utime(path, (changed, changed))
        return path

    return put


@pytest.fixture
def take(store, clock):
    return lambda **more: tray.take_in(store, clock, now=NOW, **more)


def words(store, night: date) -> str:
    line = reading.one_night(store, night).line("gratitude")
    return line.text if line else ""


NIGHTS = {
    ("2026-06-03.txt", "A name that tells."): date(2026, 6, 3),
    ("note.txt", "3 June 2026\nA first line that tells."): date(2026, 6, 3),
    ("note.md", "Nothing tells but when it was changed."): date(2026, 10, 2),
}


@pytest.mark.parametrize("file", NIGHTS)
def test_a_text_goes_to_the_night_that_its_name_its_first_line_or_its_change_tells(store, put, take, folder_, file):
    put(*file)
    assert tray.waiting(store, NOW).told == "1 text"
    taken = take()
    assert words(store, NIGHTS[file]) == file[1].splitlines()[-1] and taken.nights == {NIGHTS[file]}
    assert sorted(os.listdir(folder_)) == ["taken in"] and (folder_ / "taken in" / file[0]).read_text("utf-8") == file[1]
    assert tray.waiting(store, NOW).told == ""


def test_photos_go_to_their_nights_and_all_of_it_is_one_act(store, put, take, folder_):
    put("2026-06-03.txt")
    photo = save(folder_ / "IMG_1.jpg", quarters(40, 32))
    os.utime(photo, (CHANGED, CHANGED))
    assert tray.waiting(store, NOW).told == "1 text and 1 photo"
    taken = take()
    assert taken.sentence == "Taken in: 1 text and 1 photo. The files are in \u201ctaken in\u201d."
    assert reading.one_night(store, date(2026, 10, 2)).photo_count == 1
    turned = undoing.turn(store, taken.act)
    assert turned.sentence.startswith("Took back: The in-tray: 1 text and 1 photo. The files stay in its folder \u201ctaken in\u201d")
    assert words(store, date(2026, 6, 3)) == "" and reading.one_night(store, date(2026, 10, 2)).photo_count == 0
    assert len(os.listdir(folder_ / "taken in")) == 2


def test_words_that_are_there_are_added_to_and_the_same_again_adds_nothing(store, clock, put, take, folder_):
    writing.write_line(store, date(2026, 6, 3), "gratitude", "Mine.", clock)
    for _ in range(2):
        put("2026-06-03.txt", "From the telephone.")
        take()
    assert words(store, date(2026, 6, 3)) == "Mine. From the telephone."
    # Nothing in the folder for what was taken in is ever written over.
    assert sorted(os.listdir(folder_ / "taken in")) == ["2026-06-03 2.txt", "2026-06-03.txt"]


LEFT = {
    "2026-06-03.txt": ("words", NOW - 2, "still being written"), "empty.txt": ("", CHANGED, "still being written"),
    "a.jpg.part": ("x", CHANGED, "still being written"), "~a.txt": ("x", CHANGED, "still being written"),
    "a (conflicted copy 2026-06-03).txt": ("x", CHANGED, "copy of a conflict"), "a.conflict-1.md": ("x", CHANGED, "copy of a conflict"),
}  # fmt: skip


@pytest.mark.parametrize("name", LEFT)
def test_what_is_not_whole_or_is_a_conflict_is_left_alone_and_told(store, put, take, folder_, name):
    text, changed, why = LEFT[name]
    put(name, text, changed)
    taken = take()
    assert [one.path.name for one in taken.left] == [name] and why in taken.sentence
    assert os.listdir(folder_) == [name] and store.row("SELECT count(*) FROM line") == (0,)


@pytest.mark.parametrize("text", ["  \n\n", "\0" * 2000])
def test_a_text_without_words_stays_where_it_is(store, put, take, folder_, text):
    put("note.txt", text)
    put("words.txt", "Herring.")
    taken = take()
    assert taken.texts == 1 and [one.path.name for one in taken.left] == ["note.txt"]
    assert "there are no words in it" in taken.sentence and (folder_ / "note.txt").exists()


def test_a_day_that_there_is_not_is_words_of_the_text_s_night(store, put, take):
    put("2026-06-03.txt", "Planned:\n31.11.2026 a day that never comes")
    assert take().left == [] and words(store, date(2026, 6, 3)) == "Planned:\n31.11.2026 a day that never comes"


def test_links_other_files_and_folders_are_left_alone(store, put, take, folder_, tmp_path):
    (tmp_path / "secret.txt").write_text("secret")
    (folder_ / "link.txt").symlink_to(tmp_path / "secret.txt")
    put("table.bin")
    (folder_ / "deeper").mkdir()
    assert tray.waiting(store, NOW).told == ""
    taken = take()
    assert [one.path.name for one in taken.left] == ["link.txt"] and taken.act is None
    assert sorted(os.listdir(folder_)) == ["deeper", "link.txt", "table.bin"] and (tmp_path / "secret.txt").exists()


def test_a_broken_photo_stays_and_the_rest_is_taken(store, put, take, folder_):
    put("a.jpg", "no picture")
    put("2026-06-03.txt")
    taken = take()
    assert taken.texts == 1 and "\u201ca.jpg\u201d stays where it is" in taken.sentence
    assert sorted(os.listdir(folder_)) == ["a.jpg", "taken in"]


def test_what_cannot_be_moved_aside_is_kept_and_told(store, put, take, folder_):
    put("2026-06-03.txt")
    (folder_ / "taken in").write_text("in the way")
    taken = take()
    assert words(store, date(2026, 6, 3)) == "words" and "could not be moved aside" in taken.sentence
    assert (folder_ / "2026-06-03.txt").exists()


def test_a_folder_that_is_gone_and_none_at_all_are_nothing(store, folder_, tmp_path, take):
    folder_.rmdir()
    assert tray.waiting(store) is None and take().sentence == "Nothing was taken in."
    tray.choose(store, None)
    assert tray.folder_of(store) is None


def test_the_keeper_itself_can_be_no_in_tray(store, tmp_path):
    for wrong in (store.folder, store.folder.parent, store.folder / "photos", tmp_path / "nowhere"):
        with pytest.raises(BadSetting):
            tray.choose(store, wrong)
