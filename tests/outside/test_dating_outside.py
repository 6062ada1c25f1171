"""When a photo without DateTimeOriginal was taken, in files made by exiftool (Phil Harvey) and read by it again.

Exif 2.32 (CIPA DC-008): DateTimeDigitized, OffsetTimeDigitized. XMP
specification part 2 (ISO 16684-1): exif:DateTimeOriginal, xmp:CreateDate;
photoshop:DateCreated. exiftool calls DateTimeDigitized "CreateDate".
"""

import json
import re
import shutil
import subprocess
from pathlib import Path

import pytest
from sample_pictures import FORMATS, quarters

from keeper.exchange.picture import PictureFacts, read_picture

pytestmark = pytest.mark.skipif(not shutil.which("exiftool"), reason="exiftool is not installed.")

WRITTEN = {
    "digitized": ["-ExifIFD:CreateDate=2019:06:02 11:00:01", "-ExifIFD:OffsetTimeDigitized=+03:00"],
    "xmp original": ["-XMP-exif:DateTimeOriginal=2019:06:03 12:00:02-03:30"],
    "xmp created": ["-XMP-xmp:CreateDate=2019:06:04 13:00:03+05:45"],
    "photoshop": ["-XMP-photoshop:DateCreated=2019:06:05 14:00:04Z"],
    "modified": ["-IFD0:ModifyDate=2021:01:01 10:00:00", "-XMP-xmp:ModifyDate=2021:01:01 10:00:00+02:00"],
    "digitized and xmp": ["-ExifIFD:CreateDate=2019:06:02 11:00:01", "-XMP-exif:DateTimeOriginal=2019:06:03 12:00:02"],
    "all": ["-ExifIFD:DateTimeOriginal=2019:06:01 10:00:00", "-ExifIFD:CreateDate=2019:06:02 11:00:01",
            "-XMP-exif:DateTimeOriginal=2019:06:03 12:00:02", "-XMP-xmp:CreateDate=2019:06:04 13:00:03"],
}  # fmt: skip
READ = (
    ("", "ExifIFD:DateTimeOriginal", "ExifIFD:OffsetTimeOriginal"), ("digitized", "ExifIFD:CreateDate", "ExifIFD:OffsetTimeDigitized"),
    ("notes", "XMP-exif:DateTimeOriginal", ""), ("notes", "XMP-photoshop:DateCreated", ""), ("notes", "XMP-xmp:CreateDate", ""),
)  # fmt: skip


@pytest.fixture(scope="module")
def made(tmp_path_factory) -> dict[Path, dict]:
    """Every kind of file with every set of tags, and what exiftool reads of it."""
    folder = tmp_path_factory.mktemp("dated")
    # All by one process: to begin one takes longer than what it does.
    told = []
    for ending, (name, tags) in ((ending, one) for ending in FORMATS for one in WRITTEN.items()):
        path = folder / f"{name}.{ending}"
        quarters().save(path)
        told += ["-q", "-overwrite_original", *tags, str(path), "-execute"]
    done = subprocess.run(["exiftool", "-@", "-"], input="\n".join(told), capture_output=True, text=True)
    assert done.returncode == 0 and not done.stderr, done.stderr
    asked = [f"-{tag}" for _, *tags in READ for tag in tags if tag]
    done = subprocess.run(["exiftool", "-json", "-G1", *asked, *sorted(folder.iterdir())], capture_output=True, text=True)
    return {Path(one["SourceFile"]): one for one in json.loads(done.stdout)}


def told(facts: PictureFacts) -> tuple:
    taken = facts.taken_local and facts.taken_local.strftime("%Y:%m:%d %H:%M:%S")
    return facts.dated_by, taken, facts.taken_offset_minutes


def expected(read: dict) -> tuple:
    """The first of the tags that exiftool reads, in the order in which they are believed."""
    for by, tag, offset_tag in READ:
        if tag in read:
            spelt = re.fullmatch(r"(\S+ [\d:]{8})(.*)", read[tag])
            return by, spelt[1], minutes(spelt[2] or read.get(offset_tag, ""))
    return "", None, None


def minutes(text: str) -> int | None:
    spelt = re.fullmatch(r"([+-])(\d\d):(\d\d)", text.replace("Z", "+00:00"))
    return int(spelt[1] + "1") * (int(spelt[2]) * 60 + int(spelt[3])) if spelt else None


def test_our_reading_agrees_with_exiftools(made):
    assert len(made) == len(WRITTEN) * len(FORMATS)
    assert {path.name: (told(read_picture(path)), expected(read)) for path, read in made.items()
            if told(read_picture(path)) != expected(read)} == {}  # fmt: skip
    seen = {expected(read) for read in made.values()}
    assert {by for by, *_ in seen} == {"", "digitized", "notes"} and ("", None, None) in seen
    print(f"\nexiftool: {len(made)} files it wrote agree in what dates them")
