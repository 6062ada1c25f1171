"""Themes that the person begins: found by a few lines or words, asked about, and kept by every later look."""

from datetime import date

import pytest
from theme_keeper import fill_with_themes

from keeper.actions import writing
from keeper.actions.history import undoing
from keeper.actions.themes import asking as themes
from keeper.actions.themes import begun
from keeper.actions.themes.decided import decided_so_far
from keeper.errors import AlreadyKept, UnknownThing, UnreadableText
from keeper.store import lines, resting
from keeper.store.themes import decisions
from keeper.store.themes import found as kept
from keeper.study.themes.fitted import ENGLISH, Speech
from keeper.study.themes.further.taught import taught
from keeper.study.themes.further.words_said import having, telling
from keeper.study.themes.nouns import Begin


@pytest.fixture
def about(store):
    """160 lines with their themes; the subject of each."""
    return fill_with_themes(store)


def members(store, number):
    return {row[0] for row in store.rows("SELECT line_id FROM theme_line WHERE theme = ?", (number,))}


def of(about, subject):
    return [line for line, its in about.items() if its == subject]


def begin_with(store, clock, name, line_ids=(), words=()):
    number = begun.begin(store, name, line_ids, words, clock)
    themes.look_again(store, clock)
    return number


def agreement(found, wished):
    """Precision and recall."""
    return len(found & set(wished)) / max(1, len(found)), len(found & set(wished)) / len(wished)


def test_three_lines_find_the_others_of_their_subject(store, clock, about):
    health = of(about, "health")
    number = begin_with(store, clock, "My knees", health[:3])
    precision, recall = agreement(members(store, number), health)
    assert precision > 0.85 and recall > 0.85
    told = next(one for one in themes.themes_view(store).threads if one.number == number)
    assert told.name == "My knees" and told.begun and told.sure == 1.0
    assert (number, "My knees") in themes.names(store)


def test_three_words_do_as_well(store, clock, about):
    number = begin_with(store, clock, "Unwell", (), begun.words_typed("doctor, fever cough"))
    precision, recall = agreement(members(store, number), of(about, "health"))
    assert precision > 0.85 and recall > 0.85


def test_answers_are_heeded_by_every_later_look_and_can_be_undone(store, clock, about):
    number = begin_with(store, clock, "Songs", of(about, "music")[:3])
    asked = begun.asking(store, number)
    assert asked.place == 0 and not {one.line.id for one in asked.lines} & set(of(about, "music")[:3])
    inside = next(iter(members(store, number) - set(of(about, "music")[:3])))
    outside = of(about, "garden")[0]
    begun.answer(store, number, inside, begun.NO, clock)
    begun.answer(store, number, outside, begun.YES, clock)
    for again in (themes.look_again, themes.rebuild_themes):
        again(store, clock)
        assert outside in members(store, number) and inside not in members(store, number)
    assert begun.asking(store, number).answered == 2
    undoing.undo(store)
    themes.look_again(store, clock)
    assert outside not in members(store, number) and inside not in members(store, number)
    undoing.redo(store)
    themes.look_again(store, clock)
    assert outside in members(store, number)


def test_what_was_answered_is_not_asked_again(store, clock, about):
    number = begin_with(store, clock, "Songs", of(about, "music")[:3])
    first = begun.asking(store, number).lines
    begun.answer(store, number, first[0].line.id, begun.SKIPPED, clock)
    assert [one.line.id for one in begun.asking(store, number).lines] == [one.line.id for one in first[1:]]
    themes.look_again(store, clock)
    assert first[0].line.id not in {one.line.id for one in begun.asking(store, number).lines}


def test_beginning_undone_leaves_the_themes_as_they_were(store, clock, about):
    before = dict(store.rows("SELECT line_id, theme FROM theme_line"))
    number = begin_with(store, clock, "Songs", of(about, "music")[:3])
    assert dict(store.rows("SELECT line_id, theme FROM theme_line")) != before
    undoing.undo(store)
    themes.look_again(store, clock)
    assert dict(store.rows("SELECT line_id, theme FROM theme_line")) == before and kept.one(store, number) is None
    with pytest.raises(UnknownThing):
        begun.asking(store, number)


def test_lines_that_rest_are_not_asked_about(store, clock, about):
    number = begin_with(store, clock, "Songs", of(about, "music")[:3])
    first = begun.asking(store, number).lines[0]
    resting.rest(store, "line", first.line.id)
    assert first.line.id not in {one.line.id for one in begun.asking(store, number).lines}


def test_with_three_lines_a_theme_can_be_begun_too(store, clock):
    for day, text in ((1, "My knee hurt on the stairs."), (2, "Bread and butter."), (3, "Both knees, after the long walk.")):
        writing.write_line(store, date(2026, 3, day), "memory", text, clock)
    number = begin_with(store, clock, "My knees", (), ("knees",))
    view = themes.themes_view(store)
    assert not view.enough and [(one.name, one.lines) for one in view.threads] == [("My knees", 2)]
    writing.write_line(store, date(2026, 3, 4), "memory", "The left knee again.", clock)
    themes.look_again(store, clock)
    assert len(members(store, number)) == 3
    undoing.undo(store)
    assert begun.asking(store, number).lines == ()


def test_what_cannot_begin_a_theme_is_said(store, clock, about):
    line = next(iter(about))
    for name, ids, words, error in (
        ("", (line,), (), UnreadableText), ("Knees", (), (), UnreadableText), ("Knees", (), ("...",), UnreadableText),
        ("Knees", ("gone",), (), UnknownThing), ("Knees", (), ("zeppelin",), UnknownThing), ("x" * 90, (line,), (), UnreadableText),
        (themes.themes_view(store).threads[0].name, (line,), (), AlreadyKept),
    ):  # fmt: skip
        with pytest.raises(error):
            begun.begin(store, name, ids, words, clock)
    assert not begun.begun(store)


def test_words_typed_are_parted_by_commas_or_by_spaces():
    assert begun.words_typed("knee  stairs knee") == ("knee", "stairs")
    assert begun.words_typed("frozen shoulder, knee,") == ("frozen shoulder", "knee")
    assert begun.words_typed("\u6c34\u3001\u6d77") == ("\u6c34", "\u6d77") and begun.words_typed("knee; hip") == ("knee", "hip")


def test_lines_of_another_theme_begun_stay_where_they_are_surer(store, clock, about):
    first = begin_with(store, clock, "Songs", of(about, "music")[:3])
    before = members(store, first)
    begin_with(store, clock, "Roses", of(about, "garden")[:3])
    assert len(members(store, first) & before) >= 0.9 * len(before)


def test_a_line_written_later_finds_the_theme_begun(store, clock, about):
    number = begin_with(store, clock, "Songs", of(about, "music")[:3])
    line = writing.write_line(store, date(2026, 11, 14), "memory", "The choir sang, piano tuned, a hymn and a song.", clock)
    assert themes.place_line(store, line) == number
    assert lines.by_id(store, line.id) is not None


def test_a_line_taken_out_of_a_theme_begun_teaches_it_as_no_does(store, clock, about):
    number = begin_with(store, clock, "Songs", of(about, "music")[:3])
    strange = [line for line in of(about, "garden") if line not in members(store, number)][:4]
    themes.move(store, strange, number, clock)
    themes.look_again(store, clock)
    with_them = members(store, number)
    themes.take_out(store, strange[:1], number, clock)
    themes.look_again(store, clock)
    decided = next(one for one in taught(decided_so_far(decisions.standing(store))) if isinstance(one, Begin))
    assert set(decided.no) == set(strange[:1]) and set(decided.yes) == set(strange[1:])
    assert strange[0] not in members(store, number) and set(strange[1:]) <= members(store, number)
    # What is like the line taken out is less sure than it was.
    assert len(members(store, number) & set(of(about, "garden"))) <= len(with_them & set(of(about, "garden")))
    assert begun.asking(store, number).answered == 0


def test_lines_like_one_taken_out_leave_a_theme_begun(store, clock, about):
    number = begin_with(store, clock, "Songs", [*of(about, "music")[:2], of(about, "garden")[0]])
    first = members(store, number) & set(of(about, "garden")[1:])
    assert first
    themes.take_out(store, of(about, "garden")[:1], number, clock)
    themes.look_again(store, clock)
    assert len(members(store, number) & set(of(about, "garden"))) < len(first) / 2
    themes.rebuild_themes(store, clock)
    assert len(members(store, number) & set(of(about, "garden"))) < len(first) / 2


def test_part_of_a_word_begins_with_the_lines_whose_words_begin_so(store, clock, about):
    number = begin_with(store, clock, "Unwell", (), ("docto",))
    having = {one.line.id for one in begun.lines_having(store, ("docto",), 60)}
    assert len(having) > 5 and len(members(store, number) & having) > 0.8 * len(having)


def test_letters_without_their_signs_find_the_words_that_have_them(store, clock, about):
    writing.write_line(store, date(2025, 1, 1), "memory", "Physiothérapeute after the hike, the knee is better.", clock)
    writing.write_line(store, date(2025, 1, 2), "memory", "The physiothérapeute pressed on my knee.", clock)
    themes.rebuild_themes(store, clock)
    number = begin_with(store, clock, "Unwell", (), ("physiotherapeute",))
    assert len(members(store, number)) >= 2


def test_words_that_stand_in_any_line_begin_nothing(store, clock, about):
    with pytest.raises(UnreadableText, match="lines about anything"):
        begun.begin(store, "Small words", (), ("the", "and", "of"), clock)
    assert not begun.begun(store)


def test_the_same_words_do_not_begin_two_themes(store, clock, about):
    begin_with(store, clock, "Unwell", (), ("doctor", "fever"))
    with pytest.raises(AlreadyKept, match="\u201cUnwell\u201d was begun by the same words"):
        begun.begin(store, "My knees", (), ("Fever", "doctor"), clock)


def test_of_several_words_said_together_a_line_has_all():
    docs = [ENGLISH.words(text) for text in ("Brown cheese on bread.", "A brown coat.", "Cheese, and a brown knife.")]
    assert having(("brown cheese",), ENGLISH, ("a", "b", "c"), docs).lines == ("a", "c")


def test_words_are_known_in_each_language_that_lines_are_in():
    speech = Speech(("de", "en"))
    texts = ["Das Brot war noch warm und gut.", "The bread was still warm from the oven.", "Die Fähre kam mit dem Wind."]
    docs = speech.heard(texts)
    assert having(("Brot", "bread"), speech, ("a", "b", "c"), docs).lines == ("a", "b")
    assert having(("ferry", "bread"), speech, ("a", "b", "c"), docs).lines == ("b",)


def test_a_number_begins_a_theme_with_the_lines_that_have_it():
    texts = ["The 435 fork is in the case.", "A fork of 1435 gram.", "The fork."]
    docs = [ENGLISH.words(text) for text in texts]
    assert having(("435",), ENGLISH, ("a", "b", "c"), docs, texts).lines == ("a",) and telling(("435",), ENGLISH)
