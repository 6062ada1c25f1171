"""Month pages: question, words, photo and goals."""

from datetime import date
from typing import TYPE_CHECKING

from keeper.store.file.opening import Store
from keeper.store.ids import new_id
from keeper.store.moments import day, words

if TYPE_CHECKING:
    from keeper.model import Goal, MonthPage


def question(store: Store, month: date) -> str:
    """The question of the month that has this day, or "". Asked before one can type, which needs no more of the month."""
    row = store.row("SELECT question FROM month_page WHERE month = ?", (_key(month),))
    return str(row[0]) if row and row[0] is not None else ""


def one(store: Store, month: date) -> "MonthPage":
    """The page of a month; an empty one when nothing was decided."""
    from keeper.model import MonthPage

    key = _key(month)
    row = store.row("SELECT question, words, photo_id FROM month_page WHERE month = ?", (key,))
    if row is None:
        return MonthPage(month.replace(day=1))
    goals = store.rows("SELECT id, text, outcome, word, carried_from FROM goal WHERE month = ? ORDER BY position", (key,))
    told = ["" if value is None else str(value) for value in row[:2]]
    return MonthPage(month.replace(day=1), *told, row[2], store.made(_goal, goals))


def _goal(row: tuple) -> "Goal":
    from keeper.model import Goal

    return Goal(*(words(value) for value in row))


def set_question(store: Store, month: date, question: str) -> None:
    """Ask this question through the month; "" asks none."""
    with store.writing() as connection:
        connection.execute(
            "INSERT INTO month_page (month, question) VALUES (?, ?) "
            "ON CONFLICT DO UPDATE SET question = excluded.question",
            (_key(month), question.strip()),
        )


def questions(store: Store) -> tuple[tuple[date, str], ...]:
    """Every month's question that was asked, oldest first."""
    rows = store.rows("SELECT month || '-01', question FROM month_page WHERE question <> '' ORDER BY month")
    return store.made(lambda row: (day(row[0]), words(row[1])), rows)


def keep(store: Store, page: "MonthPage") -> None:
    """Write the whole page anew, goals in their order."""
    # Not before one can type.
    import json

    key = _key(page.month)
    with store.writing() as connection:
        connection.execute(
            "INSERT INTO month_page (month, question, words, photo_id) VALUES (?, ?, ?, ?) ON CONFLICT DO UPDATE SET "
            "question = excluded.question, words = excluded.words, photo_id = excluded.photo_id",
            (key, page.question, page.words, page.photo_id),
        )
        # Those that stay as they are are not touched: what was done to another one is no act of this one's.
        stays = json.dumps([goal.id for goal in page.goals])
        connection.execute(
            "DELETE FROM goal WHERE month = ? AND id NOT IN (SELECT value FROM json_each(?))", (key, stays)
        )
        connection.executemany(
            "INSERT INTO goal (id, month, text, outcome, word, carried_from, position) VALUES (?, ?, ?, ?, ?, ?, ?) "
            "ON CONFLICT (id) DO UPDATE SET month = excluded.month, text = excluded.text, outcome = excluded.outcome, "
            "word = excluded.word, carried_from = excluded.carried_from, position = excluded.position",
            [(g.id or new_id(), key, g.text, g.outcome, g.word, g.carried_from, place)
             for place, g in enumerate(page.goals)],
        )


def _key(month: date) -> str:
    return month.isoformat()[:7]
