"""The photos' place is kept from the start: what stands below does not move when they come."""

from datetime import timedelta

import pytest
from photographs import taken

from keeper.actions.photos import kept as photos
from keeper.window.photos.strip import PhotoStrip

CAME = ("a.jpg", "b.jpg")


@pytest.mark.parametrize("count", [0, 1, 2])
def test_nothing_below_moves_when_the_photos_come(qtbot, opened, store, clock, tonight, tmp_path, write, count):
    write(tonight - timedelta(days=4), "memory", "Two bells out of tune, and nobody minded.")
    for name in CAME[:count]:
        photos.take_in(store, taken(tmp_path / name), clock, tonight)
    frame = opened(rest=False)
    page = frame.pages["night"]
    qtbot.waitUntil(lambda: page.open_nights.count() > 0)
    below = page.open_nights.itemAt(0).widget()
    qtbot.wait(50)
    before = below.mapTo(page.widget(), below.rect().topLeft()).y()
    assert page.photos is None
    page.hang(PhotoStrip(frame.desk, page))
    qtbot.waitUntil(lambda: page.photos.isVisible())
    assert len(page.photos.row.cells) == count
    qtbot.wait(150)
    assert below.mapTo(page.widget(), below.rect().topLeft()).y() == before


def test_the_room_follows_the_night_until_they_come(qtbot, opened, store, clock, tonight, tmp_path):
    photos.take_in(store, taken(tmp_path / "a.jpg"), clock, tonight)
    page = opened(rest=False).pages["night"]
    with_one = page.photo_room.itemAt(0).widget().minimumHeight()
    photos.take_from(store, tonight, photos.of_night(store, tonight)[0].id)
    page.refresh()
    assert 0 < page.photo_room.itemAt(0).widget().minimumHeight() < with_one
