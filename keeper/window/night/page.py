"""The page of a night: write a line, say where, go on to other nights."""

from collections.abc import Callable, Iterable
from datetime import date
from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from keeper.actions import reading, writing
from keeper.actions.reading import BEGUN_WITH
from keeper.errors import KeeperError
from keeper.model import QUESTION_KIND, Line, LineKind, Moment, Place
from keeper.review.night import NightPage
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.early import FOCUS_BY_TAB, NO_FOCUS, setting
from keeper.window.night.kinds import KindBlock, KindBlocks
from keeper.window.night.line_keeping import LineKeeping
from keeper.window.parts.kept_room import KeptRoom
from keeper.window.parts.page import BasicPage
from keeper.window.parts.places.field import PlaceField
from keeper.window.parts.small import Paper, emptied, headed, label, quiet_button, row
from keeper.window.parts.tips import plain_tip
from keeper.window.parts.typing.field import Field
from keeper.window.parts.typing.put_by import PutBy
from keeper.window.parts.typing.question import QuestionRow
from keeper.window.parts.typing.undo_keys import is_move, is_text

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent

    class Hung(QWidget):
        """The photos of the night shown."""

        def keep(self) -> None:
            """Keep what is being typed."""

        def set_tab_order(self) -> None:
            """Take up the places that are the photos' among the texts and buttons of the night."""

    from keeper.window.night.readings.row import ReadingsRow


YEARS_NAMED = 6


class NightPageView(BasicPage, Paper):
    """Tonight, or any other night.

    ``night_changed`` comes when another night is shown.
    """

    night_changed = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look)
        self.desk = desk
        self.night: date = desk.tonight()
        self.page: NightPage | None = None
        self.lines = LineKeeping(desk, self)
        self.words = self.lines.words
        self._both_ways = self._clock_read = self._looks_back = False
        self._at: Field | None = None
        self._build()
        self.lines.failed.connect(lambda key: self._say_state(key[1]))
        self.dress()
        desk.changed.connect(self.refresh)

    def _build(self) -> None:
        self.heading = label("", "head")
        self.before = quiet_button("\u2039 earlier", lambda: self._step(-1), "The night before")
        self.after = quiet_button("later \u203a", lambda: self._step(1), "The night after")
        self.when = label("", "quiet")
        self.place = PlaceField(lambda: reading.known_places(self.desk.store), self._towns)
        self.place.chosen.connect(self._set_place)
        self.place.refused.connect(self.desk.said)
        self.place.settled.connect(lambda: self._leading.setFocus())
        self.place.span_wanted.connect(self._say_where_between)
        self.place_said = label("", "quiet", wrap=False)
        self.place_words = PutBy(self.desk, self.place, "place")
        self.place_words.failed.connect(self.refresh)
        self.also = quiet_button("other nights too \u203a", self._say_where_between, "Say the place for other nights too")
        self.also.setToolTip("Ctrl+Enter in the place")
        self.question = QuestionRow(self.desk, "Change the question")
        self.question.asked.connect(self._ask)
        self.kinds = KindBlocks(self.desk, self.question)
        self.kinds.made.connect(self._take_in)
        self.blocks: dict[str, KindBlock] = {}
        self.fields: dict[str, Field] = {}
        self.photos: Hung | None = None
        self.photo_room = KeptRoom(self.desk.look)
        self.readings: ReadingsRow | None = None
        self.readings_room = QVBoxLayout()
        self.open_nights = QHBoxLayout()
        self.open_nights.setContentsMargins(0, 0, 0, 0)
        self.on_this_day = quiet_button("", lambda: self.desk.go("looking back", self.night))
        self.on_this_day.hide()
        self._lay_out()
        # Where nothing can be read there is somewhere to write.
        self._show_kinds(BEGUN_WITH)

    def _lay_out(self) -> None:
        add = self.body
        for button in (self.before, self.after):
            setting(button, FOCUS_BY_TAB)
        add.addLayout(headed(self.heading, self.before, self.after))
        add.addWidget(self.when)
        at = label("At", "quiet", wrap=False)
        at.setBuddy(self.place)
        setting(self.also, NO_FOCUS)
        add.addLayout(row(at, self.place, self.place_said, self.also, None, gap=self.desk.look.px(0.6)))
        add.addWidget(self.kinds)
        add.addLayout(self.readings_room)
        # As tall as it was, so that nothing moves when the readings come.
        room = self.desk.kept.get("readings_room", "")
        self.readings_room.addSpacing(self.desk.look.px(int(room) / 10 + 0.6) if room.isdecimal() else 0)
        add.addLayout(self.photo_room)
        add.addSpacing(self.desk.look.px(1))
        add.addLayout(self.open_nights)
        add.addWidget(self.on_this_day)
        add.addStretch(1)

    def _order(self) -> None:
        # From text to text; what is pressed comes after.
        texts = [self.place, *self.fields.values()]
        if answer := self.fields.get(QUESTION_KIND):
            texts.insert(texts.index(answer), self.question.edit)
        pressed = [self.before, self.after, self.question.change]
        for block in self.blocks.values():
            pressed += [block.kept, block.earlier, block.move, block.like, block.rest]
        self.last_text = self.after_lines = texts[-1]
        self.first_button: QPushButton = pressed[0]
        self.last_button: QPushButton = pressed[-1]
        for one, other in pairwise([*texts, *pressed, self.on_this_day]):
            QWidget.setTabOrder(one, other)
        if self.readings:
            self.readings.set_tab_order()
        if self.photos:
            self.photos.set_tab_order()

    def _take_in(self, block: KindBlock) -> None:
        self._connect(block.kind.key, block)
        self._fit_field(block.field)
        if self._both_ways:
            block.field.read_both_ways()

    def _connect(self, kind: str, block: KindBlock) -> None:
        field = block.field
        field.left.connect(lambda: self.commit(kind))
        field.entered_in.connect(lambda: self.words.meant((self.night, kind)))
        field.paused.connect(lambda: self.lines.put_by((self.night, kind)))
        field.entered.connect(lambda: self._enter(field))
        field.onward.connect(lambda: self._move(kind, 1))
        field.back.connect(lambda: self._move(kind, -1))
        field.mended.connect(lambda: self.desk.said.emit("Part of what you pasted was not text, and was left out."))
        field.textChanged.connect(lambda: self._on_typed(kind))
        block.kept.clicked.connect(lambda: self._show_kept(kind))
        block.earlier.clicked.connect(lambda: self._show_wordings(kind))
        block.move.clicked.connect(lambda: self._move_line(kind))
        block.rest.clicked.connect(lambda: self._rest_or_wake(kind))
        block.like.clicked.connect(lambda: self._look_for_like(kind))

    def dress(self) -> None:
        """Take up the typefaces and sizes in force."""
        look = self.desk.look
        self.fit()
        self.place.setMinimumWidth(look.px(14))
        self.kinds.fit()
        for block in self.kinds.every.values():
            self._fit_field(block.field)

    def _fit_field(self, field: Field) -> None:
        field.ensurePolished()
        field.document().setDefaultFont(field.font())
        field.fit()

    def read_both_ways(self) -> None:
        """From now on, right-to-left words set themselves from the right."""
        self._both_ways = True
        for block in self.kinds.every.values():
            block.field.read_both_ways()

    def read_clock(self) -> None:
        """From now on, see whether the clock is in another time zone than the place carried on."""
        self._clock_read = True
        if self.page and self.page.carried:
            self.refresh()

    def _now(self) -> Moment | None:
        # The name of the zone takes long the first time: not before one can type.
        return self.desk.clock.moment() if self._clock_read else None

    def hang(self, photos: "Hung") -> None:
        """Let the night's photos in, once one can type."""
        self.photos = photos
        self.photo_room.addWidget(photos)

    def hang_readings(self, readings: "ReadingsRow") -> None:
        """Let the night's readings in, once one can type."""
        self.readings = readings
        emptied(self.readings_room)
        self.readings_room.addWidget(readings)

    def back_to_words(self) -> None:
        """Go on where words were typed last."""
        self._at.setFocus()
        self.ensureWidgetVisible(self._at)

    def offer(self, button: QPushButton) -> None:
        """Take in a button that offers something tonight, below all else."""
        # Before the stretch that ends the page.
        self.body.insertWidget(self.body.count() - 1, button)

    # showing

    def show_night(self, night: date) -> None:
        """Keep what is being written, then show another night."""
        if self.page is not None:
            self.keep()
        if self._load(night, anew=True):
            self.night_changed.emit(night)

    def refresh(self) -> None:
        """Ask again what is kept of this night."""
        if self.page is not None:
            self._load(self.night)

    def _load(self, night: date, anew: bool = False) -> bool:
        try:
            page = reading.night_page(self.desk.store, night, self.desk.tonight(), self._now())
        except KeeperError as error:
            # The night that is shown stays, and with it whose words are typed.
            self.desk.said.emit(str(error))
            return False
        another = self.page is None or self.page.night.date != page.night.date
        self.page, self.night = page, night
        self._show_head(page)
        self.question.show_question(night, page.question)
        before = () if another else tuple(self.fields)
        self._show_kinds(self._kinds_of(page, anew))
        for kind in self.fields:
            self._show_kind(page, kind, kind not in before)
        self.photo_room.keep_for(page.night.photo_count)
        self._show_open_nights(page)
        if self._looks_back:
            self._ask_other_years()
        return True

    def _kinds_of(self, page: NightPage, anew: bool) -> list[LineKind]:
        """The kinds of the night; those too that have words here, and while the page is seen those that had."""
        night, kinds, here = page.night.date, list(page.kinds), {kind.key for kind in page.kinds}
        for key, block in self.kinds.every.items():
            if key not in here and ((night, key) in self.words.unkept() or (not anew and key in self.fields and block.field.hasFocus())):
                kinds.append(block.kind)
        return sorted(kinds, key=lambda kind: (kind.position, kind.number))

    def _show_kinds(self, kinds: Iterable[LineKind]) -> None:
        if not self.kinds.show_kinds(kinds):
            return
        self.blocks = dict(self.kinds.shown)
        self.fields = {kind: block.field for kind, block in self.blocks.items()}
        first = next(iter(self.fields.values()))
        self.lead_with(first)
        if self._at not in self.fields.values():
            self._at = first
        self._order()

    def _show_head(self, page: NightPage) -> None:
        tonight = self.desk.tonight()
        self.heading.setText(wording.long_date(self.night))
        self.after.setEnabled(self.night < max(tonight, page.latest or tonight))
        self.when.setText(wording.which_night(self.night, tonight, self.desk.clock.now(), self.desk.rollover()))
        self._show_place(page)

    def _show_place(self, page: NightPage) -> None:
        place = page.night.place or page.carried
        name = place.name if place else ""
        zone = self.desk.clock.zone() if page.left else ""
        self.place.show_place(name, self.place_words.shown(self.night.isoformat(), name), zone)
        self.place_said.setText(self._of_place(page, place))
        self.place_said.setToolTip(plain_tip(f"{page.left.name} is in another time zone than this clock.") if page.left else "")
        self.also.setVisible(bool(place))

    def _of_place(self, page: NightPage, place: Place | None) -> str:
        if self.place_words.waits() and not self.place.hasFocus():
            return "not kept yet"
        if page.left:
            return "not carried on: another time zone"
        return "carried on" if place and (page.carried or page.night.place_source == "carried") else ""

    def _ask(self, question: str) -> None:
        self.kinds.every[QUESTION_KIND].ask(question)

    def _show_kind(self, page: NightPage, kind: str, another: bool) -> None:
        key, line = (self.night, kind), page.night.line(kind)
        block, field = self.blocks[kind], self.fields[kind]
        draft = next((d.text for d in page.drafts if d.kind == kind), None)
        words = self.words.shown(key, line.text if line else "", draft, another)
        if words is not None and words != field.words():
            field.put_as_kept(words)
            field.moveCursor(field.textCursor().MoveOperation.End)
        if another:
            field.settle()
        if draft is None:
            # If another program's line took it along.
            self.lines.put_by(key)
        block.earlier.setVisible(kind in page.reworded)
        for button in (block.move, block.like, block.rest):
            button.setVisible(line is not None)
        block.rest.setText("Wake" if line and line.resting else "Let rest")
        self._say_state(kind)

    def _show_open_nights(self, page: NightPage) -> None:
        emptied(self.open_nights)
        nights = [night for night in page.still_open if night != self.night]
        if not nights:
            return
        self.open_nights.addWidget(label("Without a line:", "quiet", wrap=False))
        for night in nights:
            name = wording.weekday_and_day(night)
            button = quiet_button(name, lambda night=night: self.desk.go("night", night), f"Open the night of {name}")
            self.open_nights.addWidget(button)
        self.open_nights.addStretch(1)

    def look_back(self) -> None:
        """From now on, ask whether other years hold something of this day, and whether it stands on paper."""
        from keeper.window.parts.notebook_link import NotebookLink

        if not self._looks_back:
            self.on_paper = NotebookLink(self.desk)
            self.body.insertWidget(self.body.indexOf(self.on_this_day) + 1, self.on_paper)
        self._looks_back = True
        self._ask_other_years()

    def _ask_other_years(self) -> None:
        from keeper.actions.remembering import looking_back

        night = self.night
        self.on_paper.follow(night, night)
        self.desk.reader.run(
            lambda store, task: looking_back(store, night), lambda found: self._show_looking_back(found)
        )

    def _show_looking_back(self, found) -> None:
        if found.night != self.night:
            return
        years = [str(night.date.year) for night in found.nights] if found.on_the_day else []
        more = f" and {len(years) - YEARS_NAMED} more" if len(years) > YEARS_NAMED else ""
        self.on_this_day.setText("The same night, years apart: " + " \u00b7 ".join(years[:YEARS_NAMED]) + more)
        self.on_this_day.setVisible(bool(years))

    def _say_state(self, kind: str) -> None:
        if kind not in self.blocks:
            # Told late, of a night that asked for it.
            return
        state = self.words.state((self.night, kind))
        line = self.page.night.line(kind) if self.page else None
        resting = " \u00b7 resting" if line and line.resting else ""
        paper = f" \u00b7 from paper, {wording.shorter_date(line.written.here().date())}" if line and kind in self.page.from_paper else ""
        told = {"": "", "typing": "\u2026", "kept": "kept" + paper + resting, "failing": "not kept yet", "found": "not kept yet"}
        self.blocks[kind].state.setText(told[state])
        self.blocks[kind].kept.setVisible(state == "found" and line is not None)

    # writing

    def _on_typed(self, kind: str) -> None:
        if kind in self.fields:
            self.words.typed((self.night, kind), self.fields[kind].words())
            self._say_state(kind)

    def commit(self, kind: str) -> None:
        """Keep a field's line; on disk when its state says kept."""
        if kind not in self.fields:
            # It goes out of sight with the focus, and was kept before that.
            return
        key, field = (self.night, kind), self.fields[kind]
        field.put(writing.readable(field.words()))
        field.settle()
        self.lines.send(key)

    def keep(self) -> None:
        """Send every field of the night shown to be kept."""
        self.place.settle()
        self.question.keep()
        for kind in self.fields:
            self.commit(kind)
        for part in (self.readings, self.photos):
            if part:
                part.keep()

    def leave(self) -> None:
        """What was typed is kept before another page or night comes."""
        self.keep()

    @property
    def failing(self) -> bool:
        """Whether a line of this night could not be kept."""
        of_lines = any(self.words.state((self.night, kind)) == "failing" for kind in self.fields)
        return of_lines or bool(self.readings and self.readings.failing)

    def unkept(self) -> dict[tuple[date, str], str]:
        """What is typed but not on disk, by night and kind."""
        called = {key: block.kind.name or key for key, block in self.kinds.every.items()}
        of_lines = {(night, called.get(kind, kind)): text for (night, kind), text in self.words.unkept().items()}
        return of_lines | (self.readings.unkept() if self.readings else {})

    def _show_kept(self, kind: str) -> None:
        """Have the kept wording back in place of a draft; the draft becomes an earlier wording."""
        key, field, draft = (self.night, kind), self.fields[kind], self.fields[kind].words()
        line = self.page.night.line(kind) if self.page else None
        if line is None:
            return
        field.setFocus()
        field.put(line.text)

        self.lines.set_aside(key, draft, lambda: field.put(draft) if key[0] == self.night else None)

    def _towns(self):
        from keeper.window.parts.places.town_search import TownSearch

        return TownSearch(self.desk)

    def _set_place(self, chosen) -> None:
        night = self.night

        def write(store, _):
            # On the writer's lane, since it brings the gazetteer along.
            from keeper.actions.places.towns import set_where

            return set_where(store, night, chosen, self.desk.clock)

        name = chosen if isinstance(chosen, str) else chosen.name
        self.place.show_place(name, name)
        self.place_words.write(write, anyway=True)

    def _say_where_between(self) -> None:
        from keeper.window.parts.places.span_dialog import SpanDialog

        night = self.night
        self.place.settle()
        # The night itself is said first, and written in its order; then its place is known.
        self.desk.write(
            lambda store: reading.night_page(store, night, night),
            lambda page: SpanDialog(self.desk, self, page.night.place or page.carried, night).exec(),
        )

    def _rest_or_wake(self, kind: str) -> None:
        line = self.page.night.line(kind) if self.page else None
        if line is None:
            return
        self._write(writing.wake_line if line.resting else writing.rest_line, line.id)

    def show_part(self, part: str) -> None:
        """Give the keyboard to the field of a kind, or to a reading; nothing for any other."""
        strip = self.readings.strip(part) if self.readings else None
        if field := self.fields.get(part):
            field.moveCursor(field.textCursor().MoveOperation.End)
        if shown := field or strip:
            shown.setFocus()
            self.ensureWidgetVisible(shown)

    def _enter(self, field: Field) -> None:
        self._at = field

    def keyPressEvent(self, event: "QKeyEvent") -> None:
        if is_move(event):
            self._move_line(next((kind for kind, field in self.fields.items() if field is self._at), "gratitude"))
        elif is_text(event):
            # Typed at a button: it belongs to the words beside it, else where they were typed last.
            at = self.focusWidget()
            near = next((one.field for one in self.blocks.values() if at and one.isAncestorOf(at)), self._at)
            near.setFocus()
            near.keyPressEvent(event)
        else:
            super().keyPressEvent(event)

    def _write(self, act: Callable, line_id: str) -> None:
        self.desk.write(lambda store: act(store, line_id), lambda _: self.desk.changed.emit())

    def _look_for_like(self, kind: str) -> None:
        from keeper.actions.finding import Like

        if line := self.page.night.line(kind):
            self.desk.go("find", thing=Like(line))

    def _show_wordings(self, kind: str) -> None:
        from keeper.window.night.earlier_wordings import WordingsDialog

        # A draft that waits is to be among them.
        self.words.meant((self.night, kind))
        self.commit(kind)
        dialog = WordingsDialog(self.desk, self.night, self.blocks[kind].kind, self)
        if dialog.exec():
            self.fields[kind].put(dialog.chosen)
            self.commit(kind)
            self.fields[kind].setFocus()

    def _move_line(self, kind: str) -> None:
        self.commit(kind)
        night = self.night
        # The line itself is kept first, and written in its order.
        self.desk.write(lambda store: reading.one_night(store, night), lambda kept: self._ask_where(night, kind, kept.line(kind)))

    def _ask_where(self, night: date, kind: str, line: Line | None) -> None:
        from keeper.window.night.move_line import MoveLineDialog

        if line is not None:
            MoveLineDialog(self.desk, night, kind, self).exec()

    # moving

    def _move(self, kind: str, by: int) -> None:
        fields = list(self.fields.values())
        place = fields.index(self.fields[kind]) + by
        if 0 <= place < len(fields):
            fields[place].setFocus()
            self.ensureWidgetVisible(fields[place])

    def _step(self, days: int) -> None:
        self.desk.go("night", self.desk.shifted(self.night, days))
