"""Garbage taken up on the window's thread alone, and most of it while nobody types.

By itself Python takes it up on whichever thread makes the next thing: on a
lane too, where a part of the window that nothing holds any more would end on a
thread that is not its own, while the window connects others.
"""

import gc

from PySide6.QtWidgets import QWidget

from keeper.window.desk.timers import every

EVERY = 1000
"""Milliseconds from one look to the next."""

QUIET = 1500
"""Milliseconds of quiet before it is done that may take longer than a key may."""

_MANY = 20_000
"""Things made since the last time: to look through them takes a few milliseconds."""

_LONGEST = 600
"""Looks after which it is done even while somebody types: ten minutes without a moment's pause."""


class Garbage:
    """Takes it up as Python by itself would: the young often, all of it seldom."""

    def __init__(self) -> None:
        self.waited = 0

    def take_up_what_is_due(self, quiet: bool = True) -> None:
        """Look whether any is due. Where it is not ``quiet``, what takes long waits."""
        counts = gc.get_count()
        young, middle, old = (made > most for made, most in zip(counts, gc.get_threshold(), strict=True))
        waits = not quiet and self.waited < _LONGEST
        self.waited = self.waited + 1 if waits else 0
        if young and not (waits and counts[0] > _MANY):
            gc.collect(0 if waits or not middle else 1 if not old else 2)


def take_up(window: QWidget) -> None:
    """From now on, and as long as the window is there; Python's own way is left switched off."""
    from keeper.window.frame.quiet import Quiet

    gc.disable()
    quiet, garbage = Quiet(window), Garbage()
    every(window, EVERY, lambda: garbage.take_up_what_is_due(quiet.idle(QUIET))).start()
