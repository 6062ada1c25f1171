"""A later word: what is thought now of an old line, kept beside it."""

from dataclasses import dataclass
from datetime import UTC, date

from keeper.actions import told_as
from keeper.actions.writing import check_text
from keeper.clock import Clock
from keeper.dates import written
from keeper.errors import UnknownThing, UnreadableText
from keeper.model import Act, Line, Reading, Tracker
from keeper.model.later import EarlierLater, LaterWord
from keeper.store import Store, lines, trackers
from keeper.store.later import words


@dataclass(frozen=True, slots=True)
class UnderLine:
    """What stands under a line on a later night.

    ``before`` are the words of earlier nights, oldest first, ``text`` that of
    the night itself ("" for none). ``tracker`` is the scale that was noted on
    the line's night as ``was`` and may be looked at anew; None for none.
    ``looks`` is how it looks now, None if not said. ``earlier`` is what the
    night's word said before it was changed on another evening.
    """

    line: Line
    before: tuple[LaterWord, ...] = ()
    text: str = ""
    tracker: Tracker | None = None
    was: Reading | None = None
    looks: float | None = None
    earlier: tuple[EarlierLater, ...] = ()


def under(store: Store, line_id: str, said_on: date) -> UnderLine:
    """What stands under a line for one who writes as on this night. Raises UnknownThing when the line is there no more."""
    line = lines.still_kept(store, line_id)
    before = tuple(one for one in line.later if one.said_on != said_on)
    now = next((one for one in line.later if one.said_on == said_on), None)
    tracker, was = _mood_of(store, line.night)
    return UnderLine(line, before, now.text if now else "", tracker, was, now.looks if now else None, words.earlier(store, line_id, said_on))


def write(store: Store, line_id: str, said_on: date, text: str, clock: Clock) -> None:
    """Keep what is said of a line on a later night; "" takes it out. The line stays as it is.

    What was said there on another evening is kept as an earlier wording.

    Raises UnknownThing, UnreadableText for what cannot be kept, or where the
    night is not later than the line's.
    """
    line = lines.still_kept(store, line_id)
    check_text(text)
    if text.strip():
        _must_be_later(line, said_on)
    with store.writing(_act("A later word" if text.strip() else "No later word", line)):
        words.write(store, line_id, said_on, text.strip(), clock.moment())


def look_anew(store: Store, line_id: str, said_on: date, typed: str, clock: Clock) -> None:
    """Keep how the mood noted on a line's night looks on a later one; "" takes it back. What was noted stays.

    Raises UnknownThing where there is no such line, or nothing was noted on
    its night; UnreadableReading for what is not on the scale.
    """
    # Only now: what is typed elsewhere needs none of it.
    from keeper.study.readings.hours import Whence
    from keeper.study.readings.typed import understood

    line = lines.still_kept(store, line_id)
    tracker, _ = _mood_of(store, line.night)
    if tracker is None:
        raise UnknownThing("No scale was noted on that night.")
    now = clock.moment()
    value = understood(tracker, typed, said_on, Whence(UTC, now.utc)).value if typed.strip() else None
    if value is not None:
        _must_be_later(line, said_on)
    with store.writing(_act(f"How {tracker.name} looks from later", line)):
        words.note(store, line_id, said_on, tracker.id, value, now)


def _mood_of(store: Store, night: date) -> tuple[Tracker | None, Reading | None]:
    """The first scale that is better when higher, if it was noted that night on the scale it has now."""
    noted = {one.tracker_id: one for one in trackers.readings(store, night, night)}
    for tracker in trackers.every(store):
        reading = noted.get(tracker.id)
        if reading and tracker.form == "scale" and tracker.better == "higher" and reading.low is None:
            return tracker, reading
    return None, None


def _must_be_later(line: Line, said_on: date) -> None:
    if said_on <= line.night:
        raise UnreadableText(f"A later word is written on a night after the line\u2019s own, {written.full_date(line.night)}.")


def _act(what: str, line: Line) -> Act:
    return told_as.of_night(f"{what} under {line.kind_in_sentence}", line.night, line.kind)
