"""Garbage taken up on the window's thread alone.

By itself Python takes it up on whichever thread makes the next thing: on a
lane too, where a part of the window that nothing holds any more would end on a
thread that is not its own, while the window connects others.
"""

import gc

from PySide6.QtCore import QObject

from keeper.window.desk.timers import every

EVERY = 1000
"""Milliseconds from one look to the next."""


def take_up(window: QObject) -> None:
    """From now on, and as long as the window is there; Python's own way is left switched off."""
    gc.disable()
    every(window, EVERY, take_up_what_is_due).start()


def take_up_what_is_due() -> None:
    """What Python by itself would take up now: the young often, all of it seldom."""
    young, middle, old = (made > most for made, most in zip(gc.get_count(), gc.get_threshold(), strict=True))
    if young:
        gc.collect(0 if not middle else 1 if not old else 2)
