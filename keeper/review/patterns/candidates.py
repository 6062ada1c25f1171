"""What can take part in patterns, and how each is called in a sentence."""

from dataclasses import dataclass

from keeper.model import Tracker

READING, THEME, PERSON, MOVE, TRAVEL, WEEKDAY, SEASON = "reading", "theme", "person", "move", "travel", "weekday", "season"
"""The kinds of candidate; the first letters of its key."""

RHYTHMS = (WEEKDAY, SEASON)
"""These are no columns: every column that takes part is held against them."""


@dataclass(frozen=True)
class Candidate:
    """One thing that can take part.

    ``key`` is what the program knows it by ("reading:ID", "theme:7", "person:ID",
    or the kind alone), ``name`` what the person does. ``is_mark``: yes or no.
    ``tracker`` is there for readings only; ``former`` are those of the same
    reading that ended before it was taken up again, oldest first.
    """

    key: str
    name: str
    kind: str
    is_mark: bool = True
    tracker: Tracker | None = None
    former: tuple[Tracker, ...] = ()

    @property
    def trackers(self) -> tuple[Tracker, ...]:
        """All trackers of a reading, oldest first."""
        return (*self.former, self.tracker) if self.tracker else ()

    @property
    def with_it(self) -> str:
        """After "the 41 nights ": those on which it was."""
        return {
            READING: f"with {quoted(self.name)}", THEME: f"with the theme {quoted(self.name)}", PERSON: f"that name {self.name}",
            MOVE: "at another place than the night before", TRAVEL: "on the way",
        }[self.kind]  # fmt: skip

    @property
    def noun(self) -> str:
        """What comes, or is higher and lower."""
        return {THEME: f"the theme {quoted(self.name)}", PERSON: f"a line naming {self.name}", MOVE: "a change of place",
                TRAVEL: "a night on the way"}.get(self.kind, quoted(self.name) if self.is_mark else self.name)  # fmt: skip

    @property
    def came(self) -> tuple[str, str]:
        """That it was there; and the same of other nights, after it was named."""
        if self.kind == READING:
            return f"{self.noun} was noted", "it was"
        return f"there was {self.noun}", "there was"

    @property
    def of_the_body(self) -> bool:
        """Whether it is of the body or the mood."""
        return any(one.body for one in self.trackers)


def quoted(name: str) -> str:
    """The person's words within ours."""
    return f"\u201c{name}\u201d"
