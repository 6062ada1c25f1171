"""Looking a keeper over: at each opening, all of it weekly, its photos within a month."""

import sqlite3
from datetime import date, timedelta

import pytest
from PIL import Image
from sample_pictures import save

from keeper.actions import opening, writing
from keeper.actions.damage import checking
from keeper.actions.photos import kept as photos
from keeper.errors import CannotWrite, Stopped
from keeper.store import open_store
from keeper.store.file.folder import DAMAGE, FILE

NIGHT = date(2026, 11, 14)


@pytest.fixture
def kept(store, clock):
    """A keeper with lines, one of them changed."""
    for n in range(20):
        writing.write_line(store, NIGHT - timedelta(days=n), "memory", f"The kettle sang {n}.", clock)
    writing.write_line(store, NIGHT, "memory", "The kettle sang again.", clock)
    return store


def behind_its_back(folder, *statements: str) -> None:
    connection = sqlite3.connect(folder / FILE)
    for statement in statements:
        connection.execute(statement)
    connection.commit()
    connection.close()


def test_a_keeper_that_is_well(kept):
    assert checking.look_over(kept, NIGHT) == "" and not kept.only_read


@pytest.mark.parametrize("change", [
    "UPDATE line SET text = 'The kettle sank 3.' WHERE text = 'The kettle sang 3.'",
    "UPDATE line SET text = CAST(x'41ffe042' AS TEXT) WHERE text = 'The kettle sang 3.'",
    "UPDATE line SET written_at = '2026-11-11T20:00:00.000000Z' WHERE text = 'The kettle sang 3.'",
    "UPDATE line SET id = '019a6ff4-1ec8-7bf0-9f7b-f0fa2c2eddf9' WHERE text = 'The kettle sang 3.'",
    "UPDATE line SET zone = 'Mars' WHERE text = 'The kettle sang 3.'", "UPDATE line SET sum = NULL WHERE text = 'The kettle sang 3.'",
    "UPDATE line SET number = number + 1 WHERE text = 'The kettle sang 3.'",
])  # fmt: skip
def test_a_line_that_is_not_as_it_was_written_closes_the_keeper_to_writing(kept, folder, clock, change):
    behind_its_back(folder, change)
    assert "1 line is not as it was written: Wednesday 11 November 2026." in checking.look_over(kept, NIGHT)
    with open_store(folder) as other:
        for one in (kept, other):
            assert one.only_read
            with pytest.raises(CannotWrite, match="damaged"):
                writing.write_line(one, NIGHT, "gratitude", "Swam.", clock)


def test_a_number_of_another_night_is_found(kept, folder):
    behind_its_back(folder, "UPDATE line SET number = number + 1000000 WHERE text = 'The kettle sang 3.'")
    assert "1 line" in checking.look_over(kept, NIGHT)


def test_an_earlier_wording_and_the_index_of_words_are_looked_at_weekly(kept, folder):
    assert checking.look_over(kept, NIGHT) == ""
    behind_its_back(folder, "UPDATE wording SET text = 'The kettle sank 0.'")
    assert checking.look_over(kept, NIGHT + timedelta(days=6)) == ""
    assert "earlier wordings" in checking.look_over(kept, NIGHT + timedelta(days=7))


def test_an_index_that_no_longer_agrees_is_found(kept, folder):
    behind_its_back(folder, "INSERT INTO line_words (line_words) VALUES ('delete-all')")
    assert "index of words" in checking.look_over(kept, NIGHT, all_of_it=True)


def test_what_was_noted_is_taken_back_when_all_is_sound(kept, folder):
    (folder / DAMAGE).write_text("The disk was wrong, or the memory.")
    with opening.open_kept(folder) as store:
        assert store.only_read
        assert checking.look_over(store, NIGHT) == ""
    with opening.open_kept(folder) as store:
        assert not store.only_read


def test_it_can_be_stopped(kept):
    with pytest.raises(Stopped):
        checking.look_over(kept, NIGHT, lambda: True)


def test_all_photos_are_read_within_a_month_and_damaged_ones_told_of(kept, folder, clock, tmp_path):
    for n in range(10):
        photos.take_in(kept, save(tmp_path / f"{n}.jpg", Image.new("RGB", (40 + n, 30))), clock, NIGHT)
    file = sorted((folder / "photos").rglob("*.jpg"))[4]
    file.write_bytes(file.read_bytes()[:-20])
    day, read, damaged = NIGHT, 0, []
    assert checking.read_some_photos(kept, day - timedelta(days=1)).read == 1
    # Opened on some of the days only.
    for gap in (0, 1, 1, 1, 5, 9, 12):
        day += timedelta(days=gap)
        some = checking.read_some_photos(kept, day)
        read, damaged = read + some.read, damaged + list(some.damaged)
    assert 10 <= read <= 16 and len(set(damaged)) == 1 and "4.jpg" not in damaged[0] and "changed or damaged" in damaged[0]
    assert checking.read_some_photos(kept, day).read == 0


def test_an_index_that_would_not_show_a_line_is_found(kept, folder):
    kept.close()
    data = (folder / FILE).read_bytes()
    # In the index by night and kind the two stand together; in the line's own row as well, in another page.
    pages = [data[at : at + 4096] for at in range(0, len(data), 4096)]
    index = next(n for n, page in enumerate(pages) if page[0] == 0x0A and b"2026-11-11memory" in page)
    pages[index] = pages[index].replace(b"2026-11-11memory", b"2026-11-11memorx")
    (folder / FILE).write_bytes(b"".join(pages))
    with open_store(folder) as store:
        assert "Its file is not built as it should be" in checking.look_over(store, NIGHT)
