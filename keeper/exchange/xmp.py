"""When a picture was taken, from its XMP packet.

XMP specification part 1 (ISO 16684-1) for the packet, part 2 for the
namespaces. A property is an attribute of a description or an element in it.
"""

import re
from dataclasses import dataclass
from datetime import datetime
from xml.parsers import expat

MOST_BYTES = 4 << 20
"""A packet longer than this is not looked at."""

_EXIF, _XMP, _PHOTOSHOP = (
    "http://ns.adobe.com/exif/1.0/", "http://ns.adobe.com/xap/1.0/", "http://ns.adobe.com/photoshop/1.0/",
)  # fmt: skip
_DATES = (f"{_EXIF} DateTimeOriginal", f"{_PHOTOSHOP} DateCreated", f"{_XMP} CreateDate")
"""When it was taken, when what is seen was made, when this picture of it was made: ModifyDate tells none of them."""

_SPELT = re.compile(
    r"(\d{4})-(\d\d)-(\d\d)(?:T(\d\d):(\d\d)(?::(\d\d)(?:\.\d*)?)?\s*(Z|[+-]\d\d:?\d\d)?)?", re.ASCII
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class XmpDate:
    """A date as XMP spells it: no zone; ``offset`` as "+02:00", "Z" or ""; perhaps without an hour."""

    local: datetime
    offset: str = ""
    day_only: bool = False


def taken(packet: bytes) -> XmpDate | None:
    """When the picture was taken, by the first of exif:DateTimeOriginal, photoshop:DateCreated, xmp:CreateDate.

    A year or a month alone is no date. None for a packet that is broken.
    """
    found = _properties(packet)
    dates = (_date(found[name]) for name in _DATES if name in found)
    return next((date for date in dates if date), None)


def _date(text: str) -> XmpDate | None:
    spelt = _SPELT.fullmatch(text.strip())
    if not spelt:
        return None
    day_only = spelt[4] is None
    try:
        local = datetime(*map(int, spelt.group(1, 2, 3)), *((12, 0) if day_only else (int(spelt[4]), int(spelt[5]))),
                         second=int(spelt[6] or 0))  # fmt: skip
    except ValueError:
        return None
    return XmpDate(local, spelt[7] or "", day_only)


class _Foreign(Exception):
    """The packet declares a document type; XMP has none, and they may unpack without end."""


def _properties(packet: bytes) -> dict[str, str]:
    found: dict[str, str] = {}
    if not 0 < len(packet) <= MOST_BYTES:
        return found
    parser, within = expat.ParserCreate(namespace_separator=" "), []

    def begin(name: str, attributes: dict[str, str]) -> None:
        within.append(name)
        for attribute in _DATES:
            if attribute in attributes:
                found.setdefault(attribute, attributes[attribute])

    def words(text: str) -> None:
        if within and within[-1] in _DATES:
            found[within[-1]] = found.get(within[-1], "") + text

    def refuse(*_: object) -> None:
        raise _Foreign

    parser.StartElementHandler, parser.CharacterDataHandler = begin, words
    parser.EndElementHandler = lambda _: within.pop()
    parser.StartDoctypeDeclHandler = refuse
    try:
        parser.Parse(packet.rstrip(b"\0"), True)
    except (expat.ExpatError, _Foreign, ValueError, LookupError):
        # What was read before the trouble is as good as the rest of broken notes.
        return found
    return found
