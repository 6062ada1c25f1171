"""The copy of the words that needs no program holds every line, and can be told apart to the last row."""

import re
from datetime import date, timedelta
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st
from kept_things import NIGHT, fill
from soundness import emptied

from keeper.actions import writing
from keeper.dates.written import MONTHS
from keeper.errors import UnreadableText
from keeper.model import KINDS
from keeper.store import lines
from keeper.store.backups import reading_copy
from keeper.store.photos import known

MADE = date(2026, 11, 15)
FIRST, LAST = date(1800, 1, 1), date(2999, 12, 31)


def written(store, folder: Path) -> dict[str, str]:
    """Each file of the copy by its name."""
    folder.mkdir()
    reading_copy.write(store, folder, MADE)
    return {path.name: path.read_bytes().decode("utf-8") for path in folder.iterdir()}


def read_back(text: str) -> dict[tuple[date, str], str]:
    """The lines of a year, read as a stranger would: by the headings and the marks before the person's words."""
    found, night, kind = {}, None, None
    for row in text.split("\n"):
        if heading := re.match(r"### \w+ (\d+) (\w+) (\d+)", row):
            night = date(int(heading[3]), MONTHS.index(heading[2]) + 1, int(heading[1]))
        elif row.startswith("> "):
            if kind in KINDS:
                before = found.get((night, kind))
                found[night, kind] = row[2:] if before is None else f"{before}\n{row[2:]}"
        elif row:
            kind = row.rstrip(":").lower()
    return found


def kept(store) -> dict[tuple[date, str], str]:
    return {(line.night, line.kind): line.text for line in lines.between(store, FIRST, LAST)}


def test_every_line_is_in_it_and_none_other(store, clock, tmp_path):
    fill(store, clock, tmp_path)
    writing.write_line(store, date(2024, 2, 29), "reflection", "Leap.", clock)
    copy = written(store, tmp_path / "copy")
    assert set(copy) == {"README.md", "2024.md", "2026.md"}
    assert read_back(copy["2024.md"]) | read_back(copy["2026.md"]) == kept(store)
    assert len(kept(store)) == 9


def test_all_words_round_the_lines_are_in_it(store, clock, tmp_path):
    fill(store, clock, tmp_path)
    photo = known.every(store)[0]
    known.caption(store, photo.id, "Keys, seen from below.")
    year = written(store, tmp_path / "copy")["2026.md"]
    for words in ("What held?", "A month of bridges.", "Swim before breakfast", "Twice.", "What carried you?", "The ferries.",
                  "Keys, seen from below."):  # fmt: skip
        assert f"\n> {words}\n" in year
    for told in ("### Saturday 14 November 2026, Riga", "### Sunday 8 November 2026, L\u00fcbeck", "Noted: Sleep 7.5 hours.",
                 "A goal of the month (done):", f"Photo: photos/{photo.sha256[:2]}/{photo.sha256}.jpg"):  # fmt: skip
        assert f"\n{told}\n" in year


def test_its_readme_is_two_sentences(store, clock, tmp_path):
    fill(store, clock, tmp_path)
    readme = written(store, tmp_path / "copy")["README.md"]
    assert len(re.findall(r"\.(?:\s|$)", readme.replace("keeper.db,", ""))) == 2
    assert "from Sunday 8 November 2026 to Saturday 14 November 2026" in readme


def test_an_empty_keeper_has_a_readme_alone(store, tmp_path):
    assert set(written(store, tmp_path / "copy")) == {"README.md"}


def test_a_resting_line_is_in_it(store, clock, tmp_path):
    line = writing.write_line(store, NIGHT, "memory", "It hurt.", clock)
    writing.rest_line(store, line.id)
    assert read_back(written(store, tmp_path / "copy")["2026.md"]) == {(NIGHT, "memory"): "It hurt."}


def test_rows_end_only_where_the_words_do(store, clock, tmp_path):
    text = "One\u2028two\x85three\rfour\n\n> five\n### 6"
    lines.keep(store, NIGHT, "memory", text, clock.moment())
    assert read_back(written(store, tmp_path / "copy")["2026.md"]) == {(NIGHT, "memory"): text}


texts = st.text(st.characters(codec="utf-8"), min_size=1).filter(str.strip)
nights = st.integers(0, 900).map(lambda days: NIGHT - timedelta(days=days))


@given(words=st.dictionaries(st.tuples(nights, st.sampled_from(KINDS)), texts, max_size=8))
def test_whatever_was_written_can_be_read_back(store, clock, words, tmp_path_factory):
    emptied(store)
    for (night, kind), text in words.items():
        try:
            writing.write_line(store, night, kind, text, clock)
        except UnreadableText:
            continue
    copy = written(store, tmp_path_factory.mktemp("copies") / "copy")
    found = {}
    for name in sorted(copy):
        found |= read_back(copy[name]) if name != "README.md" else {}
    assert found == kept(store)
