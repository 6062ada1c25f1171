"""The picture of words: the same words, the same picture, each in its own room over the part where it was written."""

import xml.etree.ElementTree as ElementTree
from itertools import combinations
from random import Random

import numpy as np
import pytest
from waiting.when_used import WhenUsed

from keeper.study.word_picture.layout import MOST, REACH, TALLEST, WIDTH, Spoken, _nearest, height_of, layout, mostly
from keeper.study.word_picture.svg import Band, Inks, NightsDrawn, as_svg

query_integral_image = WhenUsed("wordcloud.query_integral_image")
wordcloud = WhenUsed("wordcloud.wordcloud")

WORDS = [
    Spoken("harbour", 9, (0.1,) * 9), Spoken("piano", 7, (0.5,) * 7), Spoken("Ilze", 5, (0.9,) * 5), Spoken("bread", 5, (0.2,) * 5),
    Spoken("wedge", 3, (0.6,) * 3), Spoken("snow", 2, (0.0, 0.05)), Spoken("quay", 2, (0.3, 0.9)), Spoken("bell", 1, (1.0,)),
]  # fmt: skip


@pytest.fixture(scope="module")
def placed():
    return layout(WORDS)


def test_the_same_words_give_the_same_picture_in_whatever_order(placed):
    assert layout(list(reversed(WORDS))) == placed
    halves = [Spoken("harbour", 4, (0.1,) * 4), Spoken("harbour", 5, (0.1,) * 5)]
    assert layout([*WORDS[1:], *halves]) == placed


def test_each_word_has_a_place_larger_when_said_more(placed):
    assert {one.word for one in placed} == {one.word for one in WORDS}
    sizes = {one.word: one.size for one in placed}
    assert sizes["harbour"] > sizes["Ilze"] > sizes["bell"]
    assert {one.word: one.times for one in placed} == {one.word: one.times for one in WORDS}
    assert max(one.weight for one in placed) == 1


def test_words_stand_from_left_to_right_as_they_were_written(placed):
    middles = {one.word: one.left + one.width / 2 for one in placed}
    assert middles["harbour"] < middles["piano"] < middles["wedge"] < middles["Ilze"]
    assert middles["snow"] < WIDTH / 4 and middles["bell"] > WIDTH * 3 / 4
    # Nothing was in the way of the first: it stands right over its part, on the ground.
    first = placed[0]
    assert abs(middles["harbour"] - 0.1 * WIDTH) < 4 or first.left < 8
    assert TALLEST - (first.top + first.height) < 8


def test_no_two_words_share_room_and_none_is_far_from_its_part():
    crowd = layout([Spoken(f"word{n}", 60 - n, (n % 10 / 10,)) for n in range(60)])
    assert len(crowd) > 50
    for one in crowd:
        assert one.left >= 0 and one.top >= 0 and one.left + one.width <= WIDTH and one.top + one.height <= TALLEST
        wanted = min(max(one.at * WIDTH, one.width / 2), WIDTH - one.width / 2)
        assert abs(one.left + one.width / 2 - wanted) <= REACH * WIDTH + 12, one.word
    for one, other in combinations(crowd, 2):
        beside = one.left + one.width <= other.left or other.left + other.width <= one.left
        assert beside or one.top + one.height <= other.top or other.top + other.height <= one.top, (one.word, other.word)


def test_where_a_box_is_free_is_where_the_library_finds_it_free():
    """Against wordcloud's own query, which takes one of the free spots by chance: of these ours is the lowest and nearest."""
    room, taken = wordcloud.IntegralOccupancyMap(40, 60, None), np.full((40, 60), 255, dtype=np.uint8)
    taken[20:29, 30:42] = 0
    room.update(taken, 0, 0)
    spots = {query_integral_image.query_integral_image(room.integral, 8, 10, Random(seed)) for seed in range(60)} - {None}
    assert spots == {(row, column) for row in (19, 20) for column in (29, 30, 31)}
    assert [_nearest(room.integral, 8, 10, wanted) for wanted in (34.0, 35.0, 60.0)] == [(20, 29), (20, 30), None]
    assert query_integral_image.query_integral_image(room.integral, 12, 12, Random(1)) is None and _nearest(room.integral, 12, 12, 35.0) is None


def test_a_word_belongs_to_the_part_of_the_span_with_most_of_it():
    assert mostly([0.1, 0.12, 0.14, 0.9]) == pytest.approx(0.12)
    assert mostly([0.5]) == 0.5 and mostly([]) == 0.5
    # As many in each: the densest; as dense: the earliest.
    assert mostly([0.1, 0.3, 0.7, 0.72]) == pytest.approx(0.71)
    assert mostly([0.2, 0.8]) == pytest.approx(0.2)


def test_few_words_make_a_low_picture():
    assert height_of(layout([Spoken("alone", 1, (0.5,))])) < 50 < height_of(layout(WORDS)) <= TALLEST + 8
    assert height_of(()) < 10


def test_nothing_gives_nothing():
    assert layout([]) == layout([Spoken("", 3), Spoken("  ", 2), Spoken("gone", 0)]) == ()


def test_one_word_and_a_very_long_one_are_borne():
    assert [one.word for one in layout([Spoken("alone", 1)])] == ["alone"]
    assert [one.word for one in layout([Spoken("x" * 400, 3), Spoken("short", 2)])] == ["short"]
    assert len(layout([Spoken(f"w{n}", 1) for n in range(300)])) <= MOST


def texts(root) -> dict:
    return {one.text: one for one in root.iter("{http://www.w3.org/2000/svg}text")}


PLAIN = Inks("#ffffff", "#777777", lambda one: "#123456")


def test_words_of_other_scripts_and_hostile_ones_are_words():
    odd = layout([Spoken("<b>&amp;", 3), Spoken("שלום", 2), Spoken("你好", 2), Spoken("a\x07b", 1), Spoken("\ud800", 1)])
    root = ElementTree.fromstring(as_svg(Band(odd, (), ()), PLAIN, "A < B & \"C\""))
    assert {"<b>&amp;", "שלום", "你好", "ab"} <= texts(root).keys()
    assert root.find("{http://www.w3.org/2000/svg}title").text == 'A < B & "C"'


def test_svg_holds_each_word_once_at_its_baseline_over_its_nights(placed):
    band = Band(placed, (NightsDrawn(0.0, 0.5, 1.0, 3), NightsDrawn(0.5, 0.5, 0.0)), ((0.0, "Jan"), (0.5, "Jul")))
    root = ElementTree.fromstring(as_svg(band, PLAIN, "words"))
    drawn = texts(root)
    for one in placed:
        assert float(drawn[one.word].get("x")) == pytest.approx(one.x, abs=0.1)
        assert float(drawn[one.word].get("y")) == pytest.approx(one.y, abs=0.1)
    assert float(drawn["Jul"].get("x")) == WIDTH / 2
    assert len(root.findall("{http://www.w3.org/2000/svg}rect")) == 3
    left, top, wide, high = map(float, root.get("viewBox").split())
    assert (left, wide) == (0, WIDTH) and top + high == pytest.approx(TALLEST + 46)


def test_a_tint_never_tells_alone_each_has_its_number_and_name(placed):
    inks = Inks("#ffffff", "#777777", lambda one: "#123456", lambda one: ("#0072b2", "1"), places=(("L\u00fcbeck", "#0072b2"),))
    root = ElementTree.fromstring(as_svg(Band(placed, (), ()), inks, "words"))
    signs = [one for one in root.iter("{http://www.w3.org/2000/svg}text") if one.text == "1"]
    assert len(signs) == len(placed) and "1 L\u00fcbeck" in texts(root)
