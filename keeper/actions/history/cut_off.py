"""Archives whose taking in was cut off, the program having ended midway: known by their acts, which say whose they were.

While an archive comes, its act is told as a part of it, and bears the mark of
the program that is at it (``store.file.passing``); both go when all is there,
in the file itself, so that no end of a program can lose them.
"""

from contextlib import suppress
from dataclasses import dataclass

from keeper.model import Act, ActDone
from keeper.store import Store
from keeper.store.file import passing
from keeper.store.history import acts

PAGE, _COMING = "giving", "coming "


@dataclass(frozen=True, slots=True)
class CutOff:
    """Some of an archive came; ``act`` is the number by which that is taken back."""

    act: int
    archive: str

    @property
    def sentence(self) -> str:
        """That, and what can be done, in a sentence."""
        return f"{self.archive} came only in part, since it was cut off: take it in again and the rest comes, or take back what came."


def under_way(store: Store, archive: str) -> Act:
    """The act of taking in what is called so, such as "The archive \u201ckeeper 2026-11-14\u201d", while it comes."""
    mark = ""
    with suppress(OSError):
        mark = passing.mark(store.folder)
    return Act(f"{archive} taken in, in part", PAGE, thing=f"{_COMING}{mark}")


def whole(store: Store, number: int | None, archive: str) -> None:
    """All of it is there: of this act, and of those by which only parts of it came before. Raises CannotWrite."""
    before = [one.act for one in cut_off(store) if one.archive == archive]
    if number is not None or before:
        with store.unnoted() as connection:
            if number is not None:
                acts.tell(connection, number, f"{archive} taken in", "")
            for part in before:
                acts.tell(connection, part, f"{archive} taken in, in part", "")


def cut_off(store: Store) -> tuple[CutOff, ...]:
    """Those that came in part and were not taken back, the latest first. Nobody is at them any more."""
    found = [one for one in acts.of_page(store, PAGE, _COMING) if not one.undone and _is_left(store, one)]
    return tuple(CutOff(one.number, one.act.told.removesuffix(" taken in, in part")) for one in found)


def _is_left(store: Store, one: ActDone) -> bool:
    mark = one.act.thing.removeprefix(_COMING)
    return passing.left_behind(store.folder, store.folder / mark, mark)
