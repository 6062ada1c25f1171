"""What lies within a wide theme: told where it is clear, kept under its number, and made a theme of its own."""

import random
from dataclasses import replace
from datetime import date, timedelta

import pytest
from diary_lines import SUBJECTS, shuffled
from theme_keeper import fill_with_themes

from keeper.actions import finding
from keeper.actions.finding import Sought
from keeper.actions.history import undoing
from keeper.actions.themes import asking as themes
from keeper.actions.themes.within import parts_told
from keeper.errors import UnknownThing
from keeper.store.themes import parts as kept
from keeper.study.themes.further.within import Part, clear_parts, numbered, parts_within
from keeper.study.themes.nouns import ThemeLine
from keeper.study.themes.rebuilding import rebuild
from keeper.study.themes.shown import Rows

NIGHT = date(2024, 1, 1)
SEA = ["sea", "water", "harbour", "shore", "wind", "salt"]
WITHIN = {"swim": ["swam", "cold", "jetty", "ladder", "towel", "degrees", "goggles", "dived"],
          "ferry": ["ferry", "ticket", "deck", "cabin", "timetable", "gangway", "horn", "lorry"],
          "storm": ["storm", "waves", "thunder", "shutters", "flood", "gale", "roof", "candles"]}  # fmt: skip


def lines_of(parts, count, seed=0):
    """Lines of one subject, each of a part of it."""
    rng, made = random.Random(seed), []
    for _ in range(count):
        own = parts[rng.choice(sorted(parts))]
        made.append(" ".join(rng.sample(own, 3) + rng.sample(SEA, 2)))
    return made


def fitted():
    texts = lines_of(WITHIN, 150) + [" ".join(random.Random(i).sample(SUBJECTS["garden"], 5)) for i in range(80)]
    return rebuild([ThemeLine(str(i), text, NIGHT + timedelta(i)) for i, text in enumerate(texts)]).fitted


@pytest.fixture(scope="module")
def sea():
    return fitted()


def parted(fitted, texts):
    docs = [[word.stem for word in doc] for doc in fitted.speech.heard(texts)]
    return clear_parts(docs, fitted.locate(docs)[0], fitted)


def test_three_things_within_the_sea_are_told_apart(sea):
    texts = lines_of(WITHIN, 120, seed=1)
    labels = parted(sea, texts)
    assert labels is not None and labels.max() == 2
    truth = [next(part for part, own in WITHIN.items() if len(set(own) & set(text.split())) == 3) for text in texts]
    for part in range(3):
        its = [one for one, label in zip(truth, labels, strict=True) if label == part]
        assert len(its) > 20 and max(map(its.count, set(its))) / len(its) > 0.9


def test_the_same_words_dealt_anew_give_no_parts(sea):
    assert all(parted(sea, shuffled(lines_of(WITHIN, 120, seed=1), seed)) is None for seed in range(4))


def test_a_plain_subject_has_no_parts(sea):
    plain = {"all": [word for own in WITHIN.values() for word in own]}
    assert all(parted(sea, lines_of(plain, 120, seed)) is None for seed in range(4))


def test_a_part_keeps_its_number_and_a_new_one_gets_another():
    before = {7: (1, frozenset("abcd")), 8: (1, frozenset("efgh")), 9: (2, frozenset("ijkl"))}
    found = numbered([Part(1, "x", tuple("abce")), Part(1, "y", tuple("mnop")), Part(3, "z", tuple("ijkl"))], before, 20)
    assert {one.name: one.number for one in found} == {"x": 7, "y": 20, "z": 21}
    assert numbered([Part(1, "x", ("a", "b", "new", "newer"))], before, 20)[0].number == 7


@pytest.fixture
def wide(store):
    """A keeper with themes, one of which has a part: the lines that have one word."""
    about = fill_with_themes(store)
    number = next(one.number for one in themes.themes_view(store).threads if about[one.central[0].id] == "music")
    its = [one.line.id for one in themes.lines_of(store, number, 500) if "choir" in one.line.text.casefold()]
    with store.writing() as connection:
        kept.keep(connection, [(900, number, "The choir", its)], "2026-01-01T00:00:00Z")
    return number


def test_a_part_is_told_with_its_theme_and_found_by(store, wide):
    (part,) = parts_told(store)
    assert part.name == "The choir" and part.theme == wide and part.lines > 5
    assert themes.theme_view(store, wide).parts == ((900, "The choir", part.lines),)
    assert (900, f"{part.of}: The choir") in finding.themes_and_parts(store)
    found = finding.find(store, Sought(themes=(900,)), 200)
    assert len(found) == part.lines and all("choir" in one.line.text.casefold() for one in found)
    assert {one.line.id for one in themes.lines_within(store, 900, 200)} == {one.line.id for one in found}


def test_a_part_is_made_a_theme_under_its_number_and_back_again(store, clock, wide):
    lines = {one.line.id for one in themes.lines_within(store, 900, 200)}
    assert themes.make_theme(store, 900, clock) == 900
    themes.look_again(store, clock)
    assert {one.line.id for one in themes.lines_of(store, 900, 500)} >= lines
    assert 900 not in {one.number for one in parts_told(store)}
    with pytest.raises(UnknownThing):
        themes.make_theme(store, 900, clock)
    undoing.undo(store)
    themes.look_again(store, clock)
    assert not lines & {one.line.id for one in themes.lines_of(store, 900, 500)}


def test_a_theme_that_had_parts_keeps_them_with_a_few_lines_less():
    texts = lines_of(WITHIN, 70, seed=2) + [" ".join(random.Random(i).sample(SUBJECTS["garden"], 5)) for i in range(60)]
    found = rebuild([ThemeLine(str(i), text, NIGHT + timedelta(i)) for i, text in enumerate(texts)])
    home = {str(i): 1 for i in range(70)}
    words = found.fitted.speech.heard(texts)
    points, smoothed = found.fitted.locate([[word.stem for word in doc] for doc in words])
    rows = Rows([str(i) for i in range(len(texts))], words, points, smoothed)
    assert not parts_within(rows, home, found.fitted)
    assert len(parts_within(rows, home, replace(found.fitted, parted=frozenset({1})))) > 1
    kept_so = type(found.fitted).from_bytes(replace(found.fitted, parted=frozenset({1})).to_bytes())
    assert kept_so.parted == {1}


def test_parts_are_named_by_things_as_themes_are(sea):
    """What is done ("swam") is no name, where the lines show what is a thing ("the towel")."""
    rng, texts = random.Random(5), []
    for _ in range(120):
        part = rng.choice(sorted(WITHIN))
        one, two = rng.sample(WITHIN[part][1:], 2)
        texts.append(f"{WITHIN[part][0]} the {one} and the {two}, in the {rng.choice(SEA)}.")
    words = sea.speech.heard(texts)
    points, smoothed = sea.locate([[word.stem for word in doc] for doc in words])
    rows = Rows([str(i) for i in range(120)], words, points, smoothed)
    home = dict.fromkeys(rows.ids, 1)
    without = [part.name for part in parts_within(rows, home, sea)]
    named = [part.name for part in parts_within(replace(rows, texts=texts, languages=("en",)), home, sea)]
    assert any("swam" in name for name in without) and len(named) == len(without) > 1
    assert not any("swam" in name for name in named) and all(name.count(",") < 2 for name in named)
