"""An archive in one file: given, read back, taken in again; and files that no keeper has given."""

import io
import os
import stat
import struct
import warnings
import zipfile

import pytest
from kept_things import fill
from whole_keeper import content

from keeper.actions.giving.making import give
from keeper.actions.giving.taking import look, take
from keeper.actions.giving.wanted import ToGive, free_place
from keeper.actions.history import undoing
from keeper.actions.opening import open_or_begin
from keeper.actions.writing import write_line
from keeper.errors import AlreadyKept, BadArchive, CannotWrite, KeeperError, Stopped
from keeper.exchange.archive import one_file
from keeper.store.file import passing


@pytest.fixture
def filled(store, clock, tmp_path):
    return fill(store, clock, tmp_path)


@pytest.fixture
def other(tmp_path):
    with open_or_begin(tmp_path / "other") as opened:
        yield opened


def test_one_file_goes_out_and_comes_in_as_the_folder_does(filled, other, clock, tmp_path):
    given = give(filled, tmp_path / "all.zip", ToGive(), clock)
    assert given.path == tmp_path / "all.zip" and given.bytes == given.path.stat().st_size
    seen = look(other, tmp_path / "all.zip")
    assert (seen.lines, seen.photos) == (8, 2)
    before = content(other)
    taken = take(other, tmp_path / "all.zip", clock)
    assert content(other) == {**content(filled), "second_wording": content(other)["second_wording"]}
    assert take(other, tmp_path / "all.zip", clock).act is None
    undoing.turn(other, taken.act)
    assert content(other) == before
    # What was unpacked is gone.
    assert [one for one in (other.folder / "passing").rglob("*") if one.is_file()] == []


def test_others_read_it_too(filled, clock, tmp_path):
    """One folder that is named as the file, and in it the bag (RFC 8493, section 4), read by the library bagit."""
    bagit = pytest.importorskip("bagit")
    give(filled, tmp_path / "all.zip", ToGive(), clock)
    with zipfile.ZipFile(tmp_path / "all.zip") as packed:
        assert packed.testzip() is None and {name.split("/")[0] for name in packed.namelist()} == {"all"}
        packed.extractall(tmp_path / "open")
    assert bagit.Bag(str(tmp_path / "open" / "all")).is_valid()


def test_something_there_is_never_written_over_but_an_archive_that_is_to_be(filled, clock, tmp_path):
    (tmp_path / "all.zip").write_text("mine")
    for replace in (False, True):
        with pytest.raises(AlreadyKept):
            give(filled, tmp_path / "all.zip", ToGive(), clock, replace=replace)
    assert (tmp_path / "all.zip").read_text() == "mine"
    give(filled, tmp_path / "again.zip", ToGive(frozenset({"text"})), clock)
    small = (tmp_path / "again.zip").stat().st_size
    give(filled, tmp_path / "again.zip", ToGive(), clock, replace=True)
    assert (tmp_path / "again.zip").stat().st_size > small
    assert free_place(tmp_path, clock.now().date(), ".zip").suffix == ".zip"


@pytest.mark.parametrize("words", ["The database", "Into one file"])
def test_stopped_nothing_is_left(filled, clock, tmp_path, words):
    heard = []
    before = sorted(os.listdir(tmp_path))
    with pytest.raises(Stopped):
        give(filled, tmp_path / "all.zip", ToGive(), clock, lambda _share, told: heard.append(told), lambda: words in heard)
    assert sorted(os.listdir(tmp_path)) == before


def test_a_disk_that_keeps_something_else_is_told(filled, clock, tmp_path, monkeypatch):
    packed = one_file.pack

    def badly(folder, target, *rest):
        packed(folder, target, *rest)
        data = bytearray(target.read_bytes())
        data[len(data) // 3] ^= 0xFF
        target.write_bytes(data)

    monkeypatch.setattr(one_file, "pack", badly)
    before = sorted(os.listdir(tmp_path))
    with pytest.raises(CannotWrite, match="Nothing was given"):
        give(filled, tmp_path / "all.zip", ToGive(), clock)
    assert sorted(os.listdir(tmp_path)) == before


# files that no keeper has given


def packed(*its: tuple[str | zipfile.ZipInfo, bytes], how: int = zipfile.ZIP_DEFLATED) -> bytes:
    """A file of these parts."""
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", how) as into, warnings.catch_warnings():
        # That a name stands there twice is meant.
        warnings.simplefilter("ignore")
        for name, data in its:
            into.writestr(name, data)
    return made.getvalue()


def link(name: str) -> zipfile.ZipInfo:
    """An entry that is a link (the system's mode lies in the upper half: APPNOTE 4.4.15, as Unix has it)."""
    made = zipfile.ZipInfo(name)
    made.create_system, made.external_attr = 3, (stat.S_IFLNK | 0o777) << 16
    return made


def locked(data: bytes) -> bytes:
    """The same, said to be encrypted (APPNOTE 4.4.4, bit 0)."""
    whole = bytearray(data)
    for sign, at in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        place = whole.find(sign)
        while place >= 0:
            whole[place + at] |= 1
            place = whole.find(sign, place + 1)
    return bytes(whole)


def listing(data: bytes, size: int) -> bytes:
    """The same, whose list of files is said to be so long."""
    at = data.rfind(b"PK\x05\x06") + 12
    return data[:at] + struct.pack("<I", size) + data[at + 4 :]


def nameless(data: bytes) -> bytes:
    """The same, whose first file has no name in the list: it is the file's comment there (APPNOTE 4.3.12)."""
    at = data.find(b"PK\x01\x02") + 28
    name, extra, comment = struct.unpack_from("<3H", data, at)
    return data[:at] + struct.pack("<3H", 0, extra, name + comment) + data[at + 6 :]


BAG = ("x/bagit.txt", b"BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n")
HOSTILE = {
    "out of it": packed(BAG, ("x/../../out", b"x")), "rooted": packed(BAG, ("/tmp/out", b"x")), "strokes": packed(BAG, ("x/..\\..\\out", b"x")),
    "drive": packed(BAG, ("C:/out", b"x")), "a link": packed(BAG, (link("x/data"), b"/etc")), "locked": locked(packed(BAG)),
    "two tops": packed(BAG, ("y/z", b"x")), "no top": packed(BAG, ("z", b"x")), "a bomb": packed(BAG, ("x/data/b", b"\0" * 3_000_000)),
    "twice": packed(BAG, BAG), "a file as a folder": packed(BAG, ("x/a", b"x"), ("x/a/b", b"x")), "packed oddly": packed(BAG, how=zipfile.ZIP_LZMA),
    "cut": packed(BAG, ("x/data/b", bytes(range(256)) * 40))[:-9], "nothing": b"", "words": b"not one", "empty": packed(), "no bag": packed(("x/y", b"z")),
    "endless list": listing(packed(BAG), 0xFFFFFFF0), "damaged": packed(BAG).replace(b"BagIt", b"bAgIt"), "nameless": nameless(packed(BAG)),
    "long": packed(BAG, ("x/" + "n" * 5000, b"x")), "deep": packed(BAG, ("x/" + "d/" * 3000 + "x", b"x")),
}  # fmt: skip


@pytest.mark.parametrize("name", HOSTILE)
def test_it_is_refused_with_a_sentence_and_nothing_is_written(other, clock, tmp_path, monkeypatch, name):
    # So that a bomb need not be made of hundreds of megabytes.
    monkeypatch.setattr(one_file, "_BESIDES", 1_000_000)
    (tmp_path / "bad.zip").write_bytes(HOSTILE[name])
    before, there = content(other), sorted(os.listdir(tmp_path))
    for act in (lambda: look(other, tmp_path / "bad.zip"), lambda: take(other, tmp_path / "bad.zip", clock)):
        with pytest.raises(KeeperError) as told:
            act()
        assert isinstance(told.value, BadArchive | CannotWrite) and str(told.value).endswith(".")
    assert content(other) == before and sorted(os.listdir(tmp_path)) == there
    assert [one for one in (other.folder / "passing").rglob("*") if one.is_file()] == []


def test_what_is_not_there_and_what_is_no_file_are_told(other, tmp_path):
    with pytest.raises(BadArchive, match="There is no archive"):
        look(other, tmp_path / "gone.zip")
    if hasattr(os, "mkfifo"):
        os.mkfifo(tmp_path / "pipe.zip")
        with pytest.raises(BadArchive, match="neither a folder nor a file"):
            look(other, tmp_path / "pipe.zip")


def test_without_room_to_unpack_it_is_told(filled, other, clock, tmp_path, monkeypatch):
    give(filled, tmp_path / "all.zip", ToGive(), clock)
    monkeypatch.setattr(one_file, "_ROOM_LEFT", 1 << 60)
    with pytest.raises(CannotWrite, match="have to be free"):
        look(other, tmp_path / "all.zip")


def test_what_was_broken_off_before_is_cleared_away_by_the_next(store, clock, tmp_path):
    """Half an archive holds the person's words, too, under a name that begins with a dot."""
    coming = passing.name_elsewhere(store.folder, "keeper")
    gone = coming.replace(passing.mark(store.folder), "1-0123456789ab")
    write_line(store, clock.now().date(), "memory", "In tune.", clock)
    (tmp_path / "to" / gone).mkdir(parents=True)
    (tmp_path / "to" / gone / "passing.db").write_bytes(b"words")
    give(store, tmp_path / "to" / "keeper.zip", ToGive(), clock)
    assert [path.name for path in (tmp_path / "to").iterdir()] == ["keeper.zip"]
