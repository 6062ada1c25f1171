"""Taking back what was done, and doing it again: the last of all, or any."""

from dataclasses import dataclass

from keeper.actions.told_as import IN_TRAY
from keeper.errors import UnknownThing
from keeper.model import ActDone
from keeper.store import Store
from keeper.store.history import acts, turning

DECISIONS, SETTINGS = "theme_decision", "setting"

_FILES_STAY = " The files stay in its folder \u201ctaken in\u201d; put back into the in-tray, they are offered again."


@dataclass(frozen=True, slots=True)
class Turned:
    """What was taken back, or done again.

    ``themes`` says that the themes are to be looked at anew, ``settings`` that others are in force.
    """

    done: ActDone
    themes: bool
    settings: bool

    @property
    def sentence(self) -> str:
        """Such as "Took back: Lübeck for the night of 3 June 2026."."""
        told = self.done.act.told
        # A file belongs to the person: it goes nowhere by itself.
        files = _FILES_STAY if self.done.undone and self.done.act.thing == IN_TRAY else ""
        return f"{'Took back' if self.done.undone else 'Done again'}: {told}{'' if told.endswith(('.', '?', '!')) else '.'}{files}"


def undo(store: Store) -> Turned | None:
    """Take back what was done last, from wherever; None when there is nothing. Raises CannotTurn."""
    number = turning.next_undone(store)
    return turn(store, number) if number is not None else None


def redo(store: Store) -> Turned | None:
    """Do again what was taken back last, unless something was done since; None when there is nothing. Raises CannotTurn."""
    number = turning.next_redone(store)
    return turn(store, number) if number is not None else None


def turn(store: Store, number: int) -> Turned:
    """Take this back, whatever was done since, or do it again if it was taken back.

    Raises CannotTurn, naming what was done since and leans on it; UnknownThing.
    """
    with store.unnoted():
        changed = turning.turn(store, number)
        if DECISIONS in changed:
            # Only now: most that is taken back is no theme's.
            from keeper.actions.themes.undoing import show_decided

            show_decided(store)
    done = acts.one(store, number)
    if done is None:
        raise UnknownThing("That is no longer known.")
    return Turned(done, DECISIONS in changed, SETTINGS in changed)


def one(store: Store, number: int) -> ActDone | None:
    """What was done, by its number; None when that is let go."""
    return acts.one(store, number)


def last_noted(store: Store) -> int | None:
    """The number of what was last done through this very store."""
    return store.act_noted
