"""What a person does with a pattern: put away, kept an eye on, noted on the month; each can be undone."""

from datetime import date, timedelta

import pytest
from made.pattern_keeper import FIRST, NIGHTS, fill

from keeper.actions.history import lately, undoing
from keeper.actions.patterns import asking, deciding, shown
from keeper.errors import UnknownThing
from keeper.model import Act
from keeper.store import month_pages

SLEEP_MOOD = ("reading:sleep", "reading:mood", 1)
LAST = FIRST + timedelta(days=NIGHTS - 1)


@pytest.fixture
def asked(store, clock):
    fill(store)
    asking.ask(store, clock)
    return store


def sentences(its) -> list[str]:
    return [one.sentence for one in its]


def keep_nights(store, many: int) -> None:
    with store.writing(Act("Nights", "night")) as connection:
        connection.executemany("INSERT INTO night (date, begun_at) VALUES (?, '')",
                               [((LAST + timedelta(days=day)).isoformat(),) for day in range(1, many + 1)])  # fmt: skip


def test_one_put_away_stands_apart_until_it_is_brought_back(asked):
    (one,) = shown.patterns_view(asked).told
    deciding.put_away(asked, SLEEP_MOOD, one.sentence)
    view = shown.patterns_view(asked)
    assert view.told == () and sentences(view.put_away) == [one.sentence]
    assert view.standing == "Among 30 questions one answer stands out from chance."
    deciding.bring_back(asked, SLEEP_MOOD, one.sentence)
    assert sentences(shown.patterns_view(asked).told) == [one.sentence]


def test_one_put_away_stays_so_at_another_lag(asked):
    deciding.put_away(asked, ("reading:mood", "reading:sleep", 0), "Mood and sleep.")
    assert shown.patterns_view(asked).told == ()
    deciding.bring_back(asked, SLEEP_MOOD, "Mood and sleep.")
    assert len(shown.patterns_view(asked).told) == 1


def test_an_eye_is_kept_until_the_nights_are_in(asked):
    then = shown.patterns_view(asked).told[0].sentence
    deciding.watch(asked, SLEEP_MOOD, then, LAST, 20)
    assert shown.patterns_view(asked).told[0].watched == "An eye is kept on it until 20 nights more are in."
    keep_nights(asked, 19)
    assert not deciding.anything_due(asked) and shown.patterns_view(asked).due == ()
    with asked.writing(Act("A night", "night")) as connection:
        connection.execute("INSERT INTO night (date, begun_at) VALUES (?, '')", ((LAST + timedelta(days=20)).isoformat(),))
    assert deciding.anything_due(asked)
    (due,) = shown.patterns_view(asked).due
    assert shown.patterns_view(asked).told[0].watched == "An eye was kept on it; 20 nights more are in."
    assert due.sentence == f"20 nights more are in. Then as now: {then}" and due.question == SLEEP_MOOD
    deciding.watch_no_more(asked, SLEEP_MOOD)
    assert not deciding.anything_due(asked) and not shown.patterns_view(asked).told[0].watched


def test_what_no_longer_stands_out_is_said_so(asked):
    deciding.watch(asked, ("reading:tea", "reading:mood", 2), "After tea, mood was 9 higher.", LAST, 1)
    keep_nights(asked, 1)
    (due,) = shown.patterns_view(asked).due
    assert due.sentence == "1 night more is in. Then: After tea, mood was 9 higher. Now it no longer stands out from chance."


def test_an_eye_is_kept_for_a_number_of_nights(asked):
    for nights in (0, -1, deciding.LONGEST_WAIT + 1):
        with pytest.raises(UnknownThing):
            deciding.watch(asked, SLEEP_MOOD, "It.", LAST, nights)


def test_it_is_noted_below_the_words_of_the_month_once(asked):
    month = date(2026, 11, 1)
    deciding.note_on_month(asked, month, "Sleep goes with mood.")
    deciding.note_on_month(asked, month, "Sleep goes with mood.")
    assert month_pages.one(asked, month).words == "Sleep goes with mood."
    deciding.note_on_month(asked, month, "Tea goes with nothing.")
    assert month_pages.one(asked, month).words == "Sleep goes with mood.\nTea goes with nothing."


@pytest.mark.parametrize(("act", "told"), [
    (lambda store: deciding.put_away(store, SLEEP_MOOD, "It."), "Put away: “It.”"),
    (lambda store: deciding.watch(store, SLEEP_MOOD, "It.", LAST), "An eye on: “It.”"),
    (lambda store: deciding.note_on_month(store, LAST, "It."), "A pattern noted for October 2025"),
])  # fmt: skip
def test_each_is_an_act_and_can_be_undone_and_done_again(asked, act, told):
    def state():
        return asked.rows("SELECT * FROM pattern_decision"), asked.rows("SELECT * FROM month_page")

    before = state()
    act(asked)
    after = state()
    assert after != before and lately.latest(asked)[0].act.told == told
    undoing.undo(asked)
    assert state() == before
    undoing.redo(asked)
    assert state() == after
