"""Finding lines by their words."""

import json
import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from datetime import date

from keeper.model import Found
from keeper.store import lines
from keeper.store.file.opening import Store
from keeper.store.finding.narrowing import Conditions, Within
from keeper.store.folding import bare, folded, unspaced
from keeper.store.moments import day, line_numbers


@dataclass(frozen=True, slots=True)
class Sought:
    """What is looked for: words as typed, and what narrows them.

    ``first`` and ``last`` are nights, both included. ``best_first`` ranks by
    match (BM25); otherwise the newest line comes first. Of several ``kinds``
    (keys), ``places`` (ids), ``themes`` (numbers), ``weekdays`` (Monday is 0)
    and ``months`` (1 to 12) a line has one; of ``people`` (ids) and
    ``readings`` it has all. ``photo``: its night has one. ``resting``: it
    rests, for whatever reason, or does not; None asks for neither.
    """

    typed: str = ""
    kinds: tuple[str, ...] = ()
    places: tuple[str, ...] = ()
    themes: tuple[int, ...] = ()
    first: date | None = None
    last: date | None = None
    best_first: bool = False
    people: tuple[str, ...] = ()
    weekdays: tuple[int, ...] = ()
    months: tuple[int, ...] = ()
    photo: bool = False
    resting: bool | None = None
    readings: tuple[Within, ...] = ()

    @property
    def narrowed(self) -> bool:
        """Whether anything but words is asked for."""
        return replace(self, typed="", best_first=False) != Sought()


# A quote still open is no quote yet: the person is typing it.
_PIECE = re.compile(r'"([^"]*)"|"?([^\s"]+)')
_WORD = re.compile(r"[^\W_]")


def find(store: Store, sought: Sought, limit: int = 50, skip: int = 0) -> tuple[Found, ...]:
    """Lines that answer, at most ``limit`` of them."""
    source, conditions, values = asked(store, sought)
    order = "line_words.rank" if sought.best_first and "line_words" in source else "line.number DESC"
    if "line_words" in source and not sought.best_first:
        order = "line_words.rowid DESC"
    rows = store.rows(
        f"SELECT {lines.COLUMNS}, coalesce(place.name, '') FROM {source} "
        "JOIN night ON night.date = line.night LEFT JOIN place ON place.id = night.place_id "
        f"WHERE {' AND '.join(conditions)} ORDER BY {order} LIMIT :limit OFFSET :skip",
        {**values, "limit": limit, "skip": skip},
    )
    return found_from(store, rows)


def among(store: Store, sought: Sought, numbers: Sequence[int], limit: int) -> tuple[Found, ...]:
    """Those of the lines with these numbers, in their order, that the controls leave, whatever words are sought."""
    _, conditions, values = asked(store, replace(sought, typed=""))
    rows = store.rows(
        f"SELECT {lines.COLUMNS}, coalesce(place.name, '') FROM json_each(:numbers) AS wanted "
        "CROSS JOIN line ON line.number = wanted.value JOIN night ON night.date = line.night "
        "LEFT JOIN place ON place.id = night.place_id "
        f"WHERE {' AND '.join(conditions)} ORDER BY wanted.key LIMIT :limit",
        {**values, "numbers": json.dumps(numbers), "limit": limit},
    )
    return found_from(store, rows)


def found_from(store: Store, rows: Sequence[tuple]) -> tuple[Found, ...]:
    """What was found, from the values of the lines' COLUMNS and the name of the night's place."""
    told = (lines.lines_from(store, [row]) for row in rows)
    return tuple(Found(line, str(row[-1])) for found, row in zip(told, rows, strict=True) for line in found)


def count(store: Store, sought: Sought) -> int:
    """How many lines answer in all."""
    source, conditions, values = asked(store, sought)
    where = " AND ".join(conditions)
    if "night." in where:
        source += " JOIN night ON night.date = line.night"
    elif "line." not in where and "line_words" in source:
        source = "line_words"
    return store.row(f"SELECT count(*) FROM {source} WHERE {where}", values)[0]


def any_of(store: Store, sought: Sought) -> bool:
    """Whether any line answers."""
    source, conditions, values = asked(store, sought)
    found = store.row(
        f"SELECT EXISTS (SELECT 1 FROM {source} JOIN night ON night.date = line.night WHERE {' AND '.join(conditions)})", values
    )
    return bool(found[0])


def nights(store: Store, sought: Sought) -> frozenset[date]:
    """The nights of all lines that answer."""
    source, conditions, values = asked(store, sought)
    rows = store.rows(
        f"SELECT DISTINCT line.night FROM {source} JOIN night ON night.date = line.night "
        f"WHERE {' AND '.join(conditions)}",
        values,
    )
    return frozenset(store.made(lambda row: day(row[0]), rows))


def asked(store: Store, sought: Sought) -> tuple[str, list[str], dict]:
    """What is selected from, the conditions on it, and their values; rows of night must be joined where it is named."""
    match, scanned = _pieces(sought.typed)
    number = "line_words.rowid" if match else "line.number"
    first, last = line_numbers(sought.first or date.min, sought.last or date.max)
    conditions, values = [f"{number} BETWEEN :first AND :last"], {"first": first, "last": last}
    if match:
        conditions.append("line_words MATCH :match")
        values["match"] = match
    if scanned:
        conditions.append("NOT EXISTS (SELECT 1 FROM json_each(:scanned) WHERE instr(line.text, value) = 0)")
        values["scanned"] = json.dumps(scanned)
    Conditions(store, number, conditions, values).narrow(sought)
    source = "line_words CROSS JOIN line ON line.number = line_words.rowid" if match else "line"
    return source, conditions, values


def _pieces(typed: str) -> tuple[str, list[str]]:
    """A MATCH expression, and the pieces that hold no word and must be scanned."""
    words, scanned = [], []
    for exact, loose in _PIECE.findall(typed.replace("\x00", " ")):
        piece = (exact or loose).encode("utf-8", "replace").decode()
        if not piece.strip():
            continue
        if not _WORD.search(piece):
            scanned.append(piece)
            continue
        words.append(f'"{folded(piece)}"' + ("" if exact else "*"))
    return " ".join(words), scanned


def marked(text: str, typed: str) -> tuple[tuple[int, int], ...]:
    """Where the words sought stand in a line: (start, end) of each, in order."""
    spots = []
    for exact, loose in _PIECE.findall(typed):
        spots += _spots(text, exact or loose, whole=bool(exact))
    return tuple(sorted(set(spots)))


def marked_words(text: str, met: Collection[str]) -> tuple[tuple[int, int], ...]:
    """Where these words, as the index spells them, stand in a line as words of their own: (start, end), in order."""
    seen, origin = _letters(text)
    wanted = {"".join(_letters(word)[0]) for word in met}
    spots = [m.span() for m in re.finditer(r"[^\W_]+", seen) if m.group() in wanted]
    for word in filter(unspaced, wanted):
        spots += [m.span() for m in re.finditer(re.escape(word), seen)]
    return tuple(sorted({(origin[start], origin[end - 1] + 1) for start, end in spots}))


def _spots(text: str, piece: str, whole: bool) -> list[tuple[int, int]]:
    wanted, _ = _letters(piece.strip())
    if not wanted:
        return []
    seen, origin = _letters(text)
    before = r"(?<!\w)" if wanted[0].isascii() and wanted[0].isalnum() else ""
    behind = "" if not wanted[-1].isascii() else r"(?!\w)" if whole else r"\w*"
    found = re.finditer(before + re.escape(wanted) + behind, seen)
    return [(origin[m.start()], origin[m.end() - 1] + 1) for m in found]


def _letters(text: str) -> tuple[str, list[int]]:
    """The text folded letter by letter, and where each folded letter came from.

    Folding can lengthen a text, so each letter remembers its own.
    """
    letters: list[str] = []
    origin: list[int] = []
    for place, letter in enumerate(text):
        parts = bare(letter) or (" " if letter.isspace() else "")
        letters += parts
        origin += [place] * len(parts)
    return "".join(letters), origin
