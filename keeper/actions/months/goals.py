"""A month's goals: set, done, carried on or let go, each with a word if wished."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date

from keeper.actions import told_as
from keeper.actions.writing import check_text
from keeper.days import next_month
from keeper.errors import UnknownThing, UnreadableText
from keeper.model import Act, Goal
from keeper.store import Store, month_pages

OUTCOMES = ("set", "done", "carried on", "let go")
"""What can become of a goal; all begin as set."""


def add_goal(store: Store, month: date, text: str) -> Goal:
    """Set a goal for a month. Raises UnreadableText for an empty one and for what is no text."""
    goal = Goal("", _plain(text), "set")
    if not goal.text:
        raise UnreadableText("A goal needs a few words.")
    with store.writing(told_as.of_month(f"The goal {told_as.quoted(goal.text)}", month)):
        _write(store, month, lambda goals: (*goals, goal))
        return month_pages.one(store, month).goals[-1]


def change_goal(store: Store, month: date, goal_id: str, text: str) -> None:
    """Word a goal anew; an empty text takes it out. Raises UnreadableText, UnknownThing."""
    plain = _plain(text)
    if not plain:
        take_out_goal(store, month, goal_id)
        return
    with store.writing(told_as.of_month(f"The goal {told_as.quoted(plain)}", month)):
        goal = _known(store, month, goal_id)
        _write(store, month, lambda goals: tuple(replace(g, text=plain) if g.id == goal.id else g for g in goals))


def close_goal(store: Store, month: date, goal_id: str, outcome: str, word: str = "") -> None:
    """Say what became of a goal, with a word about it.

    Carried on, it is set for the month after too, as a goal of its own; when
    that is taken back and nothing was done with it there, it goes again, and no
    other of the same words does. Raises UnknownThing, UnreadableText.
    """
    if outcome not in OUTCOMES:
        raise UnknownThing(f"A goal can be {', '.join(OUTCOMES)}; not \u201c{outcome}\u201d.")
    plain = _plain(word)
    with store.writing(), store.writing(_of(store, month, goal_id, f", {outcome}")):
        goal = _known(store, month, goal_id)
        closed = replace(goal, outcome=outcome, word=plain)
        _write(store, month, lambda goals: tuple(closed if g.id == goal.id else g for g in goals))
        if goal.outcome != "carried on" == outcome:
            _carry(store, next_month(month), goal)
        elif goal.outcome == "carried on" != outcome:
            _carry_no_more(store, next_month(month), goal)


def take_out_goal(store: Store, month: date, goal_id: str) -> None:
    """Take a goal out of a month. Raises UnknownThing."""
    with store.writing(), store.writing(_of(store, month, goal_id, " taken out")):
        goal = _known(store, month, goal_id)
        _write(store, month, lambda goals: tuple(g for g in goals if g.id != goal.id))


def _of(store: Store, month: date, goal_id: str, what: str) -> Act:
    return told_as.of_month(f"The goal {told_as.quoted(_known(store, month, goal_id).text)}{what}", month)


def _carry(store: Store, month: date, goal: Goal) -> None:
    if all(there.carried_from != goal.id for there in month_pages.one(store, month).goals):
        _write(store, month, lambda goals: (*goals, Goal("", goal.text, "set", carried_from=goal.id)))


def _carry_no_more(store: Store, month: date, goal: Goal) -> None:
    untouched = (goal.id, goal.text, "set", "")
    _write(
        store, month,
        lambda goals: tuple(g for g in goals if (g.carried_from, g.text, g.outcome, g.word) != untouched),
    )  # fmt: skip


def _write(store: Store, month: date, change: Callable[[tuple[Goal, ...]], tuple[Goal, ...]]) -> None:
    page = month_pages.one(store, month)
    month_pages.keep(store, replace(page, goals=change(page.goals)))


def _known(store: Store, month: date, goal_id: str) -> Goal:
    goal = next((goal for goal in month_pages.one(store, month).goals if goal.id == goal_id), None)
    if goal is None:
        raise UnknownThing("That goal is no longer in the keeper.")
    return goal


def _plain(text: str) -> str:
    check_text(text)
    return " ".join(text.split())
