"""Towns found by what is typed and by where one is; the file's unpacking."""

import errno
import hashlib
import lzma
import os
import threading
from unicodedata import normalize

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from keeper.earth import rank_by_distance
from keeper.errors import CannotWrite, KeeperError
from keeper.shipped import resource
from keeper.store.places import towns_file as gazetteer_file
from keeper.store.places.cells import cell_of, cells_around
from keeper.store.places.towns import Gazetteer
from keeper.store.places.towns_file import NoGazetteer, unpack
from keeper.town import ascii_of, fold, natural_region

GDANSK = (54.352, 18.647)


@pytest.fixture(scope="module")
def towns(tmp_path_factory):
    gazetteer = Gazetteer(unpack(tmp_path_factory.mktemp("cache"), resource("gazetteer")))
    yield gazetteer
    gazetteer.close()


@pytest.fixture
def shipped(tmp_path):
    """A packed file that is no gazetteer, for the unpacking alone."""
    folder = tmp_path / "shipped"
    folder.mkdir()
    pack(folder, b"towns " * 500_000)
    return folder


def pack(folder, plain):
    (folder / "towns.db.xz").write_bytes(lzma.compress(plain, preset=0))
    (folder / "towns.sha256").write_text(hashlib.sha256(plain).hexdigest() + "\n")


@pytest.mark.parametrize(
    "typed, name, country, spelling",
    [
        ("munchen", "Munich", "DE", "M\u00fcnchen"),
        ("M\u00dcNCHEN", "Munich", "DE", "M\u00fcnchen"),
        ("munich", "Munich", "DE", "Munich"),
        ("gdansk", "Gda\u0144sk", "PL", "Gda\u0144sk"),
        ("danzig", "Gda\u0144sk", "PL", "Danzig"),
        ("lodz", "\u0141\u00f3d\u017a", "PL", "\u0141\u00f3d\u017a"),
        ("tromso", "Troms\u00f8", "NO", "Troms\u00f8"),
        ("arhus", "\u00c5rhus", "DK", None),
        ("giessen", "Gie\u00dfen", "DE", None),
        ("diyarbakir", "Diyarbak\u0131r", "TR", None),
        ("hafnarfjordur", "Hafnarfj\u00f6r\u00f0ur", "IS", None),
        ("thorlakshofn", "\u00deorl\u00e1ksh\u00f6fn", "IS", None),
        ("kings lynn", "King's Lynn", "GB", None),
        ("san fran", "San Francisco", "US", "San Francisco"),
        ("upon tyne", "Newcastle upon Tyne", "GB", None),
        ("\u043c\u043e\u0441\u043a\u0432\u0430", "Moscow", "RU", "\u041c\u043e\u0441\u043a\u0432\u0430"),
        ("\u6771\u4eac", "Tokyo", "JP", None),
        ("\u03b1\u03b8\u03b7\u03bd\u03b1", "Athens", "GR", None),
    ],
)
def test_found_however_spelt(towns, typed, name, country, spelling):
    first = towns.look_up(typed)[0]
    assert (fold(first.name), first.country) == (fold(name), country)
    assert spelling in (None, first.spelling)


def test_paris_before_perth(towns):
    names = [town.name for town in towns.look_up("par")]
    assert names[0] == "Paris" and "Perth" not in names


@pytest.mark.parametrize("typed", ["p", "pe", "per", "pert", "perth"])
def test_each_key_is_answered(towns, typed):
    answers = towns.look_up(typed)
    assert len(answers) == 8
    assert all(fold(town.spelling).replace(" ", "").find(typed) >= 0 for town in answers)


@pytest.mark.parametrize("typed, country", [("lund", "SE"), ("bath", "GB"), ("ely", "GB")])
def test_a_whole_name_comes_before_bigger_towns_that_begin_so(towns, typed, country):
    first, *others = towns.look_up(typed)
    assert (fold(first.name), first.country) == (typed, country)
    assert any(town.population > first.population for town in others)


def test_size_then_nearness(towns):
    assert towns.look_up("perth")[0].country == "AU"
    assert towns.look_up("perth", near=(56.46, -2.97))[0].country == "GB"


def test_the_village_next_door_is_found_when_one_is_near(towns):
    assert "Hel" not in [town.name for town in towns.look_up("he")]
    assert "Hel" in [town.name for town in towns.look_up("he", near=GDANSK)]


def test_after_a_comma_region_or_country(towns):
    assert {town.country for town in towns.look_up("paris, us")} == {"US"}
    assert towns.look_up("paris, texas")[0].region == "Texas"
    assert towns.look_up("perth, united k")[0].country == "GB"


@pytest.mark.parametrize("typed", ["", "  ", ",", "?!", "zzzzzzz", "\u00b9", '"', "*", "AND", "a OR b", "(", "-"])
def test_odd_typing_is_no_error(towns, typed):
    assert isinstance(towns.look_up(typed, near=GDANSK), list)


@settings(max_examples=50, deadline=None)
@given(st.text(max_size=12), st.floats(-90, 90), st.floats(-180, 180))
def test_anything_typed_anywhere_is_answered(towns, typed, latitude, longitude):
    assert len(towns.look_up(typed, near=(latitude, longitude), limit=3)) <= 3


def test_a_town_is_told_in_full(towns):
    town = towns.look_up("gdansk")[0]
    assert (town.ascii_name, town.region, town.country_name) == ("Gdansk", "Pomorskie", "Poland")
    assert town.zone == "Europe/Warsaw" and town.population > 400_000
    assert (town.latitude, town.longitude) == pytest.approx(GDANSK, abs=0.01)


@pytest.mark.parametrize(
    "typed, local",
    [("munich", "M\u00fcnchen"), ("athens", "\u0391\u03b8\u03ae\u03bd\u03b1"), ("sofia", "\u0421\u043e\u0444\u0438\u044f"),
     ("tbilisi", "\u10d7\u10d1\u10d8\u10da\u10d8\u10e1\u10d8"), ("geneva", "Gen\u00e8ve"), ("leeds", "")],
)  # fmt: skip
def test_what_people_write_there(towns, typed, local):
    town = towns.look_up(typed)[0]
    assert town.local_name.startswith(local) if local else town.local_name == ""


@pytest.mark.parametrize(
    "point, country",
    [((-90, 0), "CL"), ((90, 10), "SJ"), ((46, -6), "FR"), ((-48.9, -123.4), "CL"), ((40, -40), "PT"),
     ((-16.9, -179.99), "FJ"), ((-16.9, 179.99), "FJ"), ((0, 180), "TV"), ((0, -180), "TV")],
)  # fmt: skip
def test_nearest_from_far_away(towns, point, country):
    assert towns.nearest(*point).country == country


def test_nearest_agrees_with_trying_them_all(towns):
    every = towns._base.execute("SELECT geoname_id, lat / 1e5, lon / 1e5 FROM town WHERE city IS NULL").fetchall()
    for point in [(47.3, -1.2), (-33.4, 150.2), (66.5, -179.5), (71.9, 60.2), (12.0, 30.1)]:
        best = min(every, key=lambda town: rank_by_distance(point, town[1:]))
        assert towns.nearest(*point).geoname_id == best[0]


# Where people are photographed: squares, stations and town halls, to some hundred metres.
CENTRES = {
    "Madrid": (40.4169, -3.7035), "Rome": (41.8931, 12.4828), "New York City": (40.7580, -73.9855),
    "London": (51.5074, -0.1278), "Paris": (48.8566, 2.3522), "Berlin": (52.5200, 13.4050),
    "Vienna": (48.2085, 16.3731), "Lisbon": (38.7077, -9.1366), "Barcelona": (41.3870, 2.1701),
    "Tokyo": (35.6812, 139.7671), "Mexico City": (19.4326, -99.1332), "Buenos Aires": (-34.6037, -58.3816),
    "Istanbul": (41.0086, 28.9802), "Copenhagen": (55.6761, 12.5683), "Stockholm": (59.3251, 18.0711),
    "Prague": (50.0875, 14.4213), "Sydney": (-33.8688, 151.2093), "Budapest": (47.4979, 19.0402),
}  # fmt: skip


@pytest.mark.parametrize("city", CENTRES)
def test_in_the_middle_of_a_city_the_nearest_town_is_the_city(towns, city):
    assert towns.nearest(*CENTRES[city]).name == city


@pytest.mark.parametrize(
    "town, point",
    [("Legan\u00e9s", (40.3281, -3.7646)), ("Hoboken", (40.7440, -74.0324)), ("Potsdam", (52.3989, 13.0657)),
     ("Fiumicino", (41.7713, 12.2291)), ("Saint-Denis", (48.9362, 2.3574)), ("Kawasaki", (35.5308, 139.7030))],
)  # fmt: skip
def test_a_town_beside_a_city_is_itself(towns, town, point):
    assert towns.nearest(*point).name == town


@pytest.mark.parametrize("city, section", [("berlin", "Mitte"), ("madrid", "Madrid Centro"), ("k\u00f6ln", "Porz am Rhein")])
def test_a_section_comes_after_its_city(towns, city, section):
    found = [town.name for town in towns.look_up(f"{city}", limit=40)]
    first = towns.look_up(city)[0].name
    assert section not in found or found.index(first) < found.index(section)
    assert towns.look_up(section, limit=3), "it can be asked for all the same"


@pytest.mark.parametrize(
    "typed, spelling",
    [("Pir\u00e4", "Pir\u00e4us"), ("K\u00f6l", "K\u00f6ln"), ("\u00c5r", "\u00c5rhus"), ("M\u00fcnch", "M\u00fcnchen"),
     ("\u0141\u00f3", "\u0141\u00f3d\u017a"), ("Troms\u00f8", "Troms\u00f8"), ("pir\u00e4", "Pir\u00e4us")],
)  # fmt: skip
def test_an_accent_that_is_typed_is_meant(towns, typed, spelling):
    for form in ("NFC", "NFD"):
        assert towns.look_up(normalize(form, typed))[0].spelling == spelling


def test_an_accent_typed_wrongly_still_finds(towns):
    assert "Lisbon" in [town.name for town in towns.look_up("L\u00efsb\u00f6")]
    assert towns.look_up("Pir\u00e4us", near=(37.9, 23.7))[0].country == "GR"


def test_of_the_villages_called_so_the_one_near_the_person_comes_first(towns):
    assert towns.look_up("Pira", near=(-9.58, -77.71))[0].country == "PE"
    assert towns.look_up("Pira", near=(37.98, 23.73))[0].name == "Piraeus"


@pytest.mark.parametrize("typed, name", [("par", "Paris"), ("are", "Are"), ("zar", "Zar")])
def test_the_letters_of_an_airport_are_no_name(towns, typed, name):
    assert not any(town.spelling.isupper() for town in towns.look_up(typed))
    assert fold(towns.look_up(typed)[0].spelling).startswith(typed)


def test_the_largest_towns_of_a_zone(towns):
    assert [town.name for town in towns.largest("Asia/Tokyo", 3)] == ["Tokyo", "Yokohama", "Osaka"]
    assert towns.largest("Pacific/Honolulu", 1)[0].name == "Honolulu"
    assert all(town.zone == "Europe/Riga" for town in towns.largest("Europe/Riga"))
    assert towns.largest("") == towns.largest("Nowhere/At_all") == []


@given(st.floats(-90, 90), st.floats(-180, 180), st.floats(0, 360), st.floats(0, 1), st.sampled_from([1, 10]))
def test_cells_around_hold_all_that_is_near(latitude, longitude, bearing, part, side):
    from geographiclib.geodesic import Geodesic

    sphere = Geodesic(6371008.8, 0)
    there = sphere.Direct(latitude, longitude, bearing, part * 3 * 111_190)
    held = cells_around(latitude, longitude, 3, side)
    assert cell_of(there["lat2"], there["lon2"], side) in held


def test_folding_and_ascii():
    assert fold("  Saint-\u00c9tienne\u2019s  ") == "saint etiennes"
    assert fold("\u00c6r\u00f8sk\u00f8bing") == "aeroskobing"
    assert fold("\u0926\u093f\u0932\u094d\u0932\u0940") == "\u0926\u093f\u0932\u094d\u0932\u0940"
    assert ascii_of("\u00deorl\u00e1ksh\u00f6fn") == "Thorlakshofn"
    assert ascii_of("\u0141\u00f3d\u017a") == "Lodz"


@given(st.text(max_size=20))
def test_folding_twice_changes_nothing(text):
    assert fold(fold(text)) == fold(text)
    assert ascii_of(text).isascii()


def test_unpacked_once(tmp_path, shipped):
    file = unpack(tmp_path / "new" / "cache", shipped)
    before = file.stat().st_mtime_ns
    assert unpack(file.parent, shipped) == file
    assert file.stat().st_mtime_ns == before
    assert [path.name for path in file.parent.iterdir()] == [file.name]


@pytest.mark.parametrize("spoil", [b"", b"towns ", b"x" * 3_000_000])
def test_a_broken_cache_is_made_anew(tmp_path, shipped, spoil):
    file = unpack(tmp_path / "cache", shipped)
    file.write_bytes(spoil)
    assert unpack(file.parent, shipped).read_bytes() == b"towns " * 500_000


def test_a_newer_list_takes_the_place_of_the_older(tmp_path, shipped):
    older = unpack(tmp_path / "cache", shipped)
    left_over = older.with_name("towns-abc.part")
    left_over.touch()
    os.utime(left_over, (0, 0))
    pack(shipped, b"more towns")
    newer = unpack(tmp_path / "cache", shipped)
    assert list(newer.parent.iterdir()) == [newer]


@pytest.mark.parametrize("name", ["towns.db.xz", "towns.sha256"])
@pytest.mark.parametrize("spoil", ["cut", "other", "gone"])
def test_a_damaged_program_is_said(tmp_path, shipped, name, spoil):
    file = shipped / name
    plain = file.read_bytes()
    file.unlink()
    if spoil != "gone":
        file.write_bytes(plain[: len(plain) // 2] if spoil == "cut" else b"\xff other")
    with pytest.raises(NoGazetteer, match="Install the program again"):
        unpack(tmp_path / "cache", shipped)
    assert not list((tmp_path / "cache").glob("*"))


def test_a_full_disk_is_said(tmp_path, shipped, monkeypatch):
    def full(_):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(gazetteer_file.os, "fsync", full)
    with pytest.raises(CannotWrite, match="No space left on device") as told:
        unpack(tmp_path / "cache", shipped)
    assert isinstance(told.value, KeeperError)
    assert not list((tmp_path / "cache").iterdir())


def test_a_file_in_place_of_the_cache_folder_is_said(tmp_path, shipped):
    (tmp_path / "cache").write_text("in the way")
    with pytest.raises(CannotWrite):
        unpack(tmp_path / "cache", shipped)


def test_two_unpacking_at_once(tmp_path, shipped):
    made = []
    threads = [threading.Thread(target=lambda: made.append(unpack(tmp_path / "cache", shipped))) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(made) == 4 and len(set(made)) == 1
    assert list((tmp_path / "cache").iterdir()) == made[:1]


def test_the_packed_file_is_small_and_credited():
    folder = resource("gazetteer")
    assert (folder / "towns.db.xz").stat().st_size < 12_000_000
    assert "CC BY 4.0" in (folder / "CREDITS.txt").read_text(encoding="utf-8")


def test_a_folder_name_with_odd_signs(tmp_path):
    odd = tmp_path / "a b#c?d%20 \u00fc"
    gazetteer = Gazetteer(unpack(odd, resource("gazetteer")))
    assert gazetteer.look_up("gdansk")
    gazetteer.close()


@pytest.mark.parametrize(("listed", "said"), [
    ("Madrid, Comunidad de", "Comunidad de Madrid"), ("wallonne, Région", "Région wallonne"),
    ("Stînga Nistrului, unitatea teritorială din", "Unitatea teritorială din Stînga Nistrului"),
    ("San Andrés, Providencia y Santa Catalina", "San Andrés, Providencia y Santa Catalina"), ("", ""), ("Pomerania", "Pomerania"),
])  # fmt: skip
def test_a_region_that_is_sorted_by_its_name_is_told_in_its_natural_order(listed, said):
    assert natural_region(listed) == said
