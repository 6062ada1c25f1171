"""Keeping what a file brings: batch by batch, so that others may write meanwhile, and one act all the same."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field, replace
from datetime import UTC, date
from itertools import chain, islice

from keeper.actions.readings.noting import whence
from keeper.actions.readings.shape import checked, free_key
from keeper.actions.taking_in import meant as said
from keeper.actions.taking_in.deciding import MORE, NEW, OTHER, THERE, Decided, Decisions, holds
from keeper.actions.taking_in.looking import FileLooked
from keeper.actions.taking_in.understanding import NotUnderstood, Understanding, begun_by
from keeper.actions.taking_in.weighing import Weighed, batches, understood
from keeper.actions.writing import LONGEST
from keeper.clock import Clock
from keeper.dates.written import counted, number
from keeper.errors import CannotWrite, UnreadableFile, shown_name
from keeper.exchange import odd_files
from keeper.exchange.tables.shape import Row
from keeper.model import Act, Moment, Place, Reading, Tracker
from keeper.store import Store, lines, nights, trackers
from keeper.store.folding import bare
from keeper.store.moments import utc_text
from keeper.store.places import named as places
from keeper.store.taking_in import many
from keeper.store.taking_in.many import ComingLine

PAGE = "taking in"


@dataclass
class FileKept:
    """What was kept of a file: by outcome, in three counts. ``act`` is the number of the act, None where nothing was written.

    ``foreseen`` is how many rows it had when it was weighed. ``broken_off`` is why the rest could not be read, or kept, "" where all was.
    """

    weighed: Weighed
    lines: Counter = field(default_factory=Counter)
    places: Counter = field(default_factory=Counter)
    readings: Counter = field(default_factory=Counter)
    act: int | None = None
    stopped: bool = False
    foreseen: int = 0
    broken_off: str = ""


def keep(
    store: Store, looked: FileLooked, weighed: Weighed, clock: Clock,
    progress: Callable[[float, str], None] = lambda *_: None, stopped: Callable[[], bool] = lambda: False,
) -> FileKept:  # fmt: skip
    """Keep what a file brings, as one act; ``weighed`` is what was told of it before.

    Stopped, what was kept until then stays, and the same file goes on from
    there; so too where the file cannot be read to its end, or the disk is full midway. Nothing is
    overwritten but what ``meant.other_words`` lets go to the earlier wordings.
    Raises UnreadableFile for a file that cannot be read at all, CannotWrite.
    """
    kept = FileKept(Weighed(), foreseen=weighed.rows)
    coming = _to_its_end(batches(odd_files.rows(looked.path, looked.how, looked.dates)), kept)
    # Before anything is written for it.
    first = list(islice(coming, 1))
    act = Act(f"What {shown_name(looked.path)} brought", PAGE)
    with store.going_on(act) as one_act:
        _remember(store, looked, clock)
        begun = _begin(store, looked, weighed, act)
        keeping = _Keeping(store, looked, clock, kept, act)
        understanding = Understanding(store, looked, lambda night: whence(store, night, clock), begun)
        for batch in chain(first, coming):
            if stopped():
                kept.stopped = True
                break
            counted_before = Counter(kept.lines), Counter(kept.places), Counter(kept.readings)
            try:
                with store.writing(act):
                    keeping.batch(understood(understanding, batch, kept.weighed))
            except CannotWrite as error:
                if one_act.number is None:
                    raise
                # Of this batch nothing was kept; the ones before it were.
                kept.lines, kept.places, kept.readings = counted_before
                kept.broken_off = str(error)
                break
            share = min(kept.weighed.rows / max(weighed.rows, 1), 1.0)
            progress(share, f"{number(kept.weighed.rows)} of {counted(weighed.rows, 'row')}")
        kept.act = one_act.number
    return kept


def _to_its_end(coming: Iterator[list[Row]], kept: FileKept) -> Iterator[list[Row]]:
    """What comes, as far as it can be read; why not further is put down. Raises UnreadableFile where nothing came at all."""
    any_came = False
    try:
        for batch in coming:
            any_came = True
            yield batch
    except UnreadableFile as error:
        if not any_came:
            raise
        kept.broken_off = str(error)


def _remember(store: Store, looked: FileLooked, clock: Clock) -> None:
    said.remember(store, looked.how, looked.names, looked.meant, clock)


def _begin(store: Store, looked: FileLooked, weighed: Weighed, act: Act) -> dict[int, Tracker]:
    """Begin the readings that columns begin, and let those that began later begin with the file's first night."""
    begun = {}
    with store.writing(act):
        for tracker in trackers.every(store):
            first = weighed.firsts.get(tracker.id)
            if first and first < tracker.began:
                trackers.change(store, replace(tracker, began=first))
        for at, tracker in begun_by(looked).items():
            if first := weighed.firsts.get(tracker.id):
                others = trackers.every(store)
                made = checked(replace(tracker, id="", began=first, key=free_key(tracker.name, others)), others)
                begun[at] = replace(made, id=trackers.add(store, made))
    return begun


class _Keeping:
    """Writes what was decided, within a transaction of its caller."""

    def __init__(self, store: Store, looked: FileLooked, clock: Clock, kept: FileKept, act: Act) -> None:
        self._store, self._looked, self._kept = store, looked, kept
        self._now: Moment = clock.moment()
        self._at = clock.now().astimezone(UTC)
        self._decisions = Decisions(store)
        self._how = looked.meant.other_words
        self._known = {bare(name): place_id for name, place_id in places.names(store)}
        self._replaced: set[int] = set()

    def batch(self, items: list) -> None:
        """Write all that some rows bring."""
        decided = self._decisions.batch(items)
        self._lines([one for one in decided if isinstance(one.what, ComingLine)])
        self._places([one for one in decided if isinstance(one.what, str)])
        self._readings([one for one in decided if isinstance(one.what, Reading)])

    # lines

    def _lines(self, decided: Iterable[Decided]) -> None:
        fresh: dict[int, ComingLine] = {}
        late: list[Decided] = []
        for one in decided:
            line: ComingLine = one.what
            if one.outcome == NEW:
                fresh[line.number] = line
            elif one.outcome == MORE and line.number in fresh and self._fits(one, fresh[line.number].text):
                fresh[line.number] = line._replace(text=f"{fresh[line.number].text}\n{line.text}")
            elif one.outcome in (MORE, OTHER):
                late.append(one)
            self._kept.lines[one.outcome] += 1
        self._put(fresh.values())
        for one in late:
            self._other(one)

    def _put(self, fresh: Iterable[ComingLine]) -> None:
        fresh = list(fresh)
        # A line that was taken out is the same line when it comes back.
        before = many.earlier_at(self._store, [line.night for line in fresh])
        again = [line for line in fresh if (line.night.isoformat(), line.kind) in before]
        many.put(self._store, [line for line in fresh if line not in again] if again else fresh, self._now)
        for line in again:
            lines.keep(self._store, line.night, line.kind, line.text, self._now)

    def _other(self, one: Decided) -> None:
        line: ComingLine = one.what
        there = many.texts_at(self._store, [line.number]).get(line.number, "")
        if (one.there and not there) or self._waits(line):
            # What is being typed is kept first, as the line it was to be.
            lines.keep(self._store, line.night, line.kind, one.there, self._now, one.there)
            there = one.there
        if holds(there, line.text):
            return
        if one.outcome == OTHER and self._how == said.ASIDE:
            many.set_aside(self._store, line, self._now)
        elif one.outcome == OTHER and self._how == said.REPLACE and line.number not in self._replaced:
            self._replaced.add(line.number)
            lines.keep(self._store, line.night, line.kind, line.text, self._now)
        elif self._fits(one, there):
            lines.keep(self._store, line.night, line.kind, f"{there}\n{line.text}" if there else line.text, self._now)

    def _waits(self, line: ComingLine) -> bool:
        return any(draft.kind == line.kind for draft in lines.drafts(self._store, line.night))

    def _fits(self, one: Decided, there: str) -> bool:
        if len(there) + 1 + len(one.what.text) <= LONGEST:
            return True
        why = f"with what is there it is longer than a line holds ({number(LONGEST)} characters)"
        self._kept.weighed.add_trouble([NotUnderstood(one.item.number, one.item.file, one.what.text[:60], why)])
        return False

    # places and readings

    def _places(self, decided: Iterable[Decided]) -> None:
        for one in decided:
            outcome = one.outcome
            if outcome == NEW or (outcome == OTHER and self._how == said.REPLACE):
                nights.set_place(self._store, one.item.night, self._place_id(one.what), "said", utc_text(self._now.utc))
            self._kept.places[outcome] += 1

    def _place_id(self, name: str) -> str:
        called = bare(name)
        if called not in self._known:
            self._known[called] = places.add(self._store, Place("", name)).id
        return self._known[called]

    def _readings(self, decided: Iterable[Decided]) -> None:
        wanted: dict[tuple[str, date], Reading] = {}
        for one in decided:
            self._kept.readings[one.outcome] += 1
            if one.outcome == NEW or (one.outcome == OTHER and self._how == said.REPLACE):
                wanted[one.what.tracker_id, one.what.night] = one.what
        if wanted:
            trackers.note(self._store, wanted.values(), at=self._at)


__all__ = ["MORE", "NEW", "OTHER", "THERE", "FileKept", "keep"]
