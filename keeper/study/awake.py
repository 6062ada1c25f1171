"""What may be brought up unasked: the one rule, asked by every page, by the book and by the command line."""

from collections.abc import Callable, Collection, Iterable
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from keeper.model import Line, Photo, Place
from keeper.study.people import speaks_of, told_name


@dataclass(frozen=True)
class Awake:
    """Tells what is awake.

    ``names`` are those of people who rest, in every spelling; ``nights`` those
    that rest as a whole, in a span or by their place; ``shows`` the ids of
    photos that somebody who rests is on. ``everything``: what rests was asked
    for, so all of it is.
    """

    names: tuple[str, ...] = ()
    nights: Collection[date] = frozenset()
    everything: bool = False
    shows: Collection[str] = frozenset()

    @cached_property
    def _speaks(self) -> Callable[[str], bool]:
        return speaks_of(self.names)

    def text(self, *texts: str) -> bool:
        """Whether a text, or several that are shown together, names nobody who rests."""
        return self.everything or not any(self._speaks(text) for text in texts)

    def night(self, night: date) -> bool:
        """Whether a night does not rest as a whole."""
        return self.everything or night not in self.nights

    def line(self, line: Line) -> bool:
        """Whether neither a line nor its night rests, and neither it nor a later word under it names anybody who does."""
        return self.everything or (
            not line.resting and self.night(line.night) and self.text(line.text, *(word.text for word in line.later))
        )

    def photo(self, photo: Photo, nights: Iterable[date] = ()) -> bool:
        """Whether a photo does not rest, nor do all of its ``nights``, and nobody who does is on it or named under it."""
        if self.everything:
            return True
        its = list(nights)
        awake = not its or any(self.night(night) for night in its)
        return awake and not photo.resting and photo.id not in self.shows and self.text(photo.caption)

    def place(self, place: Place) -> bool:
        """Whether a place does not rest and is not called after somebody who does."""
        return self.everything or (not place.resting and self.text(place.name))

    def theme_name(self, name: str) -> str:
        """A theme's name without the words that speak of who rests; "" when the name is led by one."""
        return name if self.everything else told_name(name, self._speaks)
