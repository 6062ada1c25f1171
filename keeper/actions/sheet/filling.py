"""Filling the sheet in: one cell, or many as one act."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from keeper.actions import told_as, writing
from keeper.actions.places.known import place_name
from keeper.actions.places.towns import set_where
from keeper.actions.readings import noting
from keeper.actions.sheet.asking import PLACE_DRAFT, READING_DRAFT, Cell
from keeper.actions.sheet.columns import PLACE
from keeper.actions.sheet.following import let_follow
from keeper.clock import Clock
from keeper.dates import written
from keeper.errors import CannotWrite, KeeperError
from keeper.model import Act, Place, kind_title
from keeper.store import Store, drafts_of, kinds, lines
from keeper.store.scans import from_paper
from keeper.town import Town


@dataclass(frozen=True, slots=True)
class Typed:
    """What is typed in a cell. ``known`` is the draft of a line that goes with it.

    ``chosen`` is what a place was settled on: a known one, a town, or the name
    of a new one; None where it is to be made out by its name.
    """

    text: str
    chosen: Place | Town | str | None = None
    known: str = ""


def make_ready(store: Store) -> None:
    """Bring in what the first new place would else wait for, and all that is typed after it."""
    # The library is brought in when it is first named.
    _ = store.db


def fill_in(store: Store, cell: Cell, typed: Typed, clock: Clock, tonight: date) -> None:
    """Keep what was typed in a cell; empty, what was there is taken back. Its draft goes with that.

    A line of a night before ``tonight`` is noted as come from paper. Raises
    UnreadableText, UnreadableReading, NoPlaceName, UnknownThing, CannotWrite.
    """
    with store.writing():
        _fill(store, cell, typed, clock, tonight)
        if cell[1] == PLACE:
            let_follow(store, cell[0], clock)


def fill_many(store: Store, cells: Mapping[Cell, Typed], clock: Clock, tonight: date, told: str = "") -> dict[Cell, str]:
    """Keep what many cells hold as one act; returns why each of those that were not kept was not.

    ``told`` is what was done, such as "Pasted". Raises CannotWrite; then none
    is kept.
    """
    refused: dict[Cell, str] = {}
    span = [night for night, _ in cells]
    with store.writing(_act(told, len(cells), min(span), max(span))):
        for cell in sorted(cells):
            try:
                _fill(store, cell, cells[cell], clock, tonight)
            except CannotWrite:
                raise
            except KeeperError as error:
                refused[cell] = str(error)
        for night, key in sorted(cells):
            if key == PLACE and (night, key) not in refused:
                let_follow(store, night, clock)
    return refused


def _act(told: str, many: int, first: date, last: date) -> Act:
    cells = written.counted(many, "cell")
    when = f"the night of {written.full_date(first)}" if first == last else f"the nights of {written.span(first, last)}"
    return Act(f"{told or 'Typed'}: {cells} for {when}", "sheet", first)


def _fill(store: Store, cell: Cell, typed: Typed, clock: Clock, tonight: date) -> None:
    night, key = cell
    if key == PLACE:
        _say_where(store, night, typed, clock)
        drafts_of.drop(store, PLACE_DRAFT, night.isoformat())
    elif key.startswith("line:"):
        _write(store, night, key.removeprefix("line:"), typed, clock, late=night < tonight)
    else:
        tracker_id = key.removeprefix("reading:")
        noting.note_all(store, {tracker_id: typed.text}, night, clock)
        drafts_of.drop(store, READING_DRAFT, f"{night.isoformat()} {tracker_id}")


def _write(store: Store, night: date, kind: str, typed: Typed, clock: Clock, late: bool) -> None:
    before = lines.one(store, night, kind)
    writing.check_text(typed.text)
    name = kind_title(kind, kinds.name(store, kind))
    paper = f"{name} from paper" if late and typed.text.strip() else name
    with store.writing(told_as.of_line(paper, kind, night, typed.text) if late and typed.text.strip() else None):
        kept = writing.write_line(store, night, kind, typed.text, clock, typed.known)
        if late and kept and (before is None or kept.text != before.text):
            from_paper.mark(store, night, kind)


def _say_where(store: Store, night: date, typed: Typed, clock: Clock) -> None:
    name = " ".join(typed.text.split())
    if name:
        # What cannot be a name is refused before anything is written.
        place_name(name)
    chosen = typed.chosen if typed.chosen is not None or not name else _town_or_name(store, name)
    set_where(store, night, chosen or "", clock)


def _town_or_name(store: Store, name: str) -> Town | str:
    """A name that was not picked out of a list, such as one of a column that was pasted: a place known, a town of that very name, or a new place."""
    from keeper.actions.places import towns
    from keeper.actions.reading import same_letters
    from keeper.store.places import named as places

    if places.named(store, name):
        return name
    try:
        found = towns.towns(towns.towns_folder(), name)
    except KeeperError:
        return name
    wanted = same_letters(name)
    return next((one for one in found if same_letters(one.spelling) == wanted and one.population >= _A_TOWN), name)


_A_TOWN = 15_000
"""People a town must have to be meant by its mere name; a place of one's own may be called as a village is."""
