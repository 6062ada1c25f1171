"""Let a dictionary of many languages speak too in the tables of build_directions.py and build_fuller.py.

    python resources/words/build_translated.py FOLDER DICT CODE ...

FOLDER holds wn-wikt-XXX.tab of the Extended Open Multilingual Wordnet (F. Bond and R. Foster, Linking and extending an Open
Multilingual Wordnet, ACL 2013; folder wns/wikt of omwn/omw-data; CC BY-SA): which words of a language say what an entry of
WordNet 3.0 does, from Wiktionary. DICT holds index.noun, index.verb, index.adj and index.adv of WordNet 3.0 itself (Debian
package wordnet-base). Needs wordfreq. Takes some seconds a language; a table is written once, then built anew first.

A model that reads a word by itself does not know many common ones of small languages: of Finnish sota, war, it makes no
more than its letters. What an entry is about is told by its English words, each the more the sooner this is what it means;
what a stem is about, by the entries of its words, the more the more a word is used. Half of a row comes from there, or a
third where the model knows the language well; and the stems that the table lacks come from there alone.
"""

from __future__ import annotations

import sys
import unicodedata
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

import numpy as np

from keeper.study.language.words import content_words
from keeper.study.themes.counts import unit
from keeper.study.tongues.table import Background, background

HERE = Path(__file__).parent
FILES = {
    "cs": "ces", "da": "dan", "de": "deu", "el": "ell", "fi": "fin", "fr": "fra", "it": "ita", "ja": "jpn", "ko": "kor",
    "nl": "nld", "no": "nob", "pl": "pol", "pt": "por", "ru": "rus", "sv": "swe", "tr": "tur",
}  # fmt: skip
LISTS = {"no": "nb"}
WEIGHT, OF_SOME = 1.0, {"de": 0.5, "fr": 0.5, "ru": 0.5}  # beside the row that the table has
UNTAGGED = 0.5  # what a sense counts that no text is tagged with
OFTEN, UNUSED = 0.75, 1e-7  # a word counts as often as it is used, to that power; one that no list has
SEVERAL = 1.5  # so many times less counts an English word that is several
STRESS = "\u0301"  # marked in dictionaries of Russian, and nowhere else in it
LEVELS = 24

Told = tuple[np.ndarray, float, float]
"""A direction (unit row), how telling it is, and how much it counts."""


def entries(dictionary: Path) -> dict[str, Told]:
    """What each entry of WordNet is about, by its offset and part of speech, by the English words that say it."""
    english = background("en")
    said: dict[str, list[Told]] = {}
    least: dict[str, float] = {}
    for pos, name in (("n", "noun"), ("v", "verb"), ("a", "adj"), ("r", "adv")):
        for row in (dictionary / f"index.{name}").read_text("utf-8").splitlines():
            for key, word, weight, first in _senses(row, pos):
                told = _of_english(word, english)
                if told is not None:
                    said.setdefault(key, []).append((*told, weight))
                    least[key] = max(least.get(key, 0.0), first)
    return {key: (*_mean(told), least[key]) for key, told in said.items()}


def _senses(row: str, pos: str) -> Iterator[tuple[str, str, float, float]]:
    """(key, word, what the word counts for the entry, what the entry counts) of the senses of a row; see wndb(5WN)."""
    if row.startswith(" "):
        return
    fields = row.split()
    word, many = fields[0], int(fields[2])
    tagged = int(fields[-many - 1])
    for place, offset in enumerate(fields[-many:]):
        yield f"{offset}-{pos}", word, 1 / (place + 1), (1.0 if place < tagged else UNTAGGED) / (place + 1)


def _of_english(word: str, english: Background) -> tuple[np.ndarray, float] | None:
    rows = [english.rows[one.stem] for one in content_words(word.replace("_", " ")) if one.stem in english.rows]
    return (unit(english.vectors[rows].sum(axis=0)[None])[0], float(english.topicality[rows].mean())) if rows else None


def _mean(told: list[Told]) -> tuple[np.ndarray, float]:
    """The direction and how telling, of several."""
    weights = np.array([weight for *_, weight in told])
    row = unit((weights @ np.array([row for row, *_ in told]))[None])[0]
    return row, float(weights @ [topical for _, topical, _ in told] / weights.sum())


def translated(folder: Path, code: str, of_entry: dict[str, Told]) -> dict[str, tuple[np.ndarray, float]]:
    """Stem -> direction and how telling, of the words that the dictionary has; a word is also looked for as it stands.

    A stemmer may take the end of a word for an ending (Russian остров, but острова: остров).
    """
    by_stem: dict[str, list[Told]] = {}
    by_word: dict[str, list[Told]] = {}
    for key, word in _words(folder, code):
        stems = [one.stem for one in content_words(word, languages=(code,))]
        if key in of_entry and len(stems) == 1:
            row, topical, weight = of_entry[key]
            told = row, topical, weight * (_often(code).get(word.casefold(), 0.0) + UNUSED) ** OFTEN
            by_stem.setdefault(stems[0], []).append(told)
            by_word.setdefault(word.casefold(), []).append(told)
    return {stem: _mean(told) for stem, told in (by_word | by_stem).items()}


def _words(folder: Path, code: str) -> Iterator[tuple[str, str]]:
    """(key, word) of the words of one piece."""
    for row in (folder / f"wn-wikt-{FILES[code]}.tab").read_text("utf-8").splitlines():
        key, _, rest = row.partition("\t")
        kind, _, word = rest.partition("\t")
        if kind.endswith("lemma") and not {" ", "_"} & set(word):
            yield key, unicodedata.normalize("NFC", word.replace(STRESS, "") if code == "ru" else word)


@lru_cache(maxsize=2)
def _often(code: str) -> dict[str, float]:
    import wordfreq

    return wordfreq.get_frequency_dict(LISTS.get(code, code), wordlist="best")


def table(code: str, found: dict[str, tuple[np.ndarray, float]]) -> dict[str, np.ndarray]:
    """The arrays of the table, as of build_directions.py; forms (bytes, one a line) where a word is looked for in it."""
    shipped = background(code)
    vectors, topical, beside = shipped.vectors.copy(), shipped.topicality.copy(), OF_SOME.get(code, WEIGHT)
    for stem in found.keys() & shipped.rows.keys():
        at, (row, telling) = shipped.rows[stem], found[stem]
        vectors[at] += beside * row
        topical[at] = (topical[at] + telling) / 2
    new = sorted(found.keys() - shipped.rows.keys())
    vectors = np.vstack([vectors, *(found[stem][0][None] for stem in new)])
    arrays = {
        "stems": _lines([*shipped.rows, *new]),
        "vectors": np.round(vectors / np.abs(vectors).max(axis=1, keepdims=True) * LEVELS).astype(np.int8),
        "topicality": np.round(np.clip([*topical, *(found[stem][1] for stem in new)], 0, 1) * 255).astype(np.uint8),
        "translated": np.array(1, np.uint8),
    }
    if code == "ko":
        # Where a Korean word ends is told by the words most used.
        arrays["forms"] = _lines(list(shipped.rows))
    return arrays


def _lines(stems: list[str]) -> np.ndarray:
    return np.frombuffer("\n".join(stems).encode("utf-8"), np.uint8)


def main() -> None:
    if len(sys.argv) < 4:
        raise SystemExit(__doc__)
    folder, dictionary, codes = Path(sys.argv[1]), Path(sys.argv[2]), sys.argv[3:]
    of_entry = entries(dictionary)
    for code in codes:
        out = HERE / f"directions-{code}.npz"
        with np.load(out, allow_pickle=False) as shipped:
            if "translated" in shipped.files:
                raise SystemExit(f"{out.name} has the dictionary's words; build it anew first.")
        np.savez_compressed(out, **table(code, translated(folder, code, of_entry)))
        print(f"{out.name}: {out.stat().st_size / 1e6:.2f} MB")


if __name__ == "__main__":
    main()
