"""What is tried, in blocks drawn by lot."""

from datetime import date

from keeper.model import Act, Trying
from keeper.store.file.opening import Store
from keeper.store.ids import new_id
from keeper.store.moments import damaged, day, number, words

_COLUMNS = "id, mark_id, reading_id, first, length, withs, seed, later, stopped"

_LONGEST = 14
_LARGEST_SEED = 2**62


def every(store: Store) -> tuple[Trying, ...]:
    """All of them, ended ones too, the newest first."""
    return store.made(_trying, store.rows(f"SELECT {_COLUMNS} FROM trying ORDER BY first DESC, id DESC"))


def on(store: Store, night: date) -> tuple[Trying, str] | None:
    """What is tried on a night, and the name of what is done or left; None for nothing.

    Of those that begun before it the newest: there is one at a time.
    """
    row = store.row(
        f"SELECT {', '.join(f'trying.{one}' for one in _COLUMNS.split(', '))}, name FROM trying "
        "JOIN tracker ON tracker.id = mark_id WHERE first <= ? ORDER BY first DESC, trying.id DESC LIMIT 1",
        (night.isoformat(),),
    )
    return next(iter(store.made(lambda one: (_trying(one[:-1]), words(one[-1])), [row] if row else [])), None)


def _trying(row: tuple) -> Trying:
    length = number(row[4], 1, _LONGEST)
    seed = number(row[6], 0, _LARGEST_SEED)
    if length is None or seed is None or not row[5] or set(words(row[5])) - {"0", "1"}:
        raise damaged(row[5], "blocks of nights")
    withs = tuple(one == "1" for one in row[5])
    return Trying(*row[:3], day(row[3]), length, withs, seed, int(row[7] == 1), day(row[8]) if row[8] else None)


def add(store: Store, trying: Trying, act: Act | None = None) -> str:
    """Keep a plan; its id, given where it has none."""
    trying_id = trying.id or new_id()
    withs = "".join("1" if one else "0" for one in trying.withs)
    stopped = trying.stopped.isoformat() if trying.stopped else None
    with store.writing(act) as connection:
        connection.execute(
            f"INSERT INTO trying ({_COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
            (trying_id, trying.mark_id, trying.reading_id, trying.first.isoformat(), trying.length, withs, trying.seed,
             trying.later, stopped),
        )  # fmt: skip
    return trying_id


def stop(store: Store, trying_id: str, night: date, act: Act | None = None) -> None:
    """Let it be over from a night on, which comes after its first."""
    with store.writing(act) as connection:
        connection.execute("UPDATE trying SET stopped = ? WHERE id = ?", (night.isoformat(), trying_id))


def remove(store: Store, trying_id: str, act: Act | None = None) -> None:
    """Take out a plan."""
    with store.writing(act) as connection:
        connection.execute("DELETE FROM trying WHERE id = ?", (trying_id,))
