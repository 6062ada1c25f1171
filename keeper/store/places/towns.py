"""Towns of the world, looked up on board: the gazetteer's SQL and its ranking."""

import sqlite3
from collections.abc import Iterable, Iterator
from dataclasses import replace
from math import log10
from pathlib import Path
from unicodedata import normalize

from keeper.earth import Point, rank_by_distance
from keeper.store.places.cells import cell_of, cells_around
from keeper.town import Town, ascii_of, fold, natural_region

# Folding never yields these marks, so nothing typed can be mistaken for them:
# a word inside a name, a cell of one degree, a cell of ten.
_INSIDE, _CELL, _WIDE_CELL = "¹", "²", "³"
_WIDE = 10

_TOWNS = """SELECT town.id, geoname_id, town.name, region.name, country.code, country.name,
 lat / 1e5, lon / 1e5, zone.name, population, local_name, city FROM town
 JOIN region ON region.id = region JOIN country ON country.id = country
 JOIN zone ON zone.id = zone WHERE town.id IN (SELECT value FROM json_each(?))"""
_MATCHES = "SELECT rowid FROM word WHERE word MATCH ? ORDER BY rowid LIMIT ?"
_OF_ZONE = """SELECT id FROM town WHERE zone = (SELECT id FROM zone WHERE name = ?) AND city IS NULL
 ORDER BY id LIMIT ?"""
_POINTS = """SELECT id, lat / 1e5, lon / 1e5 FROM town
 WHERE id IN (SELECT rowid FROM word WHERE word MATCH ?)"""

# The index gives the biggest towns first; smaller ones count only if near.
_BIGGEST, _BIGGEST_OF_AREA = 50, 1000
_CLOSE_BY = 1.0
"""Degrees around the person within which small towns are looked at."""

# In powers of ten of people: a whole name beats one that only begins so,
# unless the other town is a thousand times as big. 'par' is Paris first, and
# then the village of Par.
_WHOLE, _BEGINS, _WITHIN = 4.0, 1.0, 0.5
_MAIN_NAME = 1.0
# Other names are countless: airports' letters, and what a far country writes.
_OTHER_WHOLE = 2.5
# Who types an accent means it.
_EXACT = 6.0
_SECTION = -1.5
_AT_HAND, _HALVED_AT = 3.0, 100_000.0

_RINGS = ((1, 1), (3, 1), (10, _WIDE), (20, _WIDE), (40, _WIDE), (180, _WIDE))
_METRES_A_DEGREE = 111_195.0


def index_words(names: Iterable[str], latitude: float, longitude: float) -> str:
    """What the index holds of a town: whole names, words within names, cells."""
    folded = {fold(name) for name in names} - {""}
    whole = {name.replace(" ", "") for name in folded}
    inside = {_INSIDE + word for name in folded for word in name.split()[1:]}
    cell, wide = cell_of(latitude, longitude), cell_of(latitude, longitude, _WIDE)
    return " ".join([*sorted(whole | inside), f"{_CELL}{cell}", f"{_WIDE_CELL}{wide}"])


class Gazetteer:
    """The towns, opened for reading; for one thread, as its connection is.

    ``keeper.store.places.towns_file.unpack`` lays its file down.
    """

    def __init__(self, file: Path) -> None:
        # The file is only ever replaced whole, so no lock is needed.
        self._base = sqlite3.connect(f"{file.absolute().as_uri()}?mode=ro&immutable=1", uri=True)

    def close(self) -> None:
        """Lets go of the file."""
        self._base.close()

    def look_up(self, typed: str, near: Point | None = None, limit: int = 8) -> list[Town]:
        """The towns that the typed letters most likely mean, best first.

        Whole names in any language come before names that begin so, and these
        before names with such a word inside; then size counts, then nearness
        to ``near`` (latitude and longitude in degrees, where the person last
        was). Accents that are typed are meant: names that begin just so come
        first. A section of a city comes after the city. What follows a comma
        must begin the region's or country's name.
        """
        name, _, area = typed.partition(",")
        words, area = fold(name).split(), fold(area)
        if not words or limit < 1:
            return []
        kinds = self._matching(words, near, _BIGGEST_OF_AREA if area else _BIGGEST)
        exact = self._exact(kinds, name)
        scored = [(_score(row, kinds[row[0]], words, near, row[0] in exact), row) for row in self._rows(kinds)]
        ranked = _after_their_cities(scored)
        return self._answers((row for row in ranked if _lies_in(row, area)), name, limit)

    def nearest(self, latitude: float, longitude: float) -> Town:
        """The town nearest to a point in degrees, however far (on a sphere); in a section of a city, the city."""
        here = (latitude, longitude)
        for reach, side in _RINGS:
            found = self._closest(here, _any_cell(cells_around(latitude, longitude, reach, side), side))
            if found and found[0] <= reach * _METRES_A_DEGREE:
                break
        row = next(self._rows([found[1]]))
        return _town(row if row[11] is None else next(self._rows([row[11]])))

    def largest(self, zone: str, limit: int = 8) -> list[Town]:
        """The towns with the most people of a time zone (its IANA name), the largest first."""
        numbers = [number for (number,) in self._base.execute(_OF_ZONE, (zone, limit))]
        return [_town(row) for row in sorted(self._rows(numbers))]

    def _closest(self, here: Point, cells: str) -> tuple[float, int] | None:
        points = self._base.execute(_POINTS, (cells,))
        return min(((rank_by_distance(here, (lat, lon)), number) for number, lat, lon in points), default=None)

    def _matching(self, words: list[str], near: Point | None, most: int) -> dict[int, float]:
        close = f" AND ({_any_cell(cells_around(*near, _CLOSE_BY), 1)})" if near else None
        kinds: dict[int, float] = {}
        # The best kind is written last, over the others.
        for kind, wanted in _questions(words):
            for narrowed in (wanted, f"({wanted}){close}") if close else (wanted,):
                found = self._base.execute(_MATCHES, (narrowed, most))
                kinds.update((number, kind) for (number,) in found)
        return kinds

    def _rows(self, numbers: Iterable[int]) -> Iterator[tuple]:
        return self._base.execute(_TOWNS, (f"[{','.join(map(str, numbers))}]",))

    def _exact(self, numbers: Iterable[int], typed: str) -> set[int]:
        """Those of the towns that have a name that begins just as typed, if an accent was typed."""
        wanted = _accented(typed)
        if not wanted:
            return set()
        return {row[0] for row in self._rows(numbers) if any(_plain(name).startswith(wanted) for name in self._names(row))}

    def _names(self, row: tuple) -> list[str]:
        (others,) = self._base.execute("SELECT names FROM spelling WHERE id = ?", (row[0],)).fetchone()
        return [row[2], row[10], *others.split("\n")]

    def _answers(self, rows: Iterable[tuple], typed: str, limit: int) -> list[Town]:
        answers: list[Town] = []
        words, accented = " ".join(fold(typed).split()), _accented(typed)
        for row in rows:
            names = self._names(row)
            if accented:
                # What is spelt as it was typed answers before what only sounds so.
                names.sort(key=lambda name: not _plain(name).startswith(accented))
            spelling = _spelling(names, words)
            if spelling:
                answers.append(replace(_town(row), spelling=spelling))
            if len(answers) == limit:
                break
        return answers


def _questions(words: list[str]) -> Iterator[tuple[float, str]]:
    whole = "".join(words)
    inside = [f'"{_INSIDE}{word}"' for word in words]
    yield _WITHIN, " AND ".join(inside) + " *"
    yield _BEGINS, f'"{whole}" *'
    yield _WHOLE, f'"{whole}"'


def _any_cell(cells: Iterable[int], side: int) -> str:
    mark = _CELL if side == 1 else _WIDE_CELL
    return " OR ".join(f'"{mark}{cell}"' for cell in cells)


def _plain(name: str) -> str:
    return normalize("NFC", name).casefold()


def _accented(typed: str) -> str:
    """What was typed, small, where there is more to it than its folded letters; else ""."""
    plain = _plain(" ".join(typed.split()))
    return "" if plain.isascii() else plain


def _after_their_cities(scored: list[tuple[float, tuple]]) -> list[tuple]:
    """The rows, the highest score first, but none before the city that it is a section of."""
    scores = {row[0]: score for score, row in scored}

    def rank(pair: tuple[float, tuple]) -> tuple:
        score, row = pair
        return -min(score, scores.get(row[11], score)), row[11] is not None, row[0]

    return [row for _, row in sorted(scored, key=rank)]


def _score(row: tuple, kind: float, words: list[str], near: Point | None, exact: bool) -> float:
    typed = "".join(words)
    main = [fold(name).replace(" ", "") for name in (row[2], row[10])]
    score = _OTHER_WHOLE if kind == _WHOLE and typed not in main else kind
    score += log10(max(row[9], 100)) + _EXACT * exact
    if any(name.startswith(typed) for name in main):
        score += _MAIN_NAME
    if row[11] is not None:
        score += _SECTION
    if near:
        score += _AT_HAND / (1 + rank_by_distance(near, (row[6], row[7])) / _HALVED_AT)
    return score


def _lies_in(row: tuple, area: str) -> bool:
    return not area or row[4].lower() == area or any(fold(name).startswith(area) for name in (row[3], row[5]))


def _spelling(names: list[str], typed: str) -> str:
    # The whole name if there is one, else one that begins so, else one with
    # such words inside; the main name among equals, and "" if none fits. The
    # letters of airports and the like only where nothing else does.
    solid, found = typed.replace(" ", ""), {}
    for name in filter(None, names):
        folded = fold(name)
        joined = folded.replace(" ", "")
        if joined == solid and not _is_code(name):
            return name
        if joined.startswith(solid):
            found.setdefault("code" if _is_code(name) else "begins", name)
        elif f" {typed}" in folded:
            found.setdefault("inside", name)
    return found.get("begins") or found.get("inside") or found.get("code", "")


def _is_code(name: str) -> bool:
    return len(name) <= 4 and name.isascii() and name.isupper()


def _town(row: tuple) -> Town:
    _, geoname_id, name, region, country, country_name, latitude, longitude, zone, people, local, _ = row
    return Town(
        geoname_id, name, ascii_of(name), natural_region(region), country, country_name, latitude, longitude, zone, people, local
    )
