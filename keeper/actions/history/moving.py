"""A line that belongs to another night, or is of another kind."""

from datetime import date
from textwrap import shorten

from keeper.actions import told_as
from keeper.actions.carrying import carry_on
from keeper.clock import Clock
from keeper.dates import written
from keeper.errors import AlreadyKept, UnknownThing
from keeper.model import Line, kind_in_sentence, kind_title
from keeper.store import Store, kinds, lines


def move_line(store: Store, night: date, kind: str, to_night: date, to_kind: str, clock: Clock) -> Line:
    """Let a line be another night's, or of another kind; it stays the same line, with its rest and its theme.

    What it said is an earlier wording where it was. Raises UnknownThing where
    there is no such line, AlreadyKept where words are in its new place.
    """
    told = f"{kind_title(kind, kinds.name(store, kind))} moved"
    if to_kind != kind:
        told += f", to be {kind_in_sentence(to_kind, kinds.name(store, to_kind))},"
    with store.writing(told_as.of_night(told, to_night, to_kind)):
        line = lines.one(store, night, kind)
        if line is None:
            raise UnknownThing(f"There is no {_noun(store, kind)} of {written.full_date(night)}.")
        if (night, kind) != (to_night, to_kind):
            _check_free(store, to_night, to_kind)
            carry_on(store, to_night, clock.moment())
            lines.move(store, line, to_night, to_kind, clock.moment())
    return lines.one(store, to_night, to_kind)


def _check_free(store: Store, night: date, kind: str) -> None:
    line = lines.one(store, night, kind)
    waiting = [draft.text for draft in lines.drafts(store, night) if draft.kind == kind]
    if there := line.text if line else "".join(waiting):
        words = shorten(there, 120, placeholder="\u2026")
        raise AlreadyKept(f"There is a {_noun(store, kind)} of {written.full_date(night)} already: \u201c{words}\u201d. Nothing was moved.")


def _noun(store: Store, kind: str) -> str:
    return kind_in_sentence(kind, kinds.name(store, kind)).removeprefix("the ")
