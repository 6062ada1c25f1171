"""What is noted each night."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True)
class Tracker:
    """Something noted each day, of one of the FORMS.

    ``better`` is ``higher``, ``lower`` or ``neither``. A scale goes from
    ``low`` to ``high`` by ``step``; of the other forms these are the ends of
    its axis, or None. ``key`` is the letter that goes to it, or "". One that is
    of the ``body`` comes with cautions. Those with the same ``axis`` are drawn
    on one; it is "" for one that stands alone.
    """

    id: str
    name: str
    form: str
    low: float | None
    high: float | None
    unit: str
    better: str
    began: date
    ended: date | None = None
    step: float = 1.0
    key: str = ""
    body: bool = False
    axis: str = ""

    def in_force(self, night: date) -> bool:
        """Whether it is noted on this night: neither before its beginning nor after its end."""
        return self.began <= night <= (self.ended or night)


@dataclass(frozen=True)
class Reading:
    """A tracker's value on a night, as it was noted; a mark is 1.0 or 0.0, hours are hours.

    ``first`` and ``until`` are the local times, such as "23:30", of hours that
    were noted as two times. ``unit`` is the one it was noted in, ``low`` and
    ``high`` the ends of the scale it was noted on, where these are not what
    its tracker has now: ``study.readings.measure`` sets it beside the others.
    """

    night: date
    tracker_id: str
    value: float
    first: str = ""
    until: str = ""
    unit: str = ""
    low: float | None = None
    high: float | None = None
