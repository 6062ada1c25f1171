"""Noting what was done: an act is what changed between the beginning of a transaction and its end."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from keeper.model import Act
from keeper.store.moments import utc_text

if TYPE_CHECKING:
    from sqlite3 import Connection

    from keeper.store.file.opening import Store


@dataclass
class OneAct:
    """An act of several transactions, under way; ``number`` is None until the first of them, ``act`` is its if None."""

    act: Act | None
    number: int | None = None


@contextmanager
def going_on(store: "Store", act: Act | None, number: int | None) -> Iterator[OneAct]:
    """Let all that is written within the block be one act; within another such block, be part of that."""
    if store.at_one_go:
        yield store.at_one_go
        return
    store.at_one_go = OneAct(act, number)
    try:
        yield store.at_one_go
    finally:
        store.at_one_go = None


def last_change(connection: "Connection") -> int:
    """The number of the last change noted, or 0."""
    return connection.execute("SELECT max(seq) FROM change").fetchone()[0] or 0


def note(store: "Store", before: int, act: Act | None) -> None:
    """Note as one act what was changed after the change ``before``, if anything was."""
    connection, one = store.connection, store.at_one_go
    last, undone = connection.execute(
        "SELECT max(seq), EXISTS (SELECT 1 FROM act WHERE turns % 2 = 1 AND set_aside = 0) FROM change"
    ).fetchone()
    if (last or 0) == before:
        return
    if undone:
        # What was undone and is now overtaken stays, but is no longer next in turn.
        connection.execute("UPDATE act SET set_aside = 1 WHERE turns % 2 = 1 AND set_aside = 0")
    number = _gone_on(connection, one.number, before + 1, last) if one and one.number else None
    if number is None:
        number = _begun(connection, (one.act if one and one.act else act) or unnamed(), store.done_from, before + 1, last)
    store.act_noted = number
    if one:
        one.number = number


def unnamed() -> Act:
    """What is told of a change that nobody gave a name."""
    return Act("A change")


def _gone_on(connection: "Connection", number: int, first: int, last: int) -> int | None:
    """The act gone on with, unless it was undone meanwhile, or never came to be."""
    if not connection.execute("UPDATE act SET latest = ? WHERE number = ? AND turns = 0", (first, number)).rowcount:
        return None
    connection.execute("INSERT INTO act_more (act, turn, first, last) VALUES (?, 0, ?, ?)", (number, first, last))
    return number


def _begun(connection: "Connection", act: Act, done_from: str, first: int, last: int) -> int:
    # One row and no index: every line kept waits for it.
    return connection.execute(
        "INSERT INTO act (at, told, page, night, thing, done_from, first, last) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        (utc_text(datetime.now(UTC)), act.told, act.page, act.night.isoformat() if act.night else None, act.thing,
         done_from, first, last),
    ).lastrowid  # fmt: skip
