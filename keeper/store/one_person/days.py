"""Days of people to remember."""

from dataclasses import replace

from keeper.errors import NotAKeeper
from keeper.model import DayToRemember
from keeper.store.file.opening import Store
from keeper.store.ids import new_id
from keeper.store.moments import words

_COLUMNS = "person_day.id, person_id, what, month, day, year, after, typed, told"


def of_person(store: Store, person_id: str) -> tuple[DayToRemember, ...]:
    """Somebody's days: the birthday first, then through the year."""
    order = "what <> 'birthday', month, day, what, id"
    rows = store.rows(f"SELECT {_COLUMNS} FROM person_day WHERE person_id = ? ORDER BY {order}", (person_id,))
    return store.made(_made, rows)


def every(store: Store) -> tuple[DayToRemember, ...]:
    """All days of all people, through the year."""
    return store.made(_made, store.rows(f"SELECT {_COLUMNS} FROM person_day ORDER BY month, day, what, id"))


def told(store: Store) -> tuple[DayToRemember, ...]:
    """Those that are to be told, of people who do not rest."""
    awake = "NOT EXISTS (SELECT 1 FROM resting WHERE resting.what = 'person' AND ref = person_id)"
    return store.made(_made, store.rows(f"SELECT {_COLUMNS} FROM person_day WHERE told AND {awake} ORDER BY id"))


def by_id(store: Store, day_id: str) -> DayToRemember | None:
    """The day with this id."""
    row = store.row(f"SELECT {_COLUMNS} FROM person_day WHERE id = ?", (day_id,))
    return _made(row) if row else None


def add(store: Store, one: DayToRemember) -> DayToRemember:
    """Keep one more; an empty id is given one. Returns it as kept."""
    kept = replace(one, id=one.id or new_id())
    with store.writing() as connection:
        connection.execute(
            "INSERT INTO person_day (id, person_id, what, month, day, year, after, typed, told) "
            "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
            (kept.id, kept.person_id, kept.what, kept.month, kept.day, kept.year, kept.after, kept.typed, kept.told),
        )
    return kept


def change(store: Store, one: DayToRemember) -> None:
    """Write a day anew."""
    with store.writing() as connection:
        connection.execute(
            "UPDATE person_day SET what = ?, month = ?, day = ?, year = ?, after = ?, typed = ?, told = ? WHERE id = ?",
            (one.what, one.month, one.day, one.year, one.after, one.typed, one.told, one.id),
        )


def take_out(store: Store, day_id: str) -> None:
    """Remember a day no more."""
    with store.writing() as connection:
        connection.execute("DELETE FROM person_day WHERE id = ?", (day_id,))


def _made(row: tuple) -> DayToRemember:
    which, whose, what, month, day, year, after, typed, told = row
    if not (isinstance(month, int) and isinstance(day, int)):
        raise NotAKeeper("A day to remember is damaged.")
    return DayToRemember(words(which), words(whose), words(what), month, day, year, bool(after), words(typed), bool(told))
