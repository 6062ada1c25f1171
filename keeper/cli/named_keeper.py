"""The keeper a command works on, opened when it is first needed."""

from collections.abc import Callable, Sequence
from datetime import date, timedelta
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from keeper import settings
from keeper.actions import carrying, opening, reading, writing
from keeper.cli import shown, telling
from keeper.clock import Clock
from keeper.days import night_of
from keeper.errors import AlreadyKept, NotAKeeper, UnknownThing, UnreadableDate, UnreadableText
from keeper.model import Found, Line, LineKind, Night, Person, Wording
from keeper.review.night import NightPage, kinds_asked

if TYPE_CHECKING:
    from keeper.actions.finding import Sought
    from keeper.actions.paper.making import BookMade
    from keeper.actions.photos.kept import Summary, TakenIn
    from keeper.actions.places.where_between import SpanSaid
    from keeper.dates.typed import Understood
    from keeper.review.themes import ThemesView


class NamedKeeper:
    """The folder that was named, its keeper, and the clock that goes with it.

    ``open_window`` is what opens the window: it lies above this room. ``begin``
    says that a keeper may be begun in a folder that has none. ``read_as`` are
    dates that could be read in two ways, and how they were.
    """

    def __init__(self, folder: Path | None, demo: bool, open_window: Callable[..., int], begin: bool = False) -> None:
        self.demo = demo
        self.begin = begin
        self.open_window = open_window
        self.read_as: dict[str, date] = {}
        self.folder = opening.demo_folder() if demo else (folder or opening.own_folder()).absolute()

    @property
    def begun(self) -> bool:
        """Whether a keeper is there."""
        return opening.has_keeper(self.folder)

    @cached_property
    def store(self):
        """The open keeper. Raises NotAKeeper where there is none."""
        if self.demo and not self.begun:
            opening.lay_out_demo(self.folder)
        store = self._opened()
        store.done_from = "command line"
        opening.sweep(store)
        self._look_over(store)
        return store

    def _opened(self):
        try:
            return opening.open_kept(self.folder)
        except NotAKeeper as error:
            from keeper.actions.damage.mending import advice

            raise NotAKeeper(f"{error}{advice(self.folder)}") from error

    def _look_over(self, store) -> None:
        """Once a day, so that nothing is kept in a broken keeper by whoever never opens the window."""
        from keeper.actions.damage import checking

        if told := checking.look_over_daily(store, date.today()) or checking.why_damaged(store):
            telling.aside(f"The keeper in {self.folder} is damaged: {told} What can be saved of it is told by: keeper mend.")

    @cached_property
    def clock(self) -> Clock:
        """The computer's clock, or the demo's."""
        return opening.demo_clock(self.store) if self.demo else Clock()

    def clock_without_keeper(self) -> Clock:
        """The computer's clock, for what is done while the keeper is not open."""
        return Clock()

    def __enter__(self) -> "NamedKeeper":
        return self

    def __exit__(self, *_: object) -> None:
        self.let_go()

    def let_go(self) -> None:
        """Close the keeper, if it was opened, and tell what of it could not be read."""
        if "store" in self.__dict__:
            store = self.__dict__.pop("store")
            store.close()
            for sentence in store.news_of_damage():
                telling.aside(sentence)

    @property
    def rollover(self) -> int:
        """The hour at which this keeper's nights end; the usual one before it is begun."""
        kept = opening.read_settings(self.store) if self.begun or self.demo else {}
        return settings.number(kept, "rollover")

    @property
    def tonight(self) -> date:
        """The night that is being lived."""
        return self.clock.tonight(self.rollover)

    def night(self, typed: str | None, to_write: bool = False) -> date:
        """The night that was typed; without a word, tonight.

        Raises UnreadableDate when it is none, or is to be written and lies ahead.
        """
        meant = self.understood(typed) if (typed or "").strip() else None
        night = meant.first if meant else self.tonight
        if to_write and meant and meant.last != night:
            raise UnreadableDate(f"\u201c{typed.strip()}\u201d is more than one night; name the one you mean. Nothing was kept.")
        # One day of grace: who flies east over the date line and back has
        # written tomorrow's line already, and may mend it.
        if to_write and night > self.tonight + timedelta(days=1):
            raise UnreadableDate(f"The night of {night.isoformat()} is still to come; nothing was kept.")
        return night

    def month(self, typed: str | None) -> date:
        """The first day of the month that was typed; without a word, of this month."""
        return self.night(typed).replace(day=1)

    def understood(self, typed: str) -> "Understood":
        """The nights that are meant by a date as it was typed. Raises UnreadableDate."""
        # Most commands name no date.
        from keeper.cli.own_spelling import own_spelling
        from keeper.dates.typed import understood

        meant = understood(typed, self.tonight, own_spelling())
        if not meant.sure:
            self.read_as[typed.strip()] = meant.first
        return meant

    def why_still(self, typed: str | None) -> str:
        """Why tonight is not the calendar's today; "" when it is, or a date was typed."""
        if typed or self.tonight == night_of(self.clock.now(), 0):
            return ""
        return f"A night ends at {self.rollover}:00, so this belongs to the evening before."

    def page(self, night: date) -> NightPage:
        """All that is kept of a night, and what waits."""
        return reading.night_page(self.store, night, self.tonight)

    def wordings(self, night: date) -> tuple[Wording, ...]:
        """Earlier wordings of all the night's lines."""
        return tuple(wording for kind in self.kinds for wording in reading.wordings(self.store, night, kind.key))

    @property
    def kinds(self) -> tuple[LineKind, ...]:
        """All kinds of line, those that are left out too; those of a new keeper before it is begun."""
        return reading.every_kind(self.store) if self.begun or self.demo else reading.BEGUN_WITH

    def kind(self, word: str, night: date | None = None) -> LineKind:
        """The kind that a name, or its beginning, means. Raises UnknownThing."""
        from keeper.actions import kinds

        return kinds.meant(self.kinds, word, night or self.tonight)

    def kind_to_write(self, key: str | None, night: date) -> LineKind:
        """The kind with this key, or the first that the night asks for.

        Raises UnknownThing where the night neither asks for it nor has such a line.
        """
        from keeper.actions import kinds

        if key is None:
            return kinds_asked(self.kinds, night)[0]
        kind = next(one for one in self.kinds if one.key == key)
        there = self.begun and reading.one_night(self.store, night).line(key) is not None
        kinds.check_asked(kind, night, there)
        return kind

    def write(self, text: str, night: date, kind: str, place: str | None, how: str | None) -> Night:
        """Keep a line, and where the night was spent if that is said.

        ``how`` says what becomes of a line that is there: ``add``, ``replace``
        or, with None, the writing is refused. Raises UnreadableText for words
        that cannot be kept or are none.
        """
        if not text.strip():
            raise UnreadableText("There are no words to keep.")
        writing.check_text(place or "")
        self.must_be_begun(now=True)
        with self.store.going_on(None):
            try:
                writing.write_once(self.store, night, kind, text, self.clock, how or "")
            except AlreadyKept as there:
                raise AlreadyKept(f"{there} To change it, say --add or --replace.") from there
            if place and place.strip():
                writing.set_place(self.store, night, place, self.clock)
        return reading.one_night(self.store, night)

    def where_from(self, night: Night) -> str:
        """From which night the place of a night was carried on, or that it was not; "" when it was said."""
        if night.place:
            return shown.carried_sentence(night, carrying.carried_from(self.store, night.date), self.tonight)
        return shown.left_sentence(carrying.carried(self.store, night.date, self.clock.moment())[1])

    def move(self, night: date, kind: str | None, to_night: date, to_kind: str | None) -> Line:
        """Let a line be another night's, or of another kind. Raises UnknownThing, AlreadyKept."""
        from keeper.actions.history.moving import move_line

        here = self.kind_to_write(kind, night).key
        there = self.kind_to_write(to_kind or here, to_night).key
        return move_line(self.store, night, here, to_night, there, self.clock)

    def say_where(self, place: str, first: str | None, last: str | None, over: bool) -> "SpanSaid":
        """Say where the nights of a span were spent; an end that was not typed is tonight.

        Raises UnreadableDate, UnreadableText.
        """
        from keeper.actions.places import where_between

        begin, end = self.span(first or "tonight", last or "tonight")
        where_between.check_span(begin, end, self.tonight)
        writing.check_text(place)
        self.must_be_begun(now=True)
        return where_between.say_between(self.store, begin, end, place, self.clock, self.tonight, over)

    def must_be_begun(self, now: bool = False) -> None:
        """See to it that there is a keeper, or one may be begun, which ``now`` does.

        Raises NotAKeeper where none may be begun without a word.
        """
        if self.demo or self.begun:
            return
        if not (self.begin or opening.begins_unasked(self.folder)):
            raise NotAKeeper(f"{opening.none_yet(self.folder)} To begin one there, say --begin before the command.")
        if now:
            opening.open_or_begin(self.folder).close()

    def themes(self, again: bool, progress: Callable[[float, str], None]) -> "ThemesView":
        """The themes, looked for first where that is due or asked for."""
        from keeper.actions.themes import asking as themes

        # Of a keeper that can only be read, what was found before is told.
        if again or not self.store.only_read:
            act = themes.rebuild_themes if again else themes.look_again
            act(self.store, self.clock, progress)
        return themes.themes_view(self.store)

    def find(self, sought: "Sought", limit: int) -> tuple[tuple[Found, ...], int]:
        """The lines that answer, and how many there are in all."""
        from keeper.actions import finding

        return finding.find(self.store, sought, limit), finding.count_found(self.store, sought)

    def question(self, month: date) -> str:
        """The question of a month, or ""."""
        return reading.month_question(self.store, month) if self.begun or self.demo else ""

    def ask(self, month: date, question: str) -> None:
        """Set the question of a month; "" asks none."""
        self.must_be_begun(now=True)
        writing.ask_question(self.store, month, question)

    def take_in(self, file: Path, night: date | None, cut_off: bool) -> "TakenIn":
        """Take in a photo, for the night given or its own. Raises UnreadablePhoto, CannotWrite."""
        from keeper.actions.photos.kept import check_kind, take_in
        from keeper.actions.photos.nearest_town import nearest

        self.must_be_begun()
        # Before a keeper is begun for what is no picture.
        check_kind(file)
        self.must_be_begun(now=True)
        return take_in(self.store, file, self.clock, night, self.rollover, nearest, cut_off)

    def take_in_folders(
        self, folders: Sequence[Path], progress: Callable[[float, str], None], stopped: Callable[[], bool],
        cut_off: bool,
    ) -> "Summary":  # fmt: skip
        """Take in the photos of folders, each with the night of its own date."""
        from keeper.actions.photos.kept import take_in_many

        self.must_be_begun(now=True)
        return take_in_many(self.store, folders, self.clock, self.rollover, progress, stopped, cut_off=cut_off)

    def make_book(
        self, year: int, target: Path, parts: dict[str, object], progress: Callable[[float, str], None],
        stopped: Callable[[], bool],
    ) -> "BookMade":  # fmt: skip
        """Make a year into a book. Raises UnknownThing, CannotWrite, Stopped."""
        from keeper.actions.paper import making as book

        return book.make_book(self.store, year, book.BookParts(**parts), target, self.clock, progress, stopped)

    def make_sheet(
        self, month: date, target: Path, parts: dict[str, object], small_photo: bool,
        progress: Callable[[float, str], None], stopped: Callable[[], bool],
    ) -> "BookMade":  # fmt: skip
        """Make a month into a page to print. Raises UnknownThing, CannotWrite, Stopped."""
        from keeper.actions.paper import making as book

        wanted = book.BookParts(**{"answers": False, **parts})
        return book.make_month_sheet(self.store, month, target, self.clock, wanted, small_photo, progress, stopped)

    def say_later(self, night: date, kind: str | None, text: str | None, looks: str | None) -> Line:
        """Say tonight what is thought of a line, and how its mood looks; None of either says nothing of it.

        Raises UnknownThing, UnreadableText, UnreadableReading.
        """
        from keeper.actions.remembering import later

        line, *_ = self._lines(night, kind)
        with self.store.going_on(None):
            if text is not None:
                later.write(self.store, line.id, self.tonight, text, self.clock)
            if looks is not None:
                later.look_anew(self.store, line.id, self.tonight, looks, self.clock)
        return line

    def rest(self, night: date, kind: str | None) -> None:
        """Let the night's lines rest. Raises UnknownThing when there are none."""
        with self.store.going_on(None):
            for line in self._lines(night, kind):
                writing.rest_line(self.store, line.id)

    def wake(self, night: date, kind: str | None) -> None:
        """Let the night's lines be brought up again. Raises UnknownThing when there are none."""
        with self.store.going_on(None):
            for line in self._lines(night, kind):
                writing.wake_line(self.store, line.id)

    def span(self, first: str, last: str) -> tuple[date, date]:
        """The ends of a span that were typed. Raises UnreadableDate."""
        from keeper.actions.resting import read_span
        from keeper.cli.own_spelling import own_spelling

        return read_span(first, last, self.tonight, own_spelling())

    def rest_span(self, first: date, last: date) -> None:
        """Let all nights of a span rest."""
        from keeper.actions.resting import rest_span

        rest_span(self.store, first, last)

    def wake_span(self, first: date, last: date) -> None:
        """Let a span be brought up again. Raises UnknownThing when it does not rest."""
        from keeper.actions.resting import wake_span

        wake_span(self.store, first, last)

    def rest_person(self, name: str) -> tuple[Person, int]:
        """Let a person rest, marked first if need be; how many lines name them.

        Raises UnknownThing for a name that is neither marked nor in any line.
        """
        from keeper.actions import people

        person = people.rest_by_name(self.store, name)
        return person, people.lines_naming(self.store, person)

    def wake_person(self, name: str) -> tuple[Person, int]:
        """Let a person be brought up again; how many lines name them. Raises UnknownThing."""
        from keeper.actions import people

        person = people.wake_by_name(self.store, name)
        return person, people.lines_naming(self.store, person)

    def _lines(self, night: date, kind: str | None) -> tuple[Line, ...]:
        kept = reading.one_night(self.store, night).lines
        lines = tuple(line for line in kept if kind in (None, line.kind))
        if not lines:
            word = next((one.name or one.key for one in self.kinds if one.key == kind), "line")
            raise UnknownThing(f"There is no {word} on {night.isoformat()}.")
        return lines
