"""What stands at one tracker of a night: kept, being typed, on its way, or not to be kept yet."""

from keeper.actions.readings import wording
from keeper.actions.readings.trackers import Noted
from keeper.errors import UnreadableReading
from keeper.model import Reading
from keeper.window.night.readings.keys_typed import KeysTyped, read


class Entry:
    """A tracker's reading as it is kept, ``reading``, and what was typed since; ``waits`` is on its way to the disk.

    It is ``failing`` while what waits could not be kept.
    """

    def __init__(self, of: Noted) -> None:
        self.tracker, self.reading = of.tracker, of.reading
        self.typed = KeysTyped(of.tracker)
        self.waits = ""
        self.failing = False
        self._sent = ""

    def show(self, of: Noted) -> bool:
        """Take up what is kept now; what is typed stays. Whether that is news."""
        news = (of.tracker, of.reading) != (self.tracker, self.reading)
        if of.tracker != self.tracker:
            self.typed = self.typed.of(of.tracker)
        self.tracker, self.reading = of.tracker, of.reading
        return news

    def going(self) -> str:
        """What is typed or on its way; "" for nothing."""
        return self.typed.text or self.waits

    def _going_told(self) -> str:
        going = self.going()
        return {"1": "yes", "0": "no"}.get(going, going) if self.tracker.form == "mark" else going

    def shown(self) -> str:
        """What is to be seen; "" for not noted."""
        return self._going_told() or (wording.short(self.tracker, self.reading) if self.reading else "")

    def told(self) -> str:
        """The same in words, such as "mood, not noted"."""
        told = f"{self.tracker.name} {self._going_told()}" if self.going() else wording.told(self.tracker, self.reading)
        return f"{told}, not kept yet" if self.failing else told

    def now(self) -> Reading | None:
        """What a step begins from: what is typed, if it is a reading, else what is kept."""
        try:
            return read(self.tracker, self.going()) if self.going() else self.reading
        except UnreadableReading:
            return self.reading

    def wrong(self) -> UnreadableReading | None:
        """Why what is typed is no reading; None where it is one, or nothing is typed."""
        try:
            read(self.tracker, self.typed.text) if self.typed.text else None
        except UnreadableReading as error:
            return error
        return None

    def unsent(self) -> bool:
        """Whether something is typed that was not sent."""
        return bool(self.typed.text) and self.typed.text != self._sent

    def unkept(self) -> str:
        """What is typed and not on disk."""
        return self.typed.text if self.unsent() else self.waits

    def to_send(self, again: bool = False) -> str:
        """What is to be kept now; what could not be kept only ``again``. "" for nothing."""
        text = self.typed.text if self.unsent() and not self.wrong() else ""
        if not text and again and self.failing:
            text = self.waits
        if text:
            self._sent = self.waits = text
        return text

    def was_kept(self, text: str) -> None:
        """What was sent is on disk."""
        self.failing = False
        if text == self.waits:
            self.waits = ""

    def has_failed(self, text: str) -> None:
        """What was sent could not be kept; it waits here."""
        self.waits, self._sent, self.failing = self.waits or text, "", True

    def left(self) -> None:
        """The person went on: what is typed next begins anew."""
        self.typed.clear()
        self._sent = ""

    def clear(self) -> None:
        """Nothing is to be noted."""
        self.left()
        self.waits, self.failing = "", False
