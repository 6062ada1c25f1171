"""What photos say of when and where, against exiftool (Phil Harvey), which read them independently.

Exif 2.32 (CIPA DC-008): DateTimeOriginal, OffsetTimeOriginal, Orientation and
the GPS tags. Every sample that the tests can make, and the real camera files
of tests/data/photos; those of a folder named by KEEPER_PHOTO_SAMPLES too.
"""

import json
import os
import re
import shutil
import subprocess
from itertools import product
from pathlib import Path

import pytest
from sample_pictures import FORMATS, REAL, exif, laid_down, quarters, save

from keeper.errors import UnreadablePhoto
from keeper.exchange.picture import read_picture

pytestmark = pytest.mark.skipif(not shutil.which("exiftool"), reason="exiftool is not installed.")

OFFSETS = ("", "Z", "+00:00", "+05:45", "-03:30", "+14:00", "-12:00")
DATES = ("2024:02:29 23:59:59", "1999:12:31 00:00:00", "2026:11:14 04:00:00", "0000:00:00 00:00:00", "    :  :     :  :  ", "")
POINTS = ((56.9496, 24.1052), (-33.8688, 151.2093), (40.7128, -74.006), (-54.8019, -68.303), (0.0, 9.5), (90.0, -180.0))
TAGS = ("MIMEType", "File:ImageWidth", "File:ImageHeight", "PNG:ImageWidth", "PNG:ImageHeight", "IFD0:ImageWidth",
        "IFD0:ImageHeight", "RIFF:ImageWidth", "RIFF:ImageHeight", "IFD0:Orientation", "ExifIFD:DateTimeOriginal",
        "ExifIFD:OffsetTimeOriginal", "GPS:GPSLatitude", "GPS:GPSLongitude", "GPS:GPSLatitudeRef",
        "GPS:GPSLongitudeRef", "QuickTime:Rotation")  # fmt: skip


def samples(folder: Path) -> list[Path]:
    """Every combination that is written by the tests themselves."""
    made = []
    for ending, orientation in product(FORMATS, range(1, 9)):
        notes = exif("2024:06:21 23:05:09", "+03:00", orientation, *POINTS[orientation % len(POINTS)])
        made.append(save(folder / f"o{orientation}.{ending}", laid_down(quarters(), orientation), notes))
    for ending, (number, point) in product(FORMATS, enumerate(POINTS)):
        made.append(save(folder / f"p{number}.{ending}", notes=exif(DATES[number], OFFSETS[number], 0, *point)))
    for ending, (number, when), offset in product(("jpg",), enumerate(DATES), OFFSETS):
        name = f"d{number}{offset.replace(':', '')}.{ending}"
        made.append(save(folder / name, notes=exif(when, offset)))
    return made


def told_by_exiftool(files: list[Path]) -> dict[Path, dict]:
    """What exiftool says of each file, by the names of its tags."""
    command = ["exiftool", "-json", "-n", "-G1", "-charset", "filename=utf8", *(f"-{tag}" for tag in TAGS)]
    done = subprocess.run([*command, *map(str, files)], capture_output=True, text=True)
    return {Path(one["SourceFile"]): one for one in json.loads(done.stdout)}


def when(told: dict) -> str | None:
    """exiftool's date, or None for one that says nothing."""
    text = str(told.get("ExifIFD:DateTimeOriginal", ""))
    return text if re.match(r"(?!0000)\d{4}:", text) else None


def offset(told: dict) -> int | None:
    """exiftool's offset in minutes; that of no date is of no use."""
    text = told.get("ExifIFD:OffsetTimeOriginal", "").replace("Z", "+00:00")
    spelt = re.fullmatch(r"([+-])(\d\d):(\d\d)", text)
    if not spelt or not when(told):
        return None
    return int(spelt[1] + "1") * (int(spelt[2]) * 60 + int(spelt[3]))


def where(told: dict) -> tuple[float, float] | None:
    """exiftool's position with its signs; nothing where it has none, or the 0, 0 of a device that is lost."""
    try:
        latitude, longitude = float(told["GPS:GPSLatitude"]), float(told["GPS:GPSLongitude"])
    except (KeyError, ValueError):
        return None
    latitude *= -1 if told["GPS:GPSLatitudeRef"] == "S" else 1
    longitude *= -1 if told["GPS:GPSLongitudeRef"] == "W" else 1
    return (latitude, longitude) if (latitude, longitude) != (0.0, 0.0) else None


def differences(path: Path, told: dict) -> list[str]:
    """In what the program and exiftool do not agree."""
    ours = read_picture(path)
    taken = ours.taken_local and ours.taken_local.strftime("%Y:%m:%d %H:%M:%S")
    here = None if ours.latitude is None else pytest.approx((ours.latitude, ours.longitude), abs=1e-7)
    # HEIC has its turning in a box of its own, and its decoder heeds that.
    turned = 1 if "hei" in ours.media_type else told.get("IFD0:Orientation", 1)
    pairs = {
        "kind": (told["File:MIMEType"], ours.media_type),
        "date": (when(told), taken),
        "offset": (offset(told), ours.taken_offset_minutes),
        "position": (where(told), here),
        "orientation": (turned, ours.orientation),
        "size": (size(told, ours.orientation), (ours.width, ours.height)),
    }
    return [name for name, (theirs, mine) in pairs.items() if theirs != mine]


def size(told: dict, orientation: int) -> tuple[int, int]:
    """The picture turned rightly, from exiftool's size of its rows."""
    group = next(group for group in ("File", "PNG", "RIFF", "IFD0") if f"{group}:ImageWidth" in told)
    wide, high = told[f"{group}:ImageWidth"], told[f"{group}:ImageHeight"]
    turned = orientation >= 5 or told.get("QuickTime:Rotation") in (90, 270)
    return (high, wide) if turned else (wide, high)


def test_all_that_is_made_agrees(tmp_path):
    made = samples(tmp_path)
    told = told_by_exiftool(made)
    assert len(told) == len(made) == 8 * 4 + 6 * 4 + 6 * 7
    assert {path.name: wrong for path in made if (wrong := differences(path, told[path]))} == {}


EXCEPTIONS = {
    # Seconds are 0/0: exiftool gives no position; the file's XMP has it, and
    # we read degrees and minutes.
    "Nikon_D5000.jpg": ["position"],
}


def test_real_files_agree():
    folders = [REAL, *filter(None, [os.environ.get("KEEPER_PHOTO_SAMPLES")])]
    files = [path for folder in folders for path in sorted(Path(folder).iterdir()) if path.suffix != ".md"]
    told, wrong, read = told_by_exiftool(files), {}, 0
    for path in files:
        try:
            found = differences(path, told[path])
        except UnreadablePhoto:
            assert path.name in ("beach.jpg", "IllegalArgumentException.HeifReader.processBoxes.heif")
            continue
        read += 1
        if found:
            wrong[path.name] = found
    print(f"\nexiftool: {read} real files read, {read - len(wrong)} agree in everything")
    assert wrong == EXCEPTIONS


def test_seconds_of_nought_by_nought_agree_with_the_same_files_xmp():
    path = REAL / "Nikon_D5000.jpg"
    done = subprocess.run(["exiftool", "-json", "-n", "-XMP-exif:all", path], capture_output=True, text=True)
    xmp = json.loads(done.stdout)[0]
    ours = read_picture(path)
    assert (ours.latitude, ours.longitude) == pytest.approx((xmp["GPSLatitude"], xmp["GPSLongitude"]), abs=1e-7)
