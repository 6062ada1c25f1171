"""A book or a page under way: how far it is, and whether to stop."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from keeper.errors import CannotWrite, Stopped

Progress = Callable[[float, str], None]


@dataclass(slots=True)
class Job:
    """What is made, who hears how far it is, and whether to stop; ``begun`` is the share already done."""

    what: str
    hears: Progress
    stopped: Callable[[], bool]
    begun: float = 0.0

    def progress(self, share: float, words: str) -> None:
        """Tell of a share of what is left."""
        self.hears(self.begun + share * (1 - self.begun), words)

    def check(self) -> None:
        """Raises Stopped."""
        if self.stopped():
            raise Stopped(f"Stopped; no {self.what} was made.")

    @contextmanager
    def laying_out(self) -> Iterator[None]:
        """All is put into a folder for typst meanwhile. Raises CannotWrite where the disk does not take it."""
        try:
            yield
        except OSError as error:
            reason = (error.strerror or str(error)).lower()
            raise CannotWrite(f"There is no room to lay out the {self.what}: {reason}.") from error
