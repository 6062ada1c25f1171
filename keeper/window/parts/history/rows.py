"""The rows of Lately: acts, or earlier wordings, drawn like lines that were found."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, tzinfo

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, Qt

from keeper.model import ActDone, Wording
from keeper.window.desk import wording
from keeper.window.parts.found_list import FoundDelegate, FoundModel


@dataclass(frozen=True, slots=True)
class Told:
    """The words of a row."""

    text: str


@dataclass(frozen=True, slots=True)
class LatelyRow:
    """An act or an earlier wording; ``head`` stands over its words. It has all words sought: none is ``near``."""

    line: Told
    head: str
    done: ActDone | None = None
    wording: Wording | None = None
    near: bool = False


def rows_of(found: Iterable[ActDone | Wording], zone: tzinfo) -> tuple[LatelyRow, ...]:
    """The rows of acts and of earlier wordings; moments are told as they were in this zone."""
    return tuple(of_wording(one, zone) if isinstance(one, Wording) else of_act(one, zone) for one in found)


def of_act(done: ActDone, zone: tzinfo) -> LatelyRow:
    """An act: when it was done, from where, and whether it was taken back."""
    parts = [_moment(done.at, zone), "by the command line" if done.done_from != "window" else ""]
    parts.append("undone" if done.undone else "")
    return LatelyRow(Told(done.act.told), " \u00b7 ".join(filter(None, parts)), done=done)


def of_wording(earlier: Wording, zone: tzinfo) -> LatelyRow:
    """An earlier wording: of which line, whence it came if from paper, and until when it stood."""
    paper = f"from paper, typed {wording.short_date(earlier.written.here().date())}" if earlier.from_paper else ""
    parts = (f"{earlier.kind_title}, {wording.short_date(earlier.night)}", paper, f"until {_moment(earlier.replaced_at, zone)}")
    return LatelyRow(Told(earlier.text), " \u00b7 ".join(filter(None, parts)), wording=earlier)


def _moment(at: datetime, zone: tzinfo) -> str:
    here = at.astimezone(zone)
    return f"{wording.short_date(here.date())}, {here:%H:%M}"


class LatelyModel(FoundModel):
    """The rows so far; ``which`` list it is."""

    which = ""

    def data(self, index: QModelIndex | QPersistentModelIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if role == Qt.ItemDataRole.AccessibleTextRole and index.isValid():
            row = self.at(index.row())
            return f"{row.head}. {row.line.text}"
        return super().data(index, role)


class LatelyDelegate(FoundDelegate):
    """Draws when it was, then what."""

    def head(self, found: LatelyRow) -> str:
        return found.head
