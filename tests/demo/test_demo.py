"""The demo keeper: made again it is the same, it is large and varied enough, and what is planted is there."""

import re
import shutil
import sys
from collections import Counter
from datetime import date, timedelta
from itertools import pairwise
from pathlib import Path
from statistics import mean

import pytest

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from demo_db import prose, readings, towns  # noqa: E402
from demo_db.make import HERE, SEED, build, kept_pictures  # noqa: E402
from keeper.model import KINDS  # noqa: E402
from keeper.store import lines, month_pages, nights, open_store, trackers  # noqa: E402
from keeper.store.photos import known as photos  # noqa: E402
from keeper.store.places import named as places  # noqa: E402

SHIPPED = HERE / "keeper"
FIRST, LAST = date(2023, 5, 1), date(2026, 11, 14)
DAY = timedelta(days=1)
BIGGEST = 12_000_000
SAME_OPENING = 0.015
"""The greatest share of a kind's lines that may begin with the same three words."""


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    """The shipped keeper, opened in a copy."""
    folder = tmp_path_factory.mktemp("demo") / "keeper"
    shutil.copytree(SHIPPED, folder)
    with open_store(folder) as store:
        yield store


@pytest.fixture(scope="module")
def told():
    return prose.read_all(HERE / "lines", frozenset(towns.BY_NAME))


@pytest.fixture(scope="module")
def every_line(demo):
    return lines.between(demo, FIRST, LAST)


def test_made_again_it_is_the_same(demo, tmp_path):
    build(tmp_path / "keeper", kept_pictures(SHIPPED, _not_there))
    with open_store(tmp_path / "keeper") as again:
        made, shipped = _dump(again), _dump(demo)
        assert made.keys() == shipped.keys()
        for table in shipped:
            assert made[table] == shipped[table], f"{table} differs: run python -m demo_db.make"


def _not_there(night, _zone):
    pytest.fail(f"no picture of {night.date}, {night.caption!r}: run python -m demo_db.make")


def _dump(store) -> dict[str, list]:
    # The index of words is left out: its bytes are SQLite's own affair.
    names = [row[0] for row in store.rows("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")]
    kept = [name for name in names if not name.startswith(("sqlite_", "line_words"))]
    return {name: sorted(store.rows(f"SELECT * FROM {name}"), key=repr) for name in kept}


def test_is_one_sound_file_of_moderate_size(demo):
    assert sorted(path.name for path in SHIPPED.iterdir()) == ["keeper.db", "photos"]
    assert sum(path.stat().st_size for path in SHIPPED.rglob("*") if path.is_file()) < BIGGEST
    assert demo.rows("PRAGMA integrity_check") == [("ok",)]
    assert demo.rows("PRAGMA foreign_key_check") == []
    demo.rows("INSERT INTO line_words (line_words) VALUES ('integrity-check')")


def test_is_large_enough_and_has_gaps(demo, every_line):
    assert lines.span(demo) == (FIRST, LAST)
    kept = {line.night for line in every_line}
    assert len(kept) >= 1100 and timedelta(days=3.5 * 365) <= LAST - FIRST
    assert (LAST - FIRST).days + 1 - len(kept) > 80
    assert not nights.with_lines(demo, *readings.SILENCE)
    assert 12 <= len(places.every(demo)) <= 20


def test_places_are_said_once_a_stay_and_then_carried(demo):
    rows = demo.rows("SELECT date, place_id, place_source FROM night ORDER BY date")
    assert rows[0][2] == "said"
    for before, night in pairwise(rows):
        assert night[2] == ("carried" if night[1] == before[1] else "said"), night[0]
    unplaced = [place.name for place in places.every(demo) if place.latitude is None]
    assert unplaced == [towns.FERRY]


def test_lines_were_written_late_or_the_morning_after(every_line):
    mornings = 0
    for line in every_line:
        clock = line.written.utc.replace(tzinfo=None) + timedelta(minutes=line.written.offset_minutes)
        hours = clock.hour + clock.minute / 60 + 24 * (clock.date() - line.night).days
        mornings += hours > 30
        assert 21.1 <= hours < 25.6 or 31 <= hours < 34, (line.night, clock)
    assert 0.01 < mornings / len(every_line) < 0.08


def test_every_month_has_its_page(demo, told):
    assert len(told) == 43
    for month in told:
        page = month_pages.one(demo, month.month)
        assert page.question and page.words and page.goals and page.photo_id, month.month


def test_no_two_lines_are_equal(every_line):
    plain = Counter(" ".join(re.findall(r"\w+", line.text.casefold())) for line in every_line)
    assert [text for text, times in plain.items() if times > 1] == []


@pytest.mark.parametrize("kind", KINDS)
def test_no_opening_is_worn_out(every_line, kind):
    of_kind = [line.text for line in every_line if line.kind == kind]
    openings = Counter(" ".join(re.findall(r"[\w’']+", text.casefold())[:3]) for text in of_kind)
    worst = openings.most_common(8)
    assert worst[0][1] < max(SAME_OPENING * len(of_kind), 4), f"of {len(of_kind)} lines: {worst}"


def test_photos_are_whole_and_differ(demo):
    kept = photos.every(demo)
    assert len(kept) == len({photo.sha256 for photo in kept}) >= 130
    assert all(photo.caption for photo in kept)
    for photo in kept:
        photos.check(demo, photo)
    assert sum(photo.latitude is None for photo in kept) >= 5
    assert sum(photo.orientation == 6 for photo in kept) >= 10


def test_exif_says_what_the_keeper_knows(demo):
    from PIL import Image

    for photo in photos.every(demo):
        with Image.open(photos.file_of(demo, photo)) as opened:
            exif = opened.getexif()
            when, where = exif.get_ifd(0x8769), exif.get_ifd(0x8825)
            seen = opened.size if photo.orientation == 1 else opened.size[::-1]
        assert (photo.width, photo.height) == seen and exif[0x0112] == photo.orientation
        assert when[0x9003] == photo.taken_local.strftime("%Y:%m:%d %H:%M:%S")
        assert _minutes(when[0x9011]) == photo.taken_offset_minutes
        assert bool(where) == (photo.latitude is not None)
        if where:
            assert _degrees(where[2], where[1]) == pytest.approx(photo.latitude, abs=1e-5)
            assert _degrees(where[4], where[3]) == pytest.approx(photo.longitude, abs=1e-5)


def _minutes(offset: str) -> int:
    return int(offset[0] + "1") * (int(offset[1:3]) * 60 + int(offset[4:6]))


def _degrees(parts, letter: str) -> float:
    degrees, minutes, seconds = (float(part) for part in parts)
    return (degrees + minutes / 60 + seconds / 3600) * (-1 if letter in "SW" else 1)


def test_a_picture_drawn_again_is_the_same(demo, told):
    from io import BytesIO

    import numpy as np
    from PIL import Image

    from demo_db import evenings, pictures

    every_night = [night for month in told for night in month.nights]
    zones = evenings.zones(every_night)
    for night in [night for night in every_night if night.motif][::64]:
        data, photo = pictures.picture(night, zones[night.date], SEED)
        shipped = photos.photo_of_night(demo, night.date)
        assert (photo.taken_local, photo.latitude, photo.orientation) == (
            shipped.taken_local, shipped.latitude, shipped.orientation)  # fmt: skip
        one, other = (
            np.asarray(Image.open(source), float) for source in (BytesIO(data), photos.file_of(demo, shipped))
        )
        # Libraries of another version may round otherwise.
        assert np.abs(one - other).mean() < 3


@pytest.fixture(scope="module")
def noted(demo):
    """For each tracker's name its readings by night."""
    names = {tracker.id: tracker.name for tracker in trackers.every(demo)}
    found = {name: {} for name in names.values()}
    for reading in trackers.readings(demo, FIRST, LAST):
        found[names[reading.tracker_id]][reading.night] = reading.value
    return found


def _difference(values: dict, condition: dict, lag: int = 0) -> float:
    """The mean where the condition held ``lag`` days before, minus the mean where it did not."""
    told = [(value, condition[night - lag * DAY]) for night, value in values.items() if night - lag * DAY in condition]
    return mean(value for value, held in told if held) - mean(value for value, held in told if not held)


def _marked(noted: dict, name: str, since: date = FIRST) -> dict[date, bool]:
    """On every kept day since, whether the mark was yes."""
    kept = {night for values in noted.values() for night in values if night >= since}
    return {night: noted[name].get(night) == 1 for night in kept}


def test_short_sleep_goes_with_the_next_day(noted):
    short = {night: hours < readings.SHORT for night, hours in noted["sleep"].items()}
    assert -1.6 < _difference(noted["mood"], short, lag=1) < -0.8
    assert 0.3 < _difference(noted["stress"], short, lag=1) < 1.1
    assert abs(_difference(noted["mood"], short)) < 0.3


def test_swimming_goes_with_the_same_day(noted):
    swam = _marked(noted, "swam", readings.BAD_WINTER[1] + DAY)
    assert 0.25 < _difference(noted["mood"], swam) < 1.1


def test_swims_agree_with_the_lines(noted, told):
    by_lines = {night.date for month in told for night in month.nights if night.swam}
    assert {night for night, value in noted["swam"].items() if value == 1} == by_lines
    assert min(noted["swam"]) >= prose.FIRST_SWIM


@pytest.mark.parametrize("lag", [0, 1])
@pytest.mark.parametrize("name", ["mood", "stress", "sleep"])
def test_herring_goes_with_nothing(noted, name, lag):
    assert abs(_difference(noted[name], _marked(noted, "herring"), lag)) < 0.15


def test_ferry_nights_are_short_and_the_winter_was_bad(demo, noted):
    kept = nights.some(demo, noted["sleep"])
    aboard = {night.date: night.place.name == towns.FERRY for night in kept}
    assert _difference(noted["sleep"], aboard) < -1.3
    winter = {night: readings.BAD_WINTER[0] <= night <= readings.BAD_WINTER[1] for night in noted["mood"]}
    assert _difference(noted["mood"], winter) < -1


def test_gaps_and_ends_of_trackers(demo, noted):
    for first, last, names in ((*readings.SILENCE, noted), (*readings.NO_COFFEE_NOTED, ["coffee"])):
        for name in names:
            assert not any(first <= night <= last for night in noted[name]), name
    for tracker in trackers.every(demo):
        assert tracker.began <= min(noted[tracker.name])
        assert max(noted[tracker.name]) <= (tracker.ended or LAST)
    assert {0.0, 1.0} == set(noted["herring"].values())


GOOD = "question: Why?\ngoal: Rest | set\nwords: Well.\nchosen: 2\n\n1 Lübeck\ng: Soup.\n\n2\nm: More.\nphoto: sky | Grey\n"


@pytest.mark.parametrize(
    ("old", "new", "where"),
    [
        ("2\nm: More.", "1\nm: More.", "2024-06.txt:9: day 1 comes after"),
        ("2\nm: More.", "31\nm: More.", "2024-06.txt:9: the month has no day 31"),
        ("1 Lübeck", "1 Atlantis", "2024-06.txt:6: no such place"),
        ("1 Lübeck", "1", "2024-06.txt:6: no such place"),
        ("g: Soup.", "g Soup.", "2024-06.txt:7: neither"),
        ("g: Soup.", "g: Soup.\ng: Bread.", "2024-06.txt:8: unknown, or said twice"),
        ("g: Soup.\n", "", "2024-06.txt:8: night 1 has no line"),
        ("g: Soup.", "g: Soup.\nx: swam", "2024-06.txt:8: nobody swims"),
        ("g: Soup.", "g: Sou\u0308p.", "2024-06.txt:7: letters with loose accents"),
        ("photo: sky |", "photo: moon |", "2024-06.txt:11: a photo is"),
        ("| set", "| perhaps", "2024-06.txt:2: a goal is"),
        ("chosen: 2", "chosen: 1", "2024-06.txt:12: chosen night 1 has no photo"),
        ("question: Why?\n", "", "2024-06.txt:11: a month has a question"),
    ],
)
def test_a_slip_in_the_prose_is_told_with_its_place(tmp_path, old, new, where):
    file = tmp_path / "2024-06.txt"
    file.write_text(GOOD, "utf-8")
    assert len(prose.read_all(tmp_path, frozenset(towns.BY_NAME))[0].nights) == 2
    file.write_text(GOOD.replace(old, new, 1), "utf-8")
    with pytest.raises(prose.ProseError, match=f"^{re.escape(where)}"):
        prose.read_all(tmp_path, frozenset(towns.BY_NAME))


def test_a_missing_month_is_told(tmp_path):
    for month in ("2024-06", "2024-08"):
        (tmp_path / f"{month}.txt").write_text(GOOD, "utf-8")
    with pytest.raises(prose.ProseError, match="no file between 2024-06 and 2024-08"):
        prose.read_all(tmp_path, frozenset(towns.BY_NAME))
