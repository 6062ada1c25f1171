"""What a month's page holds, and what the person decides of it."""

from datetime import date

import pytest
import sample_pictures

from keeper.actions import finding, word_pictures, writing
from keeper.actions.months import shown as months
from keeper.actions.months.words import counted_words
from keeper.actions.photos import kept as photos
from keeper.errors import UnknownThing, UnreadableDate, UnreadableText
from keeper.model import Reading, Tracker
from keeper.store import lines, month_pages, resting, trackers
from keeper.store.photos import known as kept_photos
from keeper.store.search import Sought

MAY, JUNE = date(2026, 5, 1), date(2026, 6, 1)


@pytest.fixture
def write(store, clock):
    return lambda night, text, kind="memory": writing.write_line(store, night, kind, text, clock)


@pytest.fixture
def a_person(store):
    """Marks a person's name; resting if wished."""

    def mark(name: str, rests: bool = False) -> None:
        with store.writing() as connection:
            connection.execute("INSERT INTO person VALUES (?, ?)", (f"id of {name}", name))
        if rests:
            resting.rest(store, "person", f"id of {name}")

    return mark


def texts(view) -> list[str]:
    return [line.text for line in view.lines]


def ordinary(write, months_long: int = 14) -> None:
    """A year of plain evenings before May 2026."""
    for n in range(months_long):
        month = date(2025 + (3 + n) // 12, (3 + n) % 12 + 1, 1)
        for day in range(1, 27, 2):
            write(month.replace(day=day), f"Tea with bread by the window, number {n + day}, rain and a long walk.")


# the page


def test_an_empty_month_is_empty(store):
    view = months.month_page(store, MAY)
    assert view.empty and len(view.nights) == 31 and not view.holds_back


def test_the_page_has_the_nights_the_question_and_its_answers(store, write, clock):
    write(date(2026, 5, 3), "An answer.", "reflection")
    write(date(2026, 5, 3), "A memory.")
    writing.set_place(store, date(2026, 5, 4), "Visby", clock)
    months.ask_question(store, MAY, "What was new?")
    view = months.month_page(store, date(2026, 5, 20))
    assert (view.month, view.page.question, [one.text for one in view.answers]) == (MAY, "What was new?", ["An answer."])
    assert [one.place.name for one in view.places] == ["Visby"]
    assert view.nights[2].lines[0].kind == "memory" and view.kept == 1


def test_what_set_a_month_apart_is_found_among_ordinary_ones(store, write):
    ordinary(write)
    for day in (2, 8, 14, 20):
        write(date(2026, 5, day), "The lighthouse keeper waved from the lighthouse.", "gratitude")
    found = months.month_page(store, MAY).words
    assert found[0].word == "lighthouse" and found[0].times == 8 and found[0].nights == 4
    assert "tea" not in [one.word for one in found]
    assert months.month_page(store, date(2026, 3, 1)).words == ()


@pytest.mark.parametrize(("days", "found"), [((2, 14), ["lighthouse"]), ((2,), [])])
def test_in_a_full_month_two_nights_of_a_word_are_enough_and_one_is_not(store, write, days, found):
    ordinary(write)
    for day in range(3, 27, 2):
        write(date(2026, 5, day), f"Tea with bread by the window, number {day}, rain and a long walk.")
    for day in days:
        write(date(2026, 5, day), "lighthouse " * (8 // len(days)), "gratitude")
    assert [one.word for one in months.month_page(store, MAY).words] == found


def test_what_is_said_all_the_time_sets_no_month_apart_whatever_its_script(store, write, a_person):
    a_person("Frau Petersen")
    for month in (*range(1, 5), *range(6, 13)):
        for day in range(1, 27, 2):
            write(date(2026, month, day), "Frau Petersen sang. Müde Füße, schöne Blüten.")
            write(date(2026, month, day), "\u4eca\u5929\u559d\u8336\u770b\u6d77", "gratitude")
    for day in range(1, 27, 2):
        write(date(2026, 5, day), "Frau Petersen sang. Müde Füße, schöne Blüten. A heron.")
        write(date(2026, 5, day), "\u4eca\u5929\u559d\u8336\u770b\u6d77", "gratitude")
    assert [one.word for one in months.month_page(store, MAY).words] == ["heron"]


def test_japanese_words_that_are_said_all_the_time_set_no_month_apart_and_find_their_lines(store, write):
    for month in (*range(1, 5), *range(6, 13)):
        for day in range(1, 27, 2):
            write(date(2026, month, day), "ピアノを弾いた。田中さんと歌って、海をながめた。")
    for day in range(1, 27, 2):
        write(date(2026, 5, day), "ピアノを弾いた。田中さんと歌って、海をながめた。自転車も直した。")
    assert {one.word for one in months.month_page(store, MAY).words} == {"自転車", "直す"}
    counted = counted_words(store, lines.between(store, MAY, JUNE))
    assert {one.word: one.sought for one in counted}["弾く"] == "弾"
    assert {one.word for one in counted} == {"ピアノ", "弾く", "田中さん", "歌う", "海", "ながめる", "自転車", "直す"}
    assert all(finding.find(store, Sought(one.sought)) for one in counted)


GERMAN_NIGHTS = (
    "Pilzsuppe.", "Klavier gestimmt, gestimmt.", "Dies sah ich bei denen, deren Hafen still war.",
    "Mit Brot und Butter am Kai.", "Der Organist gab mir einen Brief.", "Nebel, dann Sonne über dem Wasser.",
)  # fmt: skip


def test_german_nouns_are_written_with_their_capital_and_small_words_are_none(store, write):
    for day, text in enumerate(GERMAN_NIGHTS, start=2):
        write(date(2026, 5, day), text)
    counted = counted_words(store, lines.between(store, MAY, JUNE))
    assert {one.word for one in counted} == {
        "Pilzsuppe", "Klavier", "gestimmt", "Hafen", "still", "Brot", "Butter", "Kai", "Organist", "Brief", "Nebel",
        "Sonne", "Wasser",
    }  # fmt: skip


def test_three_lines_say_nothing_of_a_month(store, write):
    ordinary(write)
    for day in (2, 8, 14):
        write(date(2027, 5, day), "The lighthouse keeper waved from the lighthouse.")
    assert months.month_page(store, date(2027, 5, 1)).words == ()


def test_names_stay_whole_and_endings_are_one_word(store, write, a_person):
    a_person("Frau Petersen")
    for day, text in ((2, "Frau Petersen tuned."), (3, "Tuning with Frau Petersen."), (4, "To tune is to wait.")):
        write(date(2026, 5, day), text)
    counted = {one.word: one for one in counted_words(store, lines.between(store, MAY, JUNE))}
    assert counted["Frau Petersen"].times == 2
    tuned = next(one for one in counted.values() if one.stem == "tune")
    assert (tuned.times, tuned.sought) == (3, "tun")


def test_firsts_are_told_of_places_names_themes_and_trackers(store, write, clock, a_person):
    a_person("Ilze")
    a_person("Henning")
    writing.set_place(store, date(2026, 4, 3), "Riga", clock)
    write(date(2026, 4, 3), "Henning wrote.")
    writing.set_place(store, date(2026, 5, 3), "Riga", clock)
    writing.set_place(store, date(2026, 5, 9), "Visby", clock)
    line = write(date(2026, 5, 5), "Ilze and Henning.")
    trackers.add(store, Tracker("", "swam", "mark", None, None, "", "neither", date(2026, 5, 6)))
    with store.writing() as connection:
        connection.execute("INSERT INTO theme (number, id, name, begun_at) VALUES (1, 'a', 'letters', '')")
        connection.execute("INSERT INTO theme_line VALUES (?, 1, 0.5)", (line.id,))
    told = [(one.night.day, one.kind, one.name) for one in months.month_page(store, MAY).firsts]
    assert told == [(5, "person", "Ilze"), (5, "theme", "letters"), (6, "tracker", "swam"), (9, "place", "Visby")]
    assert months.month_page(store, JUNE).firsts == ()


def test_readings_come_as_series(store, write):
    tracker = trackers.add(store, Tracker("", "sleep", "hours", None, None, "h", "higher", date(2026, 4, 1)))
    trackers.note(store, [Reading(date(2026, 5, 2), tracker, 6.5)])
    series = months.month_page(store, MAY).series[0]
    assert (series.values[1], series.low, series.high, series.band) == (6.5, 0.0, 12.0, (7.0, 9.0))
    assert months.month_page(store, JUNE).series == ()


# what rests


def test_what_rests_is_on_no_part_of_the_page(store, write, clock, a_person):
    ordinary(write)
    hidden = [write(date(2026, 5, day), "The hospital again, the hospital.", "gratitude") for day in (2, 8, 14, 20, 26)]
    for line in hidden:
        writing.rest_line(store, line.id)
    a_person("Rolf", rests=True)
    write(date(2026, 5, 6), "A postcard from Rolf.")
    writing.set_place(store, date(2026, 5, 28), "The ward", clock)
    write(date(2026, 5, 28), "At the ward.")
    ward = months.month_page(store, MAY).places[-1].place
    resting.rest(store, "place", ward.id)
    write(date(2026, 5, 30), "Within the span.")
    resting.rest_span(store, date(2026, 5, 30), date(2026, 5, 31))
    view = months.month_page(store, MAY)
    assert not [text for text in texts(view) if "hospital" in text or "Rolf" in text or "ward" in text or "span" in text]
    assert "The ward" not in [one.place.name for one in view.places]
    assert not [one for one in view.words if one.word == "hospital"]
    assert not [one for one in view.firsts if one.name in ("Rolf", "The ward")]
    assert view.holds_back
    brought = months.month_page(store, MAY, with_resting=True)
    assert {"A postcard from Rolf.", "At the ward.", "Within the span."} <= set(texts(brought))
    for beside in (*months.side_by_side(store, [MAY, JUNE]), *months.same_month_every_year(store, MAY)):
        assert not [text for text in texts(beside) if "hospital" in text or "Rolf" in text]


def test_a_resting_photo_is_not_the_month_s(store, clock, tmp_path, write):
    photo = photos.take_in(store, sample_pictures.save(tmp_path / "one.jpg"), clock, date(2026, 5, 2)).photo
    other = photos.take_in(store, sample_pictures.save(tmp_path / "other.jpg", sample_pictures.quarters(40, 30)), clock, date(2026, 5, 9)).photo
    months.choose_photo(store, MAY, photo.id)
    assert months.month_page(store, MAY).photo.id == photo.id
    assert [(one.id, night.day) for one, night in months.photos_to_choose(store, MAY)] == [(photo.id, 2), (other.id, 9)]
    photos.rest_photo(store, photo.id)
    assert months.month_page(store, MAY).photo is None
    assert months.month_page(store, MAY, with_resting=True).photo.id == photo.id
    assert [one.id for one, _ in months.photos_to_choose(store, MAY)] == [other.id]
    months.choose_photo(store, MAY, other.id)
    resting.rest_span(store, date(2026, 5, 9), date(2026, 5, 9))
    assert months.month_page(store, MAY).photo is None and months.photos_to_choose(store, MAY) == ()


# side by side


def test_two_to_four_months_side_by_side_in_order(store, write):
    write(date(2026, 5, 2), "may")
    views = months.side_by_side(store, [date(2026, 6, 9), date(2026, 5, 3), date(2026, 5, 20)])
    assert [view.month for view in views] == [MAY, JUNE]
    for wrong in ([MAY], [], [date(2026, n, 1) for n in range(1, 6)]):
        with pytest.raises(UnreadableDate):
            months.side_by_side(store, wrong)


def test_the_same_month_of_every_year_that_has_lines(store, write):
    for year in (2019, 2024, 2026):
        write(date(year, 5, 31), f"of {year}")
    write(date(2025, 6, 1), "another month")
    assert [view.month.year for view in months.same_month_every_year(store, MAY)] == [2026, 2024, 2019]
    assert months.kept_months(store) == (MAY, date(2025, 6, 1), date(2024, 5, 1), date(2019, 5, 1))
    assert months.same_months(store, date(2026, 2, 1)) == ()


# deciding


def test_any_file_becomes_the_month_s_photo(store, clock, tmp_path):
    photo = months.bring_photo(store, MAY, sample_pictures.save(tmp_path / "one.jpg"), clock)
    assert month_pages.one(store, MAY).photo_id == photo.id == kept_photos.by_id(store, photo.id).id
    months.choose_photo(store, MAY, None)
    assert months.month_page(store, MAY).photo is None
    with pytest.raises(UnknownThing):
        months.choose_photo(store, MAY, "nowhere")


def goals(store, month=MAY):
    return [(goal.text, goal.outcome, goal.word) for goal in month_pages.one(store, month).goals]


def test_goals_are_set_reworded_and_closed_with_a_word(store):
    swim, write_ = months.add_goal(store, MAY, "  Swim \n once "), months.add_goal(store, MAY, "Write")
    assert goals(store) == [("Swim once", "set", ""), ("Write", "set", "")]
    months.close_goal(store, MAY, swim.id, "done", "cold")
    months.change_goal(store, MAY, write_.id, "Write to Ilze")
    months.close_goal(store, MAY, write_.id, "let go")
    assert goals(store) == [("Swim once", "done", "cold"), ("Write to Ilze", "let go", "")]
    months.change_goal(store, MAY, swim.id, " ")
    assert goals(store) == [("Write to Ilze", "let go", "")]
    assert month_pages.one(store, MAY).goals[0].id == write_.id


def test_carried_on_a_goal_stands_in_the_next_month_once(store):
    goal = months.add_goal(store, MAY, "Swim")
    months.close_goal(store, MAY, goal.id, "carried on", "half")
    months.close_goal(store, MAY, goal.id, "carried on", "half of it")
    assert (goals(store), goals(store, JUNE)) == ([("Swim", "carried on", "half of it")], [("Swim", "set", "")])
    months.close_goal(store, MAY, goal.id, "done")
    assert goals(store, JUNE) == []


def test_a_carried_goal_that_was_worked_on_is_not_taken_back(store):
    goal = months.add_goal(store, date(2026, 12, 1), "Swim")
    months.close_goal(store, date(2026, 12, 1), goal.id, "carried on")
    carried = month_pages.one(store, date(2027, 1, 1)).goals[0]
    months.close_goal(store, date(2027, 1, 1), carried.id, "done", "in the new year")
    months.close_goal(store, date(2026, 12, 1), goal.id, "let go")
    assert goals(store, date(2027, 1, 1)) == [("Swim", "done", "in the new year")]


def test_goals_that_cannot_be_are_told(store):
    with pytest.raises(UnreadableText):
        months.add_goal(store, MAY, "  ")
    goal = months.add_goal(store, MAY, "Swim")
    with pytest.raises(UnknownThing):
        months.close_goal(store, MAY, goal.id, "won")
    with pytest.raises(UnknownThing):
        months.change_goal(store, JUNE, goal.id, "Swim")
    with pytest.raises(UnreadableText):
        months.change_goal(store, MAY, goal.id, "a\x00b")
    months.take_out_goal(store, MAY, goal.id)
    assert goals(store) == []


def test_deciding_one_thing_leaves_the_others(store):
    months.ask_question(store, MAY, "What?")
    months.add_goal(store, MAY, "Swim")
    months.write_words(store, MAY, "  Two words.\nAnd more. ")
    page = month_pages.one(store, MAY)
    assert (page.question, page.words, len(page.goals)) == ("What?", "Two words.\nAnd more.", 1)
    months.write_words(store, MAY, "")
    assert month_pages.one(store, MAY).question == "What?"


# the shelf, and turning


def test_the_shelf_has_sixty_questions_of_its_own_and_marks_those_asked(store):
    shelf = months.shelf(store)
    assert len(shelf) == len({one.text for one in shelf}) == 60
    assert all(one.text.endswith("?") and "!" not in one.text and one.about and not one.asked for one in shelf)
    months.ask_question(store, MAY, shelf[3].text.upper().rstrip("?"))
    months.ask_question(store, JUNE, shelf[3].text)
    assert months.shelf(store)[3].asked == (MAY, JUNE)


def test_turning_is_offered_on_the_first_evenings_after_a_month_with_lines(store, write):
    assert months.to_turn(store, date(2026, 6, 2)) is None
    write(date(2026, 5, 31), "the end of May")
    assert months.to_turn(store, date(2026, 6, 1)) == months.to_turn(store, date(2026, 6, 7)) == MAY
    assert months.to_turn(store, date(2026, 6, 8)) is months.to_turn(store, date(2026, 5, 31)) is None


# pictures of words


def test_a_word_stands_over_its_nights_and_belongs_to_its_place(store, write, clock):
    for day, where in ((2, "Riga"), (20, "Visby")):
        writing.set_place(store, date(2026, 5, day), where, clock)
    write(date(2026, 5, 2), "Lanterns.")
    write(date(2026, 5, 20), "Lanterns, lanterns and herring.")
    picture = word_pictures.picture_of_month(store, MAY)
    by_word = {one.word.lower(): one for one in picture.placed}
    assert by_word["lanterns"].times == 3 and picture.about(by_word["lanterns"]) == date(2026, 5, 20)
    assert {word.lower(): place.name for word, place in picture.homes.items()} == {"lanterns": "Visby", "herring": "Visby"}
    ticks = picture.band.nights
    assert len(ticks) == 31 and [n for n, one in enumerate(ticks, 1) if one.much] == [2, 20]
    assert ticks[19].much == 1.0 and ticks[1].mark != ticks[19].mark
    assert [name for _, name in picture.band.named] == ["1", "8", "15", "22", "29"]
    year = word_pictures.picture_of_year(store, 2026)
    assert len(year.band.nights) == 365 and [name for _, name in year.band.named][:2] == ["Jan", "Feb"]


def test_pictures_leave_out_what_rests_and_find_their_lines(store, write, clock, a_person):
    writing.set_place(store, date(2026, 5, 2), "Riga", clock)
    write(date(2026, 5, 2), "Harbour bells, harbour lamps.")
    writing.rest_line(store, write(date(2026, 5, 3), "The hospital.").id)
    a_person("Rolf", rests=True)
    write(date(2026, 5, 4), "Rolf and a lantern.")
    for picture in (word_pictures.picture_of_month(store, MAY), word_pictures.picture_of_year(store, 2026),
                    word_pictures.picture_of_place(store, months.month_page(store, MAY).places[0].place.id)):  # fmt: skip
        words = {one.word.lower() for one in picture.placed}
        assert {"harbour", "bells", "lamps"} <= words
        assert not words & {"hospital", "rolf", "lantern"}
        assert all(one.word in picture.sought for one in picture.placed)
    assert word_pictures.picture_of_month(store, JUNE).placed == ()
    assert word_pictures.picture_of_theme(store, 7).placed == ()
