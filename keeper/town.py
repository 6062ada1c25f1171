"""A town of the gazetteer, and how its spellings are folded for look-up."""

import unicodedata
from dataclasses import dataclass

from keeper.plain_letters import LETTERS, with_capitals, without_marks

# The last three stand in names of towns only: a line of words keeps them.
_LETTERS = LETTERS | {"ŋ": "n", "ŧ": "t", "ə": "a"}
_SILENT = dict.fromkeys("'`´’‘ʻʼʽʾʿ", "")
_FOLDED = str.maketrans(_LETTERS | _SILENT)
_ROMAN = str.maketrans(with_capitals(_LETTERS) | dict.fromkeys("’‘ʻʼʽʾʿ´", "'") | dict.fromkeys("–—", "-"))


@dataclass(frozen=True, slots=True)
class Town:
    """A populated place, as GeoNames has it.

    ``name`` is GeoNames' own, mostly the English one; ``ascii_name`` the same
    without accents; ``local_name`` what people there write, in their script,
    or "" when that is ``name`` or is not known. ``region`` is the state or
    province ("" if unknown), ``country`` an ISO 3166-1 alpha-2 code, ``zone``
    an IANA name. Coordinates are degrees in WGS 84. ``spelling`` is the one
    that answered what was typed, or "" when nothing was typed.
    """

    geoname_id: int
    name: str
    ascii_name: str
    region: str
    country: str
    country_name: str
    latitude: float
    longitude: float
    zone: str
    population: int
    local_name: str = ""
    spelling: str = ""

    @property
    def called(self) -> str:
        """What the person calls it, as far as is known: as they sought it, else as it is called there in Latin letters."""
        return self.spelling or (self.local_name if self.local_name and ascii_of(self.local_name) else self.name)


def fold(spelling: str) -> str:
    """A spelling without case, accents and punctuation: its words, one space apart.

    Scripts other than Latin keep their letters. Follows Unicode's
    compatibility decomposition (UAX #15).
    """
    loose = spelling.lower()
    if not spelling.isascii():
        # Taken apart first: a letter in fancy dress has its small form only then.
        loose = _without_accents(unicodedata.normalize("NFKD", spelling).casefold())
    letters = loose.translate(_FOLDED)
    return " ".join("".join(letter if _belongs(letter) else " " for letter in letters).split())


def ascii_of(name: str) -> str:
    """A Latin name in ASCII: accents off, the letters that have none spelt out.

    Letters of other scripts are left out.
    """
    return _without_accents(name).translate(_ROMAN).encode("ascii", "ignore").decode().strip()


def _without_accents(text: str) -> str:
    return unicodedata.normalize("NFC", without_marks(text, _is_accent))


def _is_accent(letter: str) -> bool:
    # Classes 7 to 9 are the dots and killers that Indian scripts and kana
    # cannot be read without.
    mark = unicodedata.combining(letter)
    return mark == 1 or mark > 9


def _belongs(letter: str) -> bool:
    return letter.isalnum() or unicodedata.category(letter)[0] == "M"


_HEADS = ("comunidad", "hlavní", "principado", "región", "région", "respublika", "unitatea")
"""What a region can be, where a list of names sets it behind the name to sort by that."""


def natural_region(name: str) -> str:
    """A region as it is said: Comunidad de Madrid for "Madrid, Comunidad de"."""
    proper, comma, head = name.rpartition(", ")
    if comma and head.split()[0].lower() in _HEADS:
        return f"{head[0].upper()}{head[1:]} {proper}"
    return name
