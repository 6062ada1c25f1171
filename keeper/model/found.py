"""People, and lines that answer a search."""

from dataclasses import dataclass

from keeper.model import Line


@dataclass(frozen=True)
class Person:
    """Someone whose name the person marked.

    ``name`` may hold several spellings, with commas between: those are
    ``names``, the first of which heads an index.
    """

    id: str
    name: str
    resting: bool = False

    @property
    def names(self) -> tuple[str, ...]:
        """The spellings, each once."""
        return tuple(dict.fromkeys(" ".join(one.split()) for one in self.name.split(",") if one.strip()))


@dataclass(frozen=True)
class Found:
    """A line that answers a search, with the place of its night.

    One that has not every word sought is but ``near``: ``met`` are those of
    its words that were met, as the index spells them.
    """

    line: Line
    place_name: str
    near: bool = False
    met: tuple[str, ...] = ()
