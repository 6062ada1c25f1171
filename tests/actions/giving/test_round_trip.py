"""Out, into an empty keeper, and out again: the same, whatever was kept."""

import filecmp
import tempfile
from pathlib import Path

from hypothesis import Phase, given, settings
from kept_things import fill
from made_keepers.diaries import DIARIES, Diary, keep
from whole_keeper import content

from keeper.actions.giving.making import give
from keeper.actions.giving.taking import take
from keeper.actions.giving.wanted import ToGive
from keeper.actions.history import undoing
from keeper.actions.opening import open_or_begin
from keeper.actions.places import merging, said
from keeper.model import Act, PlacePage
from keeper.store.photos import known as photos
from keeper.store.places import named
from keeper.store.rows import second_wordings

NOT_SHRUNK = (Phase.explicit, Phase.reuse, Phase.generate)
"""Each case makes two keepers: what fails is told as it is."""

ONE_OF_ITS_OWN = {"database/keeper.db"}
"""Files that a second keeper has otherwise: its database has its own id and history."""


def same_files(one: Path, other: Path) -> set[str]:
    """The files of two payloads that are not the same, byte for byte, or are in one only."""
    names = {path.relative_to(root / "data").as_posix() for root in (one, other) for path in (root / "data").rglob("*") if path.is_file()}
    _, differing, lacking = filecmp.cmpfiles(one / "data", other / "data", names, shallow=False)
    return {*differing, *lacking} - ONE_OF_ITS_OWN


@settings(max_examples=4, phases=NOT_SHRUNK)
@given(DIARIES)
def test_what_goes_out_comes_in_and_goes_out_as_it_was(clock, diary: Diary):
    with tempfile.TemporaryDirectory() as room:
        first, second = Path(room, "first"), Path(room, "second")
        with open_or_begin(Path(room, "one")) as store, open_or_begin(Path(room, "other")) as other:
            with store.writing(Act("A diary")):
                keep(store, diary)
            give(store, first, ToGive(), clock)
            take(other, first, clock)
            assert content(other) == content(store)
            give(other, second, ToGive(), clock)
            assert same_files(first, second) == set()
            assert take(other, second, clock).act is None
            assert content(other) == content(store)


def test_photos_come_too_and_all_of_it_is_one_act(store, clock, tmp_path):
    fill(store, clock, tmp_path)
    give(store, tmp_path / "out", ToGive(), clock)
    with open_or_begin(tmp_path / "other") as other:
        before = content(other)
        taken = take(other, tmp_path / "out", clock)
        assert taken.sentence == "Taken in: 7 nights, 8 lines, 2 photos."
        assert content(other) == content(store)
        files = sorted(path.name for path in (other.folder / "photos").rglob("*.jpg"))
        assert files == sorted(path.name for path in (store.folder / "photos").rglob("*.jpg"))
        assert undoing.undo(other).sentence == "Took back: The archive \u201cout\u201d taken in."
        assert content(other) == before
        undoing.redo(other)
        assert content(other) == content(store)


def test_what_is_said_of_places_comes_too_and_meets_what_is_said_here(store, clock, tmp_path):
    fill(store, clock, tmp_path)
    here, there = (one.id for one in named.every(store))
    said.write_note(store, here, "The third floor.")
    said.say_roof(store, here, "room")
    said.choose_photo(store, here, photos.every(store)[0].id)
    said.write_note(store, there, "By the market.")
    merging.merge(store, there, here, clock)
    give(store, tmp_path / "out", ToGive(), clock)
    with open_or_begin(tmp_path / "other") as other:
        take(other, tmp_path / "out", clock)
        assert content(other) == content(store)
        assert said.of(other, here) == said.of(store, here) != PlacePage()
        said.write_note(other, here, "Another note.")
        take(other, tmp_path / "out", clock)
        assert said.of(other, here).note == "Another note."
        [kept_beside] = second_wordings.every(other)
        assert (kept_beside.what, kept_beside.here) == ("Place: note", "Another note.")
        assert kept_beside.there == "The third floor.\n\nBy the market."
    merging.take_apart(store, merging.merged_into(store, here)[0].id)
    assert said.of(store, there).note == "By the market."


def test_all_of_it_is_on_the_disk_before_it_bears_its_name(store, clock, tmp_path, monkeypatch):
    fill(store, clock, tmp_path)
    forced = []
    monkeypatch.setattr("os.sync", lambda: forced.append((tmp_path / "out").exists()), raising=False)
    give(store, tmp_path / "out", ToGive(), clock)
    assert forced == [False] and (tmp_path / "out").is_dir()
