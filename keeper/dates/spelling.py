"""How dates are written where a person lives: the order of their parts, and the names."""

import re
import unicodedata
from dataclasses import dataclass
from functools import cache

from keeper.dates.written import MONTHS as ENGLISH_MONTHS
from keeper.dates.written import WEEKDAYS as ENGLISH_WEEKDAYS
from keeper.plain_letters import without_marks

# Today, yesterday, the day before: as the Unicode CLDR (relative days) has them, and the usual other spellings.
_DAYS = {
    "ar": ("اليوم", "أمس", "أول أمس"), "cs": ("dnes", "včera", "předevčírem"), "da": ("i dag", "i går", "i forgårs"),
    "de": ("heute", "gestern", "vorgestern"), "el": ("σήμερα", "χθες", "προχθές"), "en": ("today", "yesterday", ""),
    "es": ("hoy", "ayer", "anteayer"), "et": ("täna", "eile", "üleeile"), "fi": ("tänään", "eilen", "toissapäivänä"),
    "fr": ("aujourd'hui", "hier", "avant-hier"), "hu": ("ma", "tegnap", "tegnapelőtt"), "it": ("oggi", "ieri", "l'altro ieri"),
    "ja": ("今日", "昨日", "一昨日"), "ko": ("오늘", "어제", "그저께"), "lt": ("šiandien", "vakar", "užvakar"),
    "lv": ("šodien", "vakar", "aizvakar"), "nb": ("i dag", "i går", "i forgårs"), "nl": ("vandaag", "gisteren", "eergisteren"),
    "pl": ("dzisiaj", "wczoraj", "przedwczoraj"), "pt": ("hoje", "ontem", "anteontem"), "ru": ("сегодня", "вчера", "позавчера"),
    "sv": ("i dag", "i går", "i förrgår"), "tr": ("bugün", "dün", "evvelsi gün"), "uk": ("сьогодні", "учора", "позавчора"),
    "zh": ("今天", "昨天", "前天"),
}  # fmt: skip
PARTED = re.compile(r"[\s,./()\u060c\u3001-]+")
"""What stands between the parts of a date."""

_ENGLISH_DAYS = {
    "tonight": 0, "today": 0, "last night": 1, "yesterday": 1, "the night before last": 2, "the day before yesterday": 2,
    "day before yesterday": 2, "tomorrow": -1,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Spelling:
    """The way of one language and country.

    ``order`` is "dmy", "mdy" or "ymd"; ``months`` and ``weekdays`` (from
    Monday) hold all names of each, long and short; ``language`` is its code
    of ISO 639; ``around`` are words that stand in its dates and mean nothing.
    English names are understood as well.
    """

    order: str = "dmy"
    months: tuple[tuple[str, ...], ...] = ()
    weekdays: tuple[tuple[str, ...], ...] = ()
    language: str = "en"
    around: tuple[str, ...] = ()


ENGLISH = Spelling()


def order_of(shown: str, year: str, month: str, day: str) -> str:
    """The order of a date's parts, from one that is shown and how its parts look there; "dmy" when they are not found."""
    shown = in_plain_figures(shown)
    places = {shown.find(part): letter for part, letter in ((year, "y"), (month, "m"), (day, "d"))}
    return "".join(letter for _, letter in sorted(places.items())) if len(places) == 3 and -1 not in places else "dmy"


def in_plain_figures(text: str) -> str:
    """The text with 0 to 9 for the figures of any script."""
    return "".join(str(unicodedata.decimal(letter, letter)) for letter in text)


def same(word: str) -> str:
    """A word as it is compared: small letters, without accents, marks of direction, curled apostrophes and a last dot."""
    plain = without_marks(word.casefold().replace("\u2019", "'").replace("\u0131", "i"), _says_nothing)
    return unicodedata.normalize("NFC", plain).strip().removesuffix(".")


def _says_nothing(letter: str) -> bool:
    return bool(unicodedata.combining(letter)) or unicodedata.category(letter) == "Cf"


@cache
def names(spelling: Spelling) -> dict[str, frozenset[tuple[str, int]]]:
    """What each name means: ("month", 1 to 12), ("weekday", 0 for Monday to 6), or one of each.

    English names are among them; where the person's own language has the same
    name for another month or weekday, that is meant.
    """
    own, told = _meanings(spelling.months, spelling.weekdays), {}
    english = _meanings(tuple((name, name[:3]) for name in ENGLISH_MONTHS), tuple((name, name[:3]) for name in ENGLISH_WEEKDAYS))
    for name in own.keys() | english.keys():
        told[name] = frozenset((english.get(name, {}) | own.get(name, {})).items())
    return told


def _meanings(months: tuple[tuple[str, ...], ...], weekdays: tuple[tuple[str, ...], ...]) -> dict[str, dict[str, int]]:
    found: dict[str, dict[str, int]] = {}
    for what, many, first in (("month", months, 1), ("weekday", weekdays, 0)):
        for number, spelt in enumerate(many, first):
            for name in spelt:
                found.setdefault(PARTED.sub("", same(name)), {}).setdefault(what, number)
    found.pop("", None)
    return found


@cache
def compounds(spelling: Spelling) -> tuple[tuple[str, str], ...]:
    """Names of several parts, such as "ter\u00e7a-feira", each with the same in one, the longest first."""
    spelt = {same(name) for many in (*spelling.months, *spelling.weekdays) for name in many}
    parted = sorted((name for name in spelt if PARTED.search(name)), key=len, reverse=True)
    return tuple((name, PARTED.sub("", name)) for name in parted)


@cache
def day_words(spelling: Spelling) -> dict[str, int]:
    """Words for a day by themselves, and how many nights it is ago."""
    own = {same(word): ago for ago, word in enumerate(_DAYS.get(spelling.language, ())) if word}
    return _ENGLISH_DAYS | own
