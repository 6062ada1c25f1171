"""Time and chance held still, so that the same seed and text give the same keeper.

The store asks the computer for the moment and for random bytes when it gives
ids and stamps rows. While the demo is made it is answered from here.
"""

import random
import sys
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from datetime import datetime
from types import SimpleNamespace
from unittest.mock import patch

from keeper.store import ids


class Pretence:
    """The moment it is said to be, and a seeded source of bytes."""

    def __init__(self, seed: int, at: datetime) -> None:
        self.at = at
        self.chance = random.Random(seed)

    def milliseconds(self) -> int:
        """The moment as the ids want it."""
        return int(self.at.timestamp() * 1000)


@contextmanager
def held_still(pretence: Pretence) -> Iterator[None]:
    """Answer the store's questions for time and chance from ``pretence``."""

    class Then(datetime):
        @classmethod
        def now(cls, tz=None):
            return pretence.at.astimezone(tz)

    with ExitStack() as held:
        nanoseconds = SimpleNamespace(time_ns=lambda: pretence.milliseconds() * 1_000_000)
        held.enter_context(patch.object(ids, "time", nanoseconds))
        held.enter_context(patch.object(ids, "os", SimpleNamespace(urandom=pretence.chance.randbytes)))
        for module in _that_tell_time():
            held.enter_context(patch.object(module, "datetime", Then))
        yield


def _that_tell_time() -> list:
    rooms = [module for name, module in sys.modules.items() if name.startswith("keeper.store.")]
    return [module for module in rooms if getattr(module, "datetime", None) is datetime]
