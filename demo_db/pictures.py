"""The demo's photos: which motif, at what hour, in what light, with what Exif.

Drawn with Pillow and numpy from the demo's seed; no picture is like another.
"""

import io
import random
import re
from dataclasses import replace
from datetime import date, datetime, timedelta, timezone
from hashlib import sha256

from PIL import Image

from demo_db import indoors, outdoors
from demo_db.evenings import local_moment
from demo_db.light import Light, light_of, sun_height
from demo_db.paint import Sheet
from demo_db.prose import ToldNight
from demo_db.towns import BY_NAME
from keeper.model import Photo

MAKER, CAMERA = "Marram", "Marram Two"
"""A camera that nobody makes."""

LONG, SHORT = 1200, 900
BIGGEST = 46_000
"""Bytes of a file, about: some two hundred pictures have to fit."""

AT_SEA = (56.4, 17.2)
"""Where the sun is reckoned for aboard the ferry; never written down."""

_DRAWN = {name: getattr(outdoors, name) for name in
          ("harbour", "sky", "boat", "lighthouse", "bridge", "snow", "garden", "jetty", "street")}  # fmt: skip
_DRAWN |= {name: getattr(indoors, name) for name in ("keys", "hall", "window", "bread", "forks", "cabin")}

_UPRIGHT_SHARE = {"street": 0.5, "lighthouse": 0.6, "window": 0.45, "cabin": 0.35, "sky": 0.3, "jetty": 0.3, "forks": 0.3,
                  "boat": 0.25, "garden": 0.3, "hall": 0.2, "snow": 0.25, "bread": 0.15}  # fmt: skip
_SEEN_NEARER = ("keys", "bread", "forks", "hall", "cabin", "garden", "snow")
_HOURS_OF = {"cabin": (20.5, 24.2), "bread": (6.5, 19), "keys": (9, 19.5), "forks": (9, 21.5), "hall": (10, 20.5)}


def picture(night: ToldNight, zone: str, seed: int) -> tuple[bytes, Photo]:
    """The picture of a night as a JPEG file, and what a keeper knows of it."""
    chance = random.Random(f"{seed} {night.date} {night.motif}")
    place = BY_NAME[night.place]
    position = (place.latitude, place.longitude) if place.latitude is not None else None
    local = _taken(night, zone, position or AT_SEA, chance)
    if position:
        position = tuple(round(degrees + chance.gauss(0, 0.004), 6) for degrees in position)
    sheet = _drawn(night, local, position or AT_SEA, chance)
    turned = sheet.height > sheet.width and chance.random() < 0.6
    if turned:
        # The camera was held on its side and said so.
        sheet = sheet.transpose(Image.Transpose.ROTATE_90)
    orientation = 6 if turned else 1
    data = _jpeg(sheet, _exif(local, position, orientation))
    return data, Photo(
        "", sha256(data).hexdigest(), "jpg", len(data), **_known(night, sheet, local, position, orientation)
    )


def _drawn(night: ToldNight, local: datetime, position: tuple[float, float], chance: random.Random) -> Image.Image:
    light = light_of(local, *position, night.caption, chance)
    if night.motif == "snow":
        light = _snowy(light)
    upright = chance.random() < _UPRIGHT_SHARE.get(night.motif, 0)
    sheet = Sheet(*((SHORT, LONG) if upright else (LONG, SHORT)), chance)
    _DRAWN[night.motif](sheet, light, _told(night))
    return _framed(sheet.image(), night.motif, chance)


def _told(night: ToldNight) -> str:
    """The caption, and what only the lines tell of the sky."""
    lines = " ".join(night.lines.values()).lower()
    northern = any(word in lines for word in ("northern lights", "red and green above", "green right over"))
    return night.caption.lower() + " aurora" * (northern and night.motif == "sky")


def _framed(image: Image.Image, motif: str, chance: random.Random) -> Image.Image:
    """The same scene from the other side, or from nearer, so that two of a kind differ."""
    if motif != "keys" and chance.random() < 0.5:
        image = image.transpose(Image.Transpose.FLIP_LEFT_RIGHT)
    share = chance.uniform(0.74, 1) if motif in _SEEN_NEARER else 1
    across, high = image.width * share, image.height * share
    left, top = (image.width - across) * chance.random(), (image.height - high) * chance.uniform(0.35, 1)
    return image.resize(image.size, Image.Resampling.BICUBIC, (left, top, left + across, top + high))


def _snowy(light: Light) -> Light:
    return replace(light, snow=True, season="winter")


_NUMBERS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
            "ten": 10, "eleven": 11, "twelve": 12, "noon": 12, "midnight": 0}  # fmt: skip
_HOURS = "(" + "|".join(_NUMBERS) + r")\b(?! (?:bathing|women|and|of|kinds|eggs|minutes))"
_PAST_OR_TO = re.compile(r"(half past|quarter past|twenty past|ten past|quarter to|ten to) " + _HOURS)
_PLAIN = re.compile(r"(\bat|\bafter|,|^) ?" + _HOURS + r"(?= o.clock| in the| at night|,|$)")
_MINUTES = {
    "half past": 0.5,
    "quarter past": 0.25,
    "twenty past": 0.33,
    "ten past": 0.17,
    "quarter to": -0.25,
    "ten to": -0.17,
}
_CLOCK = re.compile(r"\b(\d{1,2})\.(\d\d)\b")


def told_hour(caption: str) -> float | None:
    """The hour that a caption tells, 0 to 24, or None: ten at night is 22."""
    told = caption.lower()
    clock = _CLOCK.search(told)
    if clock:
        return int(clock[1]) + int(clock[2]) / 60
    spelt = _PAST_OR_TO.search(told) or _PLAIN.search(told)
    if not spelt:
        return 22 + 1 / 6 if "at night" in told else None
    hour = _NUMBERS[spelt[2]] + _MINUTES.get(spelt[1], 0)
    morning = "morning" in told or "dip" in told
    return hour if morning or spelt[2] in ("noon", "midnight") else hour + 12


def _taken(night: ToldNight, zone: str, position: tuple[float, float], chance: random.Random) -> datetime:
    told = told_hour(night.caption)
    if told is None:
        told = _hour(night, zone, position, chance)
    day = night.date + timedelta(days=1) if told < 4 else night.date
    moment = local_moment(day, told + chance.uniform(0, 0.12), zone)
    return moment.utc.astimezone(timezone(timedelta(minutes=moment.offset_minutes)))


def _hour(night: ToldNight, zone: str, position: tuple[float, float], chance: random.Random) -> float:
    """An hour of chance: the motif's own, or one when there is light to see by."""
    if night.motif in _HOURS_OF:
        return chance.uniform(*_HOURS_OF[night.motif])
    by_night = any(word in _told(night) for word in ("moon", "star", "comet", "lamp", "fires", "candle", "aurora"))
    hours = [6.5 + quarter / 4 for quarter in range(68)]
    seen = {hour: sun_height(local_moment(night.date, hour, zone).utc, *position) for hour in hours}
    wanted = [hour for hour, height in seen.items() if (height < -5 if by_night else height > -3)]
    return chance.choice(wanted or hours)


def _jpeg(sheet: Image.Image, exif: Image.Exif) -> bytes:
    """The file, at the best quality that keeps it small enough."""
    for quality in range(68, 40, -4):
        file = io.BytesIO()
        sheet.save(file, "JPEG", quality=quality, exif=exif, optimize=True, subsampling="4:2:0")
        if file.tell() <= BIGGEST:
            break
    return file.getvalue()


def _exif(local: datetime, position: tuple[float, float] | None, orientation: int) -> Image.Exif:
    exif = Image.Exif()
    stamp = local.strftime("%Y:%m:%d %H:%M:%S")
    offset = local.isoformat()[-6:]
    exif.update({0x010F: MAKER, 0x0110: CAMERA, 0x0112: orientation, 0x0132: stamp})
    exif.get_ifd(0x8769).update(
        {0x9000: b"0232", 0x9003: stamp, 0x9004: stamp, 0x9010: offset, 0x9011: offset, 0xA001: 1}
    )
    if position:
        exif.get_ifd(0x8825).update(_gps(*position))
    return exif


def _gps(latitude: float, longitude: float) -> dict:
    return {
        0: b"\x02\x03\x00\x00",
        1: "N" if latitude >= 0 else "S",
        2: _degrees(latitude),
        3: "E" if longitude >= 0 else "W",
        4: _degrees(longitude),
    }


def _degrees(value: float) -> tuple[float, float, float]:
    minutes, seconds = divmod(abs(value) * 3600, 60)
    degrees, minutes = divmod(minutes, 60)
    return degrees, minutes, round(seconds, 3)


def _known(night: ToldNight, sheet: Image.Image, local: datetime, position: tuple | None, orientation: int) -> dict:
    long_way = orientation == 6
    return {
        # As it is seen, turned rightly.
        "width": sheet.height if long_way else sheet.width,
        "height": sheet.width if long_way else sheet.height,
        "orientation": orientation,
        "taken_local": local.replace(tzinfo=None, microsecond=0),
        "taken_offset_minutes": round(local.utcoffset().total_seconds() / 60),
        "latitude": position[0] if position else None,
        "longitude": position[1] if position else None,
        "name": f"M2_{_number(night.date):05}.JPG",
    }


def _number(night: date) -> int:
    """The camera's own count: it only ever rises."""
    return 1200 + (night - date(2023, 4, 1)).days * 3 + sha256(night.isoformat().encode()).digest()[0] % 3
