"""Writing: a line, a draft, where a night was spent, the month's question."""

import unicodedata
from datetime import date
from textwrap import shorten

from keeper.actions import told_as
from keeper.actions.carrying import carry_on
from keeper.clock import Clock
from keeper.dates import written
from keeper.errors import AlreadyKept, UnreadableText
from keeper.model import Draft, Line, Place, kind_in_sentence, kind_title
from keeper.store import Store, kinds, lines, month_pages, nights, resting
from keeper.store.moments import utc_text
from keeper.store.places import named as places

LONGEST = 20_000
"""The most characters a line may have: some ten printed pages."""

_ALLOWED_CONTROLS = "\n\t"


def write_line(store: Store, night: date, kind: str, text: str, clock: Clock, known: str = "") -> Line | None:
    """Keep a night's line; durable on return. An empty text takes it out.

    ``known`` is the draft that goes with it; another one becomes an earlier
    wording. A night without a place gets that of the night before, unless the
    clock was moved to another zone. Raises UnreadableText for what cannot be
    kept as written, CannotWrite when the disk will not take it; then nothing
    is changed.
    """
    check_text(text)
    moment, words = clock.moment(), text.strip()
    with store.writing(None if words else told_as.of_line(_called(store, kind), kind, night, "")):
        if words:
            carry_on(store, night, moment)
        line = lines.keep(store, night, kind, words, moment, readable(known))
        if words:
            # Only now, since the line knows what its kind is called.
            store.tell(told_as.of_line(line.kind_title if line else _called(store, kind), kind, night, words))
    return line


def write_once(store: Store, night: date, kind: str, text: str, clock: Clock, how: str = "") -> Line | None:
    """Keep a line where there is none; ``how`` says what becomes of one that is there.

    With ``add`` the words are added to it, with ``replace`` they take its
    place. Words put aside as a draft count as the line; they and the earlier
    line can be brought back. Raises AlreadyKept where ``how`` is "" and other
    words are there; else as ``write_line``.
    """
    check_text(text)
    with store.writing(told_as.of_line(_called(store, kind), kind, night, text)):
        there = _words_there(store, night, kind)
        if there and not how and there != text.strip():
            name = kinds.name(store, kind)
            called = f"\u201c{name}\u201d" if name else f"a {kind}"
            raise AlreadyKept(f"There is {called} of {night.isoformat()} already: \u201c{shorten(there, 200)}\u201d.")
        if there:
            lines.keep(store, night, kind, there, clock.moment())
        return write_line(store, night, kind, f"{there} {text.strip()}" if there and how == "add" else text, clock)


def _words_there(store: Store, night: date, kind: str) -> str:
    waiting = next((d.text.strip() for d in lines.drafts(store, night) if d.kind == kind), "")
    line = nights.one(store, night).line(kind)
    return waiting or (line.text if line else "")


def check_text(text: str) -> None:
    """Raise UnreadableText, saying why, for what a line cannot hold."""
    if len(text) > LONGEST:
        raise UnreadableText(
            f"This is {written.number(len(text))} characters long; a line holds {written.number(LONGEST)}."
        )
    if text.isprintable():
        return
    for place, letter in enumerate(text):
        if letter not in _ALLOWED_CONTROLS and unicodedata.category(letter) in ("Cc", "Cs"):
            raise UnreadableText(
                f"Character {place + 1} cannot be kept as text (code  {ord(letter):04X}). Remove it, or type it again."
            )


def readable(text: str) -> str:
    """The text with halves of characters and control codes made visible or left out.

    For words that come from elsewhere (pasted, or given by the system): halves
    that fit are joined, others become U+FFFD; control codes are left out.
    """
    if text.isprintable():
        return text
    joined = text.encode("utf-16-le", "surrogatepass").decode("utf-16-le", "replace")
    plain = joined.replace("\r\n", "\n").replace("\r", "\n").replace("\u2028", "\n").replace("\u2029", "\n")
    return "".join(c for c in plain if c in _ALLOWED_CONTROLS or unicodedata.category(c) != "Cc")


def keep_draft(store: Store, night: date, kind: str, text: str, clock: Clock, known: str = "") -> None:
    """Put aside what is being typed, of whatever length.

    ``known`` is the draft that it takes the place of; another one becomes an
    earlier wording.
    """
    moment = clock.moment()
    with store.writing(told_as.of_night(f"Other words typed as {kind_in_sentence(kind, kinds.name(store, kind))}, put by", night, kind)):
        lines.keep_draft(store, Draft(night, kind, readable(text), moment.utc), moment, readable(known))


def drop_draft(store: Store, night: date, kind: str, known: str | None = None) -> None:
    """Forget what was put aside; if ``known`` is given, only when it is that."""
    lines.drop_draft(store, night, kind, None if known is None else readable(known))


def set_draft_aside(store: Store, night: date, kind: str, text: str, clock: Clock) -> Line | None:
    """Have the kept line back where a draft stands in its place; the draft's words become an earlier wording."""
    line = lines.one(store, night, kind)
    with store.writing(told_as.of_night(f"{_called(store, kind)} as it was kept", night, kind)):
        if text.strip():
            write_line(store, night, kind, text, clock, text)
        return write_line(store, night, kind, line.text if line else "", clock)


def set_place(store: Store, night: date, name: str, clock: Clock) -> Place | None:
    """Say where a night was spent: a place known by this name, or a new one.

    An empty name takes it back. Raises UnreadableText.
    """
    check_text(name)
    name = " ".join(name.split())
    begun_at = utc_text(clock.moment().utc)
    with store.writing(told_as.of_night(name or "No place", night)):
        place = (places.named(store, name) or places.add(store, Place("", name))) if name else None
        nights.set_place(store, night, place.id if place else None, "said", begun_at)
    return place


def ask_question(store: Store, month: date, question: str) -> None:
    """Set the question of a month; "" takes it back. Raises UnreadableText."""
    check_text(question)
    with store.writing(told_as.of_month("The question" if question.strip() else "No question", month)):
        month_pages.set_question(store, month, " ".join(question.split()))


def rest_line(store: Store, line_id: str) -> None:
    """Never bring this line up unasked. Raises UnknownThing."""
    line = lines.still_kept(store, line_id)
    with store.writing(told_as.of_night(f"Rest for {line.kind_in_sentence}", line.night, line.kind)):
        resting.rest(store, "line", line_id)


def wake_line(store: Store, line_id: str) -> None:
    """Let this line be brought up again."""
    line = lines.by_id(store, line_id)
    act = told_as.of_night(f"No rest for {line.kind_in_sentence}", line.night, line.kind) if line else told_as.of_settings("No rest for a line")
    with store.writing(act):
        resting.wake(store, "line", line_id)


def _called(store: Store, kind: str) -> str:
    return kind_title(kind, kinds.name(store, kind))
