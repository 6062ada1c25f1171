"""The list of keepers that were opened: outside any of them, private, and of no harm when it is damaged."""

import os
import stat
import sys
from datetime import date

import pytest

from keeper.actions.keepers import known
from keeper.errors import CannotWrite

DAY = date(2026, 11, 14)


@pytest.fixture(autouse=True)
def _somebodys(folder):
    """With data in the test's own folder."""


def folders() -> list:
    return [one.folder for one in known.every()]


def test_the_one_opened_last_comes_first_and_each_stands_once(tmp_path, store):
    known.note(store.folder, DAY)
    known.note(tmp_path / "gone", DAY.replace(day=15))
    known.note(store.folder, DAY.replace(day=16))
    assert [(one.folder, one.opened.day, one.there) for one in known.every()] == [
        (store.folder, 16, True), (tmp_path / "gone", 15, False),
    ]  # fmt: skip


def test_taken_off_the_list_the_keeper_is_left_alone(store):
    known.note(store.folder, DAY)
    known.forget(store.folder)
    assert folders() == [] and (store.folder / "keeper.db").exists()


@pytest.mark.skipif(sys.platform != "linux", reason="names are text elsewhere")
def test_a_name_that_is_no_text_is_kept(tmp_path):
    odd = tmp_path / os.fsdecode(b"k\xff\xe9eper")
    known.note(odd, DAY)
    assert folders() == [odd]


def test_it_is_its_owners_alone_and_in_no_keeper(store, folder):
    before = os.umask(0)
    try:
        known.note(store.folder, DAY)
    finally:
        os.umask(before)
    file = folder.parent / known.LIST
    assert file.exists() and (os.name != "posix" or stat.S_IMODE(file.stat().st_mode) == 0o600)


@pytest.mark.parametrize("text", ["", "no list", "[1, 2]", '{"a": 1}', '{"a": "soon"}', "\u00e9"])
def test_a_damaged_list_is_begun_anew(store, folder, text):
    (folder.parent / known.LIST).write_text(text, encoding="utf-8")
    assert folders() == []
    known.note(store.folder, DAY)
    assert folders() == [store.folder]


def test_one_that_cannot_be_written_is_told(store, folder):
    (folder.parent / f"{known.LIST}.new").mkdir()
    with pytest.raises(CannotWrite, match=r"could not be written: .*\.$"):
        known.note(store.folder, DAY)
