"""The picture of words: the same words, the same picture, every word in its own room."""

import xml.etree.ElementTree as ElementTree

import pytest

from keeper.study.word_picture import HEIGHT, MOST, WIDTH, as_svg, layout

WORDS = [("harbour", 9), ("piano", 7), ("Ilze", 5), ("bread", 5), ("wedge", 3), ("snow", 2), ("quay", 2), ("bell", 1)]


@pytest.fixture(scope="module")
def placed():
    return layout(WORDS)


def test_the_same_words_give_the_same_picture_in_whatever_order(placed):
    assert layout(list(reversed(WORDS))) == placed
    assert layout([*WORDS[1:], ("harbour", 4), ("harbour", 5)]) == placed


def test_other_words_give_another(placed):
    assert layout([*WORDS, ("ferry", 4)]) != placed


def test_each_word_has_a_place_larger_when_said_more(placed):
    assert {one.word for one in placed} == {word for word, _ in WORDS}
    sizes = {one.word: one.size for one in placed}
    assert sizes["harbour"] > sizes["Ilze"] > sizes["bell"]
    assert {one.word: one.times for one in placed} == dict(WORDS)
    assert max(one.weight for one in placed) == 1


def test_every_box_lies_in_the_picture_and_no_two_share_a_spot():
    boxes = [(one.left, one.top, one.left + one.width, one.top + one.height, one.word)
             for one in layout([(f"word{n}", 60 - n) for n in range(60)])]  # fmt: skip
    assert len(boxes) > 30
    for left, top, right, bottom, word in boxes:
        assert left >= -2 and top >= -2 and right <= WIDTH + 2 and bottom <= HEIGHT + 2, word
    middles = {((left + right) / 2, (top + bottom) / 2) for left, top, right, bottom, _ in boxes}
    assert len(middles) == len(boxes)


def test_nothing_gives_nothing():
    assert layout([]) == layout([("", 3), ("  ", 2), ("gone", 0)]) == ()


def test_one_word_and_a_very_long_one_are_borne():
    assert [one.word for one in layout([("alone", 1)])] == ["alone"]
    assert len(layout([("x" * 400, 3), ("short", 2)])) <= 2
    assert len(layout([(f"w{n}", 1) for n in range(300)])) <= MOST


def test_words_of_other_scripts_and_hostile_ones_are_words(placed):
    odd = layout([("<b>&amp;", 3), ("שלום", 2), ("你好", 2), ("a\x07b", 1), ("\ud800", 1)])
    drawn = as_svg(odd, lambda one: "#123456", "#ffffff", "A < B & \"C\"")
    root = ElementTree.fromstring(drawn)
    texts = [one.text for one in root.iter("{http://www.w3.org/2000/svg}text")]
    assert "<b>&amp;" in texts and "שלום" in texts and "ab" in texts
    assert root.find("{http://www.w3.org/2000/svg}title").text == 'A < B & "C"'


def test_svg_holds_each_word_once_at_its_baseline(placed):
    root = ElementTree.fromstring(as_svg(placed, lambda one: "#1f2a44", "#fbf8f1", "words"))
    drawn = {one.text: one for one in root.iter("{http://www.w3.org/2000/svg}text")}
    for one in placed:
        assert float(drawn[one.word].get("x")) == pytest.approx(one.x, abs=0.1)
        assert ("rotate" in drawn[one.word].get("transform", "")) == one.turned
