"""What is given out is read by others' programs: bagit, icalendar, jsonschema, geojson, and Python's csv."""

import csv
import json
import subprocess
import sys
from xml.etree import ElementTree

import bagit
import pytest
from kept_things import fill
from waiting.when_used import WhenUsed

from keeper.actions import writing
from keeper.actions.giving.making import give
from keeper.actions.giving.wanted import ToGive
from keeper.shipped import resource
from keeper.store import lines

geojson = WhenUsed("geojson")
gpxpy = WhenUsed("gpxpy")
icalendar = WhenUsed("icalendar")
jsonschema = WhenUsed("jsonschema")

WORDS = "\u201cSweet\u201d, said Ingrid; \\o/ \u0416\u0443\u043a \u4e2d\u6587 \u05e9\u05dc\u05d5\u05dd \U0001f3b9\n=1+1, and so on" + " on" * 60


@pytest.fixture
def archive(store, clock, tmp_path):
    fill(store, clock, tmp_path)
    writing.write_line(store, clock.now().date(), "reflection", WORDS, clock)
    give(store, tmp_path / "out", ToGive(), clock)
    return tmp_path / "out"


def test_bagit_finds_it_whole(archive):
    bag = bagit.Bag(str(archive))
    assert bag.validate() and bag.version == "1.0" and bag.algorithms == ["sha256"]
    assert bag.payload_entries().keys() >= {"data/json/keeper.json", "data/database/keeper.db", "data/text/2026.md"}
    (archive / "data/text/2026.md").write_text("x")
    with pytest.raises(bagit.BagValidationError):
        bag.validate()


def test_icalendar_reads_every_line(archive, store):
    calendar = icalendar.Calendar.from_ical((archive / "data/calendar/lines.ics").read_bytes())
    entries = {str(one["UID"]): one for one in calendar.walk("VJOURNAL")}
    every = lines.between(store, *lines.span(store))
    assert {key: str(one["DESCRIPTION"]) for key, one in entries.items()} == {line.id: line.text for line in every}
    assert {key: one.decoded("DTSTART") for key, one in entries.items()} == {line.id: line.night for line in every}
    # RFC 5545, 3.6: these must be there.
    assert calendar["VERSION"] == "2.0" and calendar["PRODID"] and all(one["DTSTAMP"] for one in entries.values())


def test_the_schema_is_one_and_the_json_keeps_to_it(archive):
    schema = json.loads((archive / "data/json/keeper.schema.json").read_text("utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    told = json.loads((archive / "data/json/keeper.json").read_text("utf-8"))
    jsonschema.Draft202012Validator(schema).validate(told)
    assert {name for name, rows in told["tables"].items() if rows} >= {"line", "night", "place", "photo", "reading", "goal", "year_answer"}
    told["tables"]["line"][0]["text"] = 5
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.Draft202012Validator(schema).validate(told)


def test_the_schema_that_is_shipped_is_of_the_tables_of_today():
    """Where it fails the tables were changed: python -m resources.archive.build makes it again."""
    made = "from resources.archive.build import text; import sys; sys.stdout.buffer.write(text().encode())"
    built = subprocess.run([sys.executable, "-c", made], cwd=resource("").parent, capture_output=True, timeout=200)
    assert built.stdout == resource("archive/keeper.schema.json").read_bytes(), built.stderr


def test_the_rows_of_cells_are_read_as_they_were_written(archive, store):
    with (archive / "data/tables/lines.csv").open(encoding="utf-8", newline="") as opened:
        rows = list(csv.DictReader(opened, strict=True))
    assert {row["id"]: row["text"] for row in rows} == {line.id: line.text for line in lines.between(store, *lines.span(store))}
    assert {row["place"] for row in rows} == {"Riga", "L\u00fcbeck"}
    for file in (archive / "data/tables").glob("*.csv"):
        data = file.read_bytes()
        assert data.endswith(b"\r\n") and data.decode("utf-8")
        with file.open(encoding="utf-8", newline="") as opened:
            assert len({len(row) for row in csv.reader(opened, strict=True)}) == 1


def test_pandas_reads_the_cells_where_it_is_installed(archive):
    pandas = pytest.importorskip("pandas")
    assert len(pandas.read_csv(archive / "data/tables/lines.csv")) == 9


def test_geojson_reads_stays_and_journeys(archive):
    found = geojson.loads((archive / "data/globe/where.geojson").read_text("utf-8"))
    assert found.is_valid and {one.properties["what"] for one in found.features} <= {"stay", "journey"}


def test_gpx_and_kml_of_the_archive_are_read(archive):
    told = geojson.loads((archive / "data/globe/where.geojson").read_text("utf-8")).features
    found = gpxpy.parse((archive / "data/globe/where.gpx").read_text("utf-8"))
    assert len(found.waypoints) + len(found.tracks) == len(told)
    marks = ElementTree.parse(archive / "data/globe/where.kml").findall(".//{*}Placemark")
    assert len(marks) == len(told)


def test_the_readme_says_how_to_check_it_and_that_is_so(archive):
    assert "sha256sum --check manifest-sha256.txt" in (archive / "README.md").read_text("utf-8")
    try:
        checked = subprocess.run(["sha256sum", "--check", "--quiet", "manifest-sha256.txt"], cwd=archive, capture_output=True, timeout=200)
    except OSError:
        pytest.skip("There is no sha256sum here.")
    assert (checked.returncode, checked.stdout) == (0, b"")
