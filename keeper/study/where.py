"""Where on Earth: coordinates as people type them, and the time zone of a point.

Coordinates are degrees in WGS 84, latitude first; north and east positive.
"""

import re
from typing import NoReturn

from keeper.errors import KeeperError

_EXAMPLE = "Write them as 54.3520, 18.6466 or 54\u00b021\u203207\u2033 N, 18\u00b038\u203248\u2033 E."
_SHOWN, _LONGEST = 60, 200

_SPELT = (
    (r"GEO:|LATITUDE|LONGITUDE|LAT\b|LONG?\b|[:=()\[\]]", " "),
    (r"\bNORTH\b", "N"),
    (r"\bSOUTH\b", "S"),
    (r"\bEAST\b", "E"),
    (r"\bWEST\b", "W"),
    ("[\u2212\u2013\u2010\u2011]", "-"),
    # 's' is seconds after 'm', else it is south.
    (r"(?<=\d)\s*M\s*([\d.,]+)\s*S", r"'\1" + '"'),
    (r"(?<=\d)\s*M\b", "'"),
    ("(?<=\\d)\\s*(?:DEG(?:REES?)?\\b|D|[\u00b0\u00ba\u02da])", "\u00b0"),
    ("''|\u2032\u2032|[\u2033\u201d\u201c\u02ba]", '"'),
    ("[\u2032\u2019\u2018\u02b9\u00b4`]", "'"),
)
"""Other spellings of what ``_ANGLE`` knows, upper case."""

_NUMBER = r"\d{1,9}(?:[.,]\d{1,12})?"
_ANGLE = re.compile(
    rf"(?P<before>[NSEW])?\s*(?P<sign>[+-])?\s*(?P<degrees>{_NUMBER})"
    rf"(?:(?:\s*\u00b0\s*|\s+)(?P<minutes>{_NUMBER})(?:(?:\s*'\s*|\s+)(?P<seconds>{_NUMBER}))?)?"
    r"\s*[\u00b0'\"]?\s*(?P<after>[NSEW])?"
)
_TWO_MARKS = re.compile(r"([^\u00b0]*\u00b0.*?)[,\s]*([+-]?[\d.]+\s*\u00b0.*)")


class UnreadableCoordinates(KeeperError):
    """What was typed is no point on Earth."""


def read_coordinates(typed: str) -> tuple[float, float]:
    """Latitude and longitude in degrees from what a person typed.

    Takes decimal degrees and degrees, minutes and seconds, with signs or with
    N, S, E and W before or after (then in either order), and decimal points or
    commas. Follows the spellings of ISO 6709, annex D.

    Raises UnreadableCoordinates with a sentence that says what is amiss.
    """
    text = typed.strip().upper()
    if not text:
        raise UnreadableCoordinates(f"No coordinates were typed. {_EXAMPLE}")
    if len(text) > _LONGEST:
        _refuse(typed, "is too long for a latitude and a longitude")
    for pattern, plain in _SPELT:
        text = re.sub(pattern, plain, text)
    angles = [_angle(half.strip(" ,;/"), typed) for half in _halves(text.strip(" ,;/"), typed)]
    sides = "".join(side for _, side in angles)
    if sides in ("EN", "ES", "WN", "WS"):
        angles.reverse()
    elif sides not in ("", "NE", "NW", "SE", "SW"):
        _refuse(typed, "needs one of N or S and one of E or W, or neither")
    (latitude, _), (longitude, _) = angles
    return _on_earth(latitude, longitude)


def write_coordinates(latitude: float, longitude: float, sexagesimal: bool = False) -> str:
    """A point as text that ``read_coordinates`` takes.

    Decimal degrees to four places (11 m), or degrees, minutes and whole
    seconds (31 m).
    """
    if not sexagesimal:
        return f"{latitude:.4f}, {longitude:.4f}"
    return f"{_sexagesimal(latitude, 'NS')}, {_sexagesimal(longitude, 'EW')}"


def zone_at(latitude: float, longitude: float) -> str:
    """The IANA time zone of a point in degrees; at sea one such as ``Etc/GMT+4``.

    From tzfpy's simplified timezone-boundary-builder outlines: right to some
    hundred metres at a border.

    Raises UnreadableCoordinates when the point is not on Earth.
    """
    # Loading the outlines takes a while that no start should pay.
    from tzfpy import get_tz

    _on_earth(latitude, longitude)
    return get_tz(longitude, latitude) or _nautical(longitude)


def _nautical(longitude: float) -> str:
    hours = round(longitude / 15)
    return f"Etc/GMT{-hours:+d}" if hours else "Etc/GMT"


def _halves(text: str, typed: str) -> tuple[str, str]:
    letters = [found.start() for found in re.finditer("[NSEW]", text)]
    if letters:
        if len(letters) != 2:
            _refuse(typed, "needs one of N or S and one of E or W, or neither")
        cut = letters[1] if letters[0] == 0 else letters[0] + 1
        return text[:cut], text[cut:]
    for separator in (r"\s*[;/]\s*", r"\s*,\s+|\s+,\s*", r"\s*,\s*"):
        parts = re.split(separator, text)
        if len(parts) == 2:
            return parts[0], parts[1]
    marked = _TWO_MARKS.fullmatch(text)
    if marked:
        return marked[1], marked[2]
    return _halves_of_numbers(text.split(), typed)


def _halves_of_numbers(numbers: list[str], typed: str) -> tuple[str, str]:
    if len(numbers) not in (2, 4, 6):
        _refuse(typed, "is not a latitude and a longitude")
    middle = len(numbers) // 2
    return " ".join(numbers[:middle]), " ".join(numbers[middle:])


def _angle(half: str, typed: str) -> tuple[float, str]:
    found = _ANGLE.fullmatch(half)
    if not found or (found["before"] and found["after"]):
        _refuse(typed, "is not a latitude and a longitude")
    side = found["before"] or found["after"] or ""
    if side and found["sign"]:
        _refuse(typed, f"has both a sign and the letter {side}; leave one out")
    size = _size(found, typed)
    return (-size if found["sign"] == "-" or side in ("S", "W") else size), side


def _size(found: re.Match, typed: str) -> float:
    parts = [part.replace(",", ".") for part in found.group("degrees", "minutes", "seconds") if part]
    if any("." in part for part in parts[:-1]):
        _refuse(typed, "has a fraction before the last number; only the last may have one")
    degrees, minutes, seconds = (float(part) for part in (*parts, "0", "0")[:3])
    if minutes >= 60 or seconds >= 60:
        _refuse(typed, "has 60 or more minutes or seconds; they go up to 59")
    return degrees + minutes / 60 + seconds / 3600


def _on_earth(latitude: float, longitude: float) -> tuple[float, float]:
    if abs(latitude) <= 90 and abs(longitude) <= 180:
        return latitude, longitude
    if abs(latitude) <= 180 and abs(longitude) <= 90:
        raise UnreadableCoordinates(
            f"A latitude of {latitude:g} is beyond the pole. Latitude comes first; are the two the wrong way round?"
        )
    raise UnreadableCoordinates(
        f"There is no point at {latitude:g}, {longitude:g}: latitude goes from -90 to 90, longitude from -180 to 180."
    )


def _refuse(typed: str, why: str) -> NoReturn:
    raise UnreadableCoordinates(f"\u201c{typed.strip()[:_SHOWN]}\u201d {why}. {_EXAMPLE}")


def _sexagesimal(angle: float, sides: str) -> str:
    # Whole seconds first, so that none is ever shown as 60.
    minutes, seconds = divmod(round(abs(angle) * 3600), 60)
    degrees, minutes = divmod(minutes, 60)
    return f"{degrees}\u00b0{minutes:02}\u2032{seconds:02}\u2033 {sides[angle < 0]}"
