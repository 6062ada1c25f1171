"""What rests, what lies outside of a span, and positions are in no file of an archive that is without them."""

import json
from datetime import date, timedelta

import pytest
from PIL import Image

from keeper.actions import people, resting, writing
from keeper.actions.giving.making import give
from keeper.actions.giving.wanted import ToGive
from keeper.actions.photos import kept as photos
from keeper.exchange.picture import look_at
from keeper.model import Act, Draft, Place
from keeper.store import lines, nights
from keeper.store.moments import utc_text
from keeper.store.photos import known
from keeper.store.places import named as places

NIGHT = date(2026, 11, 14)
LATITUDE, LONGITUDE = 57.7072, 11.9668


def placed_picture(path, orientation: int = 1):
    """A picture that says where it was taken, in Exif and in XMP, and has more behind its end."""
    image = Image.new("RGB", (40, 30), (200, 40, 40))
    exif = Image.Exif()
    exif[0x0112] = orientation
    gps = exif.get_ifd(0x8825)
    gps[1], gps[2], gps[3], gps[4] = "N", (57.0, 42.0, 25.92), "E", (11.0, 58.0, 0.48)
    xmp = b'<x:xmpmeta xmlns:x="adobe:ns:meta/"><GPSLatitude>57,42.432N</GPSLatitude></x:xmpmeta>'
    kind = {".jpg": "JPEG", ".png": "PNG", ".webp": "WEBP"}[path.suffix]
    image.save(path, kind, exif=exif, **({} if kind == "PNG" else {"xmp": xmp}))
    with path.open("ab") as behind:
        behind.write(b"57,42.432N")
    return path


@pytest.fixture
def kept(store, clock, tmp_path):
    """Three nights: one to be given, one that rests, one that names somebody who rests; and photos that tell their place."""
    write = writing.write_line
    write(store, NIGHT, "memory", "The school\u2019s piano held.", clock)
    write(store, NIGHT, "gratitude", "Marit laughed on the stairs.", clock)
    write(store, NIGHT - timedelta(1), "memory", "A night of sleet.", clock)
    write(store, NIGHT - timedelta(9), "memory", "Before the span.", clock)
    write(store, NIGHT - timedelta(9), "memory", "Long before the span.", clock)
    with store.writing(Act("Places")):
        place = places.add(store, Place("", "Gothenburg", latitude=LATITUDE, longitude=LONGITUDE, geoname_id=2711537))
        nights.set_place(store, NIGHT, place.id, "said", utc_text(clock.moment().utc))
        lines.keep_draft(store, Draft(NIGHT - timedelta(1), "gratitude", "Sleet again", clock.moment().utc), clock.moment())
    people.rest_by_name(store, "Marit")
    resting.rest_span(store, NIGHT - timedelta(1), NIGHT - timedelta(1))
    for name in ("a.jpg", "b.png", "c.webp"):
        photos.take_in(store, placed_picture(tmp_path / name), clock, NIGHT)
    return store


def everything(folder) -> str:
    """All bytes of an archive, as letters."""
    return "".join(path.read_bytes().decode("latin-1") for path in sorted(folder.rglob("*")) if path.is_file())


def test_what_rests_and_whoever_rests_is_nowhere(kept, clock, tmp_path):
    given = give(kept, tmp_path / "out", ToGive(resting=False), clock)
    assert (given.nights, given.lines, given.photos) == (2, 2, 3)
    found = everything(tmp_path / "out")
    assert "piano held" in found and "Long before" in found
    for words in ("leet", "Marit", "laughed"):
        assert words not in found


def test_only_the_span_is_in_it(kept, clock, tmp_path):
    give(kept, tmp_path / "out", ToGive(first=NIGHT, last=NIGHT), clock)
    found = everything(tmp_path / "out")
    assert "laughed" in found and "leet" not in found and "before the span" not in found.lower()
    tables = json.loads((tmp_path / "out/data/json/keeper.json").read_text("utf-8"))["tables"]
    assert [row["date"] for row in tables["night"]] == ["2026-11-14"]


def test_no_coordinate_is_left_in_any_file(kept, clock, tmp_path):
    whole, without = tmp_path / "whole", tmp_path / "without"
    give(kept, whole, ToGive(), clock)
    given = give(kept, without, ToGive(positions=False), clock)
    assert given.redrawn == 1
    secrets = ("57.70", "11.96", "2711537", "57,42.432N", "GPSLatitude")
    # The search finds what there is to be found.
    assert all(secret in everything(whole) for secret in secrets)
    assert [secret for secret in secrets if secret in everything(without)] == []
    assert "Gothenburg" in everything(without)
    pictures = sorted((without / "data/photos").rglob("*.*"))
    assert [path.suffix for path in pictures] and len(pictures) == 3
    for path in pictures:
        facts = look_at(path)
        assert (facts.latitude, facts.longitude, facts.width, facts.height) == (None, None, 40, 30)


def test_a_jpeg_without_its_position_is_the_same_picture_turned_the_same_way(store, clock, tmp_path):
    taken = photos.take_in(store, placed_picture(tmp_path / "a.jpg", orientation=6), clock, NIGHT)
    assert known.every(store)[0].latitude is not None and taken
    give(store, tmp_path / "out", ToGive(positions=False), clock)
    (given,) = (tmp_path / "out/data/photos").rglob("*.jpg")
    with Image.open(given) as image, Image.open(tmp_path / "a.jpg") as before:
        assert image.getexif()[0x0112] == 6 and not image.getexif().get_ifd(0x8825)
        assert image.tobytes() == before.tobytes()
