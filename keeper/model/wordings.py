"""What a line said before."""

from dataclasses import dataclass, field
from datetime import date, datetime

from keeper.model import Moment, kind_title


@dataclass(frozen=True)
class Wording:
    """An earlier wording of a line, and when it was replaced; ``kind_name`` as a line has it.

    One ``from_paper`` was typed up when it was written.
    """

    id: str
    night: date
    kind: str
    text: str
    written: Moment
    replaced_at: datetime
    kind_name: str = field(default="", compare=False)
    from_paper: bool = field(default=False, compare=False)

    @property
    def kind_title(self) -> str:
        """What stood over it."""
        return kind_title(self.kind, self.kind_name)
