"""Finding themes, deciding about them, placing lines: on a real keeper."""

import subprocess
import sys
from collections import Counter
from datetime import UTC, date, datetime, timedelta

import pytest
from theme_keeper import fill, fill_with_themes

from keeper.actions import finding, writing
from keeper.actions.history import undoing
from keeper.actions.themes import asking as themes
from keeper.actions.themes import making as theme_making
from keeper.clock import StoppedClock
from keeper.errors import AlreadyKept, Stopped, UnknownThing, UnreadableText
from keeper.store import lines, open_store, resting
from keeper.store.themes import found as kept
from keeper.store.themes import lines as theme_lines
from keeper.study.themes.naming import first_word

NIGHT = date(2026, 11, 14)


@pytest.fixture
def about(store):
    """160 lines; the subject of each."""
    return fill(store, 160)


@pytest.fixture
def found(store):
    """The same, with their themes."""
    return fill_with_themes(store)


def where(store):
    """Line -> theme."""
    return dict(store.rows("SELECT line_id, theme FROM theme_line"))


def of_subject(store, about, subject):
    """The theme in which most lines of a subject are."""
    home = where(store)
    return Counter(home[line] for line, its in about.items() if its == subject and home[line]).most_common(1)[0][0]


def state(store):
    """What is shown, but for when and with which arrays it was made."""
    return kept.every(store), where(store)


# finding


def test_themes_are_found_and_told(store, found):
    view = themes.themes_view(store)
    assert view.looked and view.enough and view.due == themes.NOTHING and view.kept == 160
    assert 4 <= len(view.threads) <= 8
    twice = store.row("SELECT count(*) FROM theme_second WHERE NOT offered")[0]
    assert sum(one.lines for one in view.threads) + view.loose == 160 + twice
    assert [one.lines for one in view.threads] == sorted((one.lines for one in view.threads), reverse=True)
    assert all(one.name and one.central and len(one.central) <= 3 for one in view.threads)


def test_under_thirty_lines_nothing_is_due_and_nothing_told(store, clock):
    fill(store, 29)
    assert themes.themes_due(store) == themes.NOTHING
    assert themes.look_again(store, clock) == themes.NOTHING
    view = themes.themes_view(store)
    assert not view.enough and view.threads == ()


def test_lines_without_words_in_common_are_not_looked_for_at_each_opening(store, clock):
    for number in range(40):
        writing.write_line(store, date(2026, 1, 1 + number // 2), ("gratitude", "memory")[number % 2], "1 2 3", clock)
    assert themes.look_again(store, clock) == themes.REBUILD
    assert themes.themes_due(store) == themes.NOTHING
    view = themes.themes_view(store)
    assert view.looked and not view.enough and view.kept == 40


def test_a_rebuild_is_due_after_three_in_a_hundred_new_lines(store, clock, found):
    for number in range(4):
        writing.write_line(store, date(2026, 1, 1 + number), "memory", f"Bread {number}", clock)
    assert themes.themes_due(store) == themes.NOTHING
    writing.write_line(store, date(2026, 1, 9), "memory", "Bread again", clock)
    assert themes.themes_due(store) == themes.REBUILD
    assert themes.look_again(store, clock) == themes.REBUILD
    assert themes.themes_due(store) == themes.NOTHING


def test_arrays_of_another_form_ask_for_a_rebuild(store, found, monkeypatch):
    monkeypatch.setattr(theme_making.theme_model, "FORM", 999)
    assert themes.themes_due(store) == themes.REBUILD
    assert themes.place_new(store) == 0


def test_damaged_arrays_are_no_harm(store, clock, found):
    with store.writing() as connection:
        connection.execute("UPDATE theme_model SET arrays = X'00', told = json_set(told, '$.id', 'other')")
    line = writing.write_line(store, NIGHT, "memory", "Bread", clock)
    assert themes.place_line(store, line) is None
    assert themes.redraw_themes(store, clock) is None
    themes.rebuild_themes(store, clock)
    assert themes.place_line(store, line) is not None


def test_a_second_rebuild_leaves_everything_where_it_was(store, clock, found):
    before = where(store)
    themes.rebuild_themes(store, clock)
    after = where(store)
    assert sum(after[line] == theme for line, theme in before.items()) >= 0.95 * len(before)


def test_a_rebuild_broken_off_changes_nothing(store, clock, found):
    before = state(store), kept.build(store)
    with pytest.raises(Stopped):
        themes.rebuild_themes(store, clock, stopped=lambda: True)

    def stop(share, words):
        raise Stopped("Stopped.")

    with pytest.raises(Stopped):
        themes.rebuild_themes(store, clock, progress=stop)
    assert (state(store), kept.build(store)) == before


def test_progress_is_told_in_words(store, clock, about):
    told = []
    themes.rebuild_themes(store, clock, lambda share, words: told.append((share, words)))
    shares = [share for share, _ in told]
    assert shares == sorted(shares) and shares[0] == 0 and shares[-1] == 1 and all(words for _, words in told)


def test_lines_and_decisions_that_come_while_themes_are_found_are_heeded(store, folder, clock, about):
    themes.rebuild_themes(store, clock)
    number = themes.themes_view(store).threads[0].number

    def meanwhile(share, words):
        if share == 0:
            with open_store(folder) as other:
                themes.rename(other, number, "Called so meanwhile", clock)
                writing.write_line(other, NIGHT, "memory", "Bread and butter, the oven warm.", clock)

    themes.rebuild_themes(store, clock, meanwhile)
    assert kept.one(store, number).name == "Called so meanwhile"
    assert themes.themes_due(store) == themes.NOTHING
    assert themes.place_new(store) == 1


def test_another_program_may_write_while_themes_are_found(store, folder, clock, about):
    """Each time it tells how far it is, nothing is held that somebody else would wait for."""
    kept = []
    with open_store(folder) as other:
        other.connection.execute("PRAGMA busy_timeout = 0")

        def write(share, words):
            night = date(2026, 2, 1) + timedelta(days=len(kept))
            kept.append(writing.write_line(other, night, "memory", f"Swam {len(kept)}", clock))

        themes.rebuild_themes(store, clock, write)
        assert len(kept) > 1
        assert all(lines.by_id(store, line.id) for line in kept)


# placing


def test_a_new_line_finds_its_theme_at_once(store, clock, found):
    bread = of_subject(store, found, "bread")
    line = writing.write_line(store, NIGHT, "memory", "Baked a loaf of rye, flour all over the kitchen.", clock)
    assert themes.place_line(store, line) == bread
    assert line.id in theme_lines.member_ids(store, bread)
    line = writing.write_line(store, NIGHT, "gratitude", "Zyzzyva.", clock)
    assert themes.place_line(store, line) is None
    assert line.id in theme_lines.member_ids(store, None)


def test_a_line_placed_again_stays_where_it_is_and_is_there_once(store, clock, found):
    line = writing.write_line(store, NIGHT, "memory", "Baked a loaf of rye, flour all over the kitchen.", clock)
    home = themes.place_line(store, line)
    before = theme_lines.member_ids(store, home)
    assert [themes.place_line(store, line) for _ in range(3)] == [home] * 3
    assert theme_lines.member_ids(store, home) == before and list(before).count(line.id) == 1


def test_placing_does_without_scikit_learn(store, folder, found):
    script = (
        "import sys; from pathlib import Path; from keeper.actions.themes import asking as themes; from keeper.store import open_store;"
        f"store = open_store(Path({str(folder)!r}));"
        "store.connection.execute('DELETE FROM theme_line');"
        "assert themes.place_new(store) == 160;"
        "assert not any(name.startswith('sklearn') for name in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr


def test_asking_for_themes_does_without_numpy():
    script = "import sys; import keeper.actions.themes.asking; assert not {'numpy', 'scipy', 'sklearn'} & set(sys.modules)"
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr


def test_a_line_taken_out_and_written_again_is_where_it_was(store, clock, found):
    line_id = next(iter(found))
    line, home = lines.by_id(store, line_id), where(store)[line_id]
    writing.write_line(store, line.night, line.kind, "", clock)
    writing.write_line(store, line.night, line.kind, line.text, clock)
    assert themes.place_new(store) == 1
    assert where(store)[line_id] == home


def test_a_moved_line_that_is_reworded_stays_where_the_person_said(store, clock, found):
    line_id, sea = next(i for i, its in found.items() if its == "bread"), of_subject(store, found, "sea")
    line = lines.by_id(store, line_id)
    themes.move(store, (line_id,), sea, clock)
    themes.look_again(store, clock)
    writing.write_line(store, line.night, line.kind, "Baked a loaf, flour everywhere.", clock)
    themes.place_new(store)
    assert where(store)[line_id] == sea


def test_a_keeper_without_themes_places_nothing(store, clock, about):
    line = writing.write_line(store, NIGHT, "memory", "Bread", clock)
    assert themes.place_line(store, line) is None and themes.place_new(store) == 0
    assert where(store) == {}


# deciding


def decide(store, clock, act):
    """Decide, and lay it over the themes."""
    made = act()
    themes.look_again(store, clock)
    return made


def test_every_decision_shows_and_is_undone(store, clock, found):
    bread, sea = (of_subject(store, found, subject) for subject in ("bread", "sea"))
    line_id = theme_lines.member_ids(store, bread)[0]
    some = theme_lines.member_ids(store, sea)[:4]
    before = state(store)
    cases = {
        "rename": (lambda: themes.rename(store, bread, " Bread  at home ", clock),
                   lambda _: kept.one(store, bread).name == "Bread at home"),
        "pin": (lambda: themes.pin(store, bread, clock), lambda _: kept.one(store, bread).pinned),
        "merge": (lambda: themes.merge(store, bread, sea, clock),
                  lambda _: kept.one(store, sea) is None and where(store)[some[0]] == bread),
        "split": (lambda: themes.split(store, bread, clock),
                  lambda new: theme_lines.member_ids(store, new) and kept.one(store, new).name),
        "move": (lambda: themes.move(store, (line_id,), sea, clock), lambda _: where(store)[line_id] == sea),
        "take out": (lambda: themes.take_out(store, (line_id,), bread, clock), lambda _: where(store)[line_id] is None),
        "start": (lambda: themes.start(store, some, clock), lambda new: set(some) <= set(theme_lines.member_ids(store, new))),
    }  # fmt: skip
    for what, (act, shows) in cases.items():
        made = decide(store, clock, act)
        assert shows(made), what
        assert themes.last_decision(store), what
        assert decide(store, clock, lambda: themes.undo_last(store, clock)).startswith("Took back: "), what
        assert state(store) == before, what
    assert themes.last_decision(store) == "" and themes.undo_last(store, clock) == ""


def test_any_decision_can_be_undone_and_the_others_stay(store, clock, found):
    bread, sea, music = (of_subject(store, found, subject) for subject in ("bread", "sea", "music"))
    line_id = theme_lines.member_ids(store, bread)[0]
    themes.merge(store, sea, music, clock)
    themes.move(store, (line_id,), sea, clock)
    themes.pin(store, sea, clock)
    decide(store, clock, lambda: themes.rename(store, sea, "The sea", clock))
    made = themes.decisions(store, clock)
    assert [one.told.split()[-1] for one in made[:2]] == ["sea\u201d", "pinned"] and "merged into" in made[3].told
    assert {one.day for one in made} == {NIGHT}
    assert "merged" in decide(store, clock, lambda: themes.undo(store, made[3].id, clock))
    assert kept.one(store, music) and where(store)[line_id] == sea
    assert (kept.one(store, sea).name, kept.one(store, sea).pinned) == ("The sea", True)
    decide(store, clock, lambda: themes.undo(store, made[1].id, clock))
    assert not kept.one(store, sea).pinned and kept.one(store, sea).name == "The sea"
    assert themes.undo(store, made[1].id, clock) == ""


def test_a_started_theme_is_undone_though_later_decisions_speak_of_it(store, clock, found):
    before, some = state(store), tuple(found)[:3]
    made = decide(store, clock, lambda: themes.start(store, some, clock))
    decide(store, clock, lambda: themes.move(store, tuple(found)[3:4], made, clock))
    decide(store, clock, lambda: themes.rename(store, made, "Mine", clock))
    decide(store, clock, lambda: themes.undo(store, themes.decisions(store, clock)[-1].id, clock))
    assert kept.one(store, made) is None and state(store) == before


def test_a_decision_on_one_theme_leaves_the_names_of_the_others(store, clock, about):
    fill(store, 60, seed=3, subjects=("sea",))
    for number in range(60):
        stray = f"The {'oven' if number % 2 else 'boat'} of q{number}a q{number}b q{number}c q{number}d q{number}e."
        writing.write_line(store, date(2022, 1, 1) + timedelta(number), "memory", stray, clock)
    themes.rebuild_themes(store, clock)
    assert themes.themes_view(store).loose > 10
    names = [one.name for one in kept.every(store)]
    themes.redraw_themes(store, clock)
    assert [one.name for one in kept.every(store)] == names


def test_decisions_are_heeded_by_every_later_rebuild(store, clock, found):
    bread, sea, music = (of_subject(store, found, subject) for subject in ("bread", "sea", "music"))
    line_id = theme_lines.member_ids(store, bread)[0]
    themes.rename(store, sea, "The sea", clock)
    themes.merge(store, sea, music, clock)
    themes.move(store, (line_id,), sea, clock)
    themes.look_again(store, clock)
    fill(store, 60, seed=1)
    themes.rebuild_themes(store, clock)
    assert kept.one(store, sea).name == "The sea" and kept.one(store, music) is None
    assert where(store)[line_id] == sea


def test_a_number_of_an_undone_theme_is_not_given_again(store, clock, found):
    some = tuple(found)[:3]
    first = decide(store, clock, lambda: themes.start(store, some, clock))
    decide(store, clock, lambda: themes.undo_last(store, clock))
    assert decide(store, clock, lambda: themes.start(store, some, clock)) == first + 1


def test_a_name_and_a_pin_are_seen_without_a_redraw_and_taken_back(store, clock, found):
    bread = of_subject(store, found, "bread")
    own = kept.one(store, bread).name
    themes.rename(store, bread, "Bread", clock)
    themes.pin(store, bread, clock)
    assert (kept.one(store, bread).name, kept.one(store, bread).pinned) == ("Bread", True)
    assert themes.themes_due(store) == themes.NOTHING
    themes.rename(store, bread, "", clock)
    themes.unpin(store, bread, clock)
    assert themes.look_again(store, clock) == themes.REDRAW
    assert (kept.one(store, bread).name, kept.one(store, bread).pinned) == (own, False)
    themes.undo_last(store, clock)
    assert kept.one(store, bread).pinned


def test_no_theme_of_ours_is_led_by_the_first_word_of_a_name_given(store, clock, found):
    bread, sea = (of_subject(store, found, subject) for subject in ("bread", "sea"))
    own = kept.one(store, sea).name
    themes.rename(store, bread, f"{first_word(own).upper()} and bread", clock)
    assert themes.look_again(store, clock) == themes.REDRAW
    leads = [first_word(one.name) for one in kept.every(store)]
    assert len(set(leads)) == len(leads) and kept.one(store, sea).name != own
    decide(store, clock, lambda: themes.undo_last(store, clock))
    assert kept.one(store, sea).name == own


def test_two_themes_cannot_be_given_one_name(store, clock, found):
    bread, sea = (of_subject(store, found, subject) for subject in ("bread", "sea"))
    themes.rename(store, bread, "Sundays", clock)
    with pytest.raises(AlreadyKept, match="merged"):
        themes.rename(store, sea, "SUNDAYS", clock)
    themes.rename(store, bread, "SUNDAYS", clock)
    assert kept.one(store, bread).name == "SUNDAYS"


def test_a_theme_of_lines_without_words_has_a_name(store, clock, found):
    ids = [writing.write_line(store, date(2024, 1, day), "memory", "\U0001f600", clock).id for day in (1, 2)]
    made = decide(store, clock, lambda: themes.start(store, ids, clock))
    assert kept.one(store, made).name.endswith(" theme")


def test_a_reworded_line_stays_in_a_theme_that_took_over_the_one_it_was_let_out_of(store, clock, found):
    bread, sea = (of_subject(store, found, subject) for subject in ("bread", "sea"))
    line_id = theme_lines.member_ids(store, bread)[0]
    themes.take_out(store, (line_id,), bread, clock)
    themes.move(store, (line_id,), sea, clock)
    decide(store, clock, lambda: themes.merge(store, sea, bread, clock))
    assert where(store)[line_id] == sea
    reworded = lines.by_id(store, line_id)
    writing.write_line(store, reworded.night, reworded.kind, "Nothing like it.", clock)
    themes.place_new(store)
    assert where(store)[line_id] == sea


def test_a_word_left_out_belongs_to_no_theme_until_it_is_let_in(store, clock, found):
    assert any("bread" in one.words for one in themes.themes_view(store).threads)
    themes.leave_word_out(store, " bread ", clock)
    assert themes.words_left_out(store) == ("bread",)
    assert themes.look_again(store, clock) == themes.REBUILD
    assert not any("bread" in one.words for one in themes.themes_view(store).threads)
    themes.let_word_in(store, "bread", clock)
    assert themes.words_left_out(store) == () and themes.themes_due(store) == themes.REBUILD
    assert "bread" in themes.last_decision(store)


def test_what_cannot_be_decided_is_told(store, clock, found):
    bread = of_subject(store, found, "bread")
    for act in (
        lambda: themes.rename(store, 999, "x", clock), lambda: themes.pin(store, 999, clock),
        lambda: themes.merge(store, bread, bread, clock), lambda: themes.merge(store, bread, 999, clock),
        lambda: themes.split(store, 999, clock), lambda: themes.start(store, (), clock),
        lambda: themes.start(store, ("no such line",), clock), lambda: themes.move(store, ("no",), bread, clock),
        lambda: themes.move(store, (next(iter(found)),), 999, clock),
    ):  # fmt: skip
        with pytest.raises(UnknownThing):
            act()
    with pytest.raises(UnreadableText):
        themes.rename(store, bread, "x" * 81, clock)
    with pytest.raises(UnreadableText):
        themes.rename(store, bread, "a\x00b", clock)
    assert themes.last_decision(store) == ""


# one theme


def test_a_themes_own_page(store, clock, found):
    bread = of_subject(store, found, "bread")
    night = lines.by_id(store, theme_lines.member_ids(store, bread)[0]).night
    writing.set_place(store, night, "Visby", clock)
    view = themes.theme_view(store, bread)
    assert view.thread.number == bread and "bread" in view.thread.words
    assert view.places == (("Visby", 1),) and len(view.nights) == view.thread.nights
    assert 1 <= len(view.strongest) <= 3 and view.photos == ()
    shown = themes.lines_of(store, bread, 1000)
    assert len(shown) == view.thread.lines
    assert [one.line.night for one in shown] == sorted((one.line.night for one in shown), reverse=True)
    assert themes.nights_of(store, bread) == view.nights
    assert len(themes.lines_of(store, bread, 5, 2)) == 5
    with pytest.raises(UnknownThing):
        themes.theme_view(store, 999)


def test_resting_lines_are_not_brought_up_but_found(store, found):
    bread = of_subject(store, found, "bread")
    first = themes.theme_view(store, bread).thread.central[0]
    resting.rest(store, "line", first.id)
    view = themes.theme_view(store, bread)
    assert first.id not in {line.id for line in view.thread.central}
    assert first.id in {one.line.id for one in themes.lines_of(store, bread, 1000) if one.line.resting}


def test_a_theme_is_found_by_how_its_name_begins(store, clock, found):
    bread = of_subject(store, found, "bread")
    themes.rename(store, bread, "Bröd and butter", clock)
    assert themes.named(store, "brod") == bread
    with pytest.raises(UnknownThing):
        themes.named(store, "zz")
    with pytest.raises(UnknownThing):
        themes.named(store, "")
    assert (bread, "Bröd and butter") in themes.names(store)
    assert len(finding.find(store, finding.Sought(themes=(bread,)), 1000)) == len(theme_lines.member_ids(store, bread))


def test_lines_in_two_languages_are_heard_in_both(store):
    english = StoppedClock(datetime(2026, 11, 14, tzinfo=UTC))
    for number in range(40):
        text = "Das Brot war noch warm und die K\u00fcche auch." if number % 2 else "We were at the sea with all of them."
        writing.write_line(store, date(2026, 1, 1 + number // 2), ("memory", "gratitude")[number % 2], text, english)
    assert set(theme_making.languages_of(theme_making._asked(store).lines)) == {"en", "de"}


def test_lines_moved_in_one_go_are_undone_in_one_go(store, clock, found):
    bread, sea = (of_subject(store, found, subject) for subject in ("bread", "sea"))
    ids, before = theme_lines.member_ids(store, bread)[:3], state(store)
    themes.rename(store, sea, "The sea", clock)
    decide(store, clock, lambda: themes.move(store, ids, sea, clock))
    assert {where(store)[line] for line in ids} == {sea}
    assert decide(store, clock, lambda: themes.undo_last(store, clock)) == "Took back: lines moved to \u201cThe sea\u201d."
    assert where(store) == before[1] and themes.last_decision(store) == "a theme called \u201cThe sea\u201d"


def test_decisions_taken_back_by_the_history_of_all_are_seen_at_once_and_laid_over_again(store, clock, found):
    bread = of_subject(store, found, "bread")
    own = kept.one(store, bread).name
    themes.rename(store, bread, "Loaves", clock)
    themes.pin(store, bread, clock)
    themes.look_again(store, clock)
    turned = undoing.undo(store)
    assert turned.themes and turned.sentence == "Took back: \u201cLoaves\u201d pinned."
    assert not kept.one(store, bread).pinned
    undoing.undo(store)
    assert themes.look_again(store, clock) == themes.REDRAW and kept.one(store, bread).name == own
    undoing.redo(store)
    assert kept.one(store, bread).name == "Loaves" and themes.last_decision(store) == "a theme called \u201cLoaves\u201d"


# loose lines and what comes nearest to them


def loosened(store, count=3):
    """So many lines without a theme, the most central one of each, with what they would come nearest to."""
    chosen = store.rows("SELECT line_id, theme FROM theme_line WHERE theme IS NOT NULL GROUP BY theme ORDER BY line_id LIMIT ?", (count,))
    themes_of_ours = dict(chosen)
    kept.put(store, [(line, None, 0.0) for line in themes_of_ours], [(line, theme, 0.0, True) for line, theme in chosen])
    with store.writing() as connection:
        connection.executemany("UPDATE theme_base SET theme = NULL WHERE line_id = ?", [(line,) for line in themes_of_ours])
    return themes_of_ours


def test_loose_lines_are_put_in_what_comes_nearest_and_stay_there(store, clock, found):
    offered = loosened(store)
    some = list(offered)[:2]
    assert themes.put_in(store, some, clock) == 2
    assert {line: where(store)[line] for line in some} == {line: offered[line] for line in some}
    assert where(store)[list(offered)[2]] is None
    assert themes.themes_due(store) == themes.REDRAW
    themes.rebuild_themes(store, clock)
    home, names = where(store), {line: offered[line] for line in some}
    assert {line: home[line] for line in some} == names


def test_lines_put_in_are_one_act_and_undone_as_one(store, clock, found):
    offered = loosened(store)
    themes.put_in(store, list(offered), clock)
    assert undoing.undo(store).sentence == "Took back: 3 lines put into the nearest themes."
    assert themes.look_again(store, clock) == themes.REDRAW
    assert {where(store)[line] for line in offered} == {None}
    assert theme_lines.beside(store, None, offered).keys() == offered.keys()
    undoing.redo(store)
    themes.look_again(store, clock)
    assert {line: where(store)[line] for line in offered} == offered


def test_lines_put_into_several_themes_are_told_as_that(store, clock, found):
    offered = list(loosened(store))
    themes.put_in(store, offered[:1], clock)
    name = next(one.name for one in themes.themes_view(store).threads if one.number == where(store)[offered[0]])
    assert themes.last_decision(store) == f"1 line put into \u201c{name}\u201d"
    themes.put_in(store, offered[1:], clock)
    assert themes.decisions(store, clock)[0].told == "2 lines put into the nearest themes"
    assert themes.undo_last(store, clock) == "Took back: 2 lines put into the nearest themes."


def test_lines_that_come_near_to_nothing_are_not_put_in(store, clock, found):
    before = where(store)
    assert themes.put_in(store, list(before)[:5], clock) == 0
    assert where(store) == before and themes.last_decision(store) == ""
