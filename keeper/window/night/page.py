"""The page of a night: write a line, say where, go on to other nights."""

from collections.abc import Iterable
from datetime import date
from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from keeper.actions import reading, writing
from keeper.actions.reading import BEGUN_WITH
from keeper.errors import KeeperError
from keeper.model import QUESTION_KIND, LineKind, Moment
from keeper.review.night import NightPage
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.night.head import NightHead
from keeper.window.night.kinds import KindBlock, KindBlocks
from keeper.window.night.line_acts import LineActs
from keeper.window.night.line_buttons import REST
from keeper.window.night.line_keeping import LineKeeping
from keeper.window.night.other_nights import OtherNights
from keeper.window.parts.kept_room import KeptRoom
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import Paper, emptied
from keeper.window.parts.typing.field import Field
from keeper.window.parts.typing.question import QuestionRow
from keeper.window.parts.typing.undo_keys import is_later, is_move, is_text

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent

    class Hung(QWidget):
        """The photos of the night shown."""

        def keep(self) -> None:
            """Keep what is being typed."""

        def set_tab_order(self) -> None:
            """Take up the places that are the photos' among the texts and buttons of the night."""

    from keeper.window.night.readings.row import ReadingsRow


class NightPageView(BasicPage, Paper):
    """Tonight, or any other night.

    ``night_changed`` comes when another night is shown, ``changed_in_sight`` when something kept changed while the page is
    seen: behind another page all of it is asked for when the night is shown again.
    """

    night_changed = Signal(object)
    changed_in_sight = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look)
        self.desk = desk
        self.night: date = desk.tonight()
        self.page: NightPage | None = None
        self.lines = LineKeeping(desk, self)
        self.words = self.lines.words
        self._both_ways = self._clock_read = False
        self.acts = LineActs(self)
        self._at: Field | None = None
        self._build()
        self.lines.failed.connect(lambda key: self._say_state(key[1]))
        desk.changed.connect(self._on_changed)

    def _build(self) -> None:
        self.head = NightHead(self.desk, self)
        self.heading, self.before, self.after, self.when = self.head.heading, self.head.before, self.head.after, self.head.when
        self.place, self.place_said, self.place_words, self.also = self.head.place, self.head.place_said, self.head.place_words, self.head.also
        self.place.settled.connect(lambda: self._leading.setFocus())
        self.place_words.failed.connect(self.refresh)
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
        self.others = OtherNights(self.desk, self)
        self.open_nights, self.on_this_day = self.others.still_open, self.others.on_this_day
        self.look_back = self.others.look_back
        self._lay_out()
        # Where nothing can be read there is somewhere to write.
        self._show_kinds(BEGUN_WITH)

    def _lay_out(self) -> None:
        add = self.body
        self.head.lay_into(add)
        add.addWidget(self.kinds)
        add.addLayout(self.readings_room)
        # As tall as it was, so that nothing moves when the readings come.
        room = self.desk.kept.get("readings_room", "")
        self.readings_room.addSpacing(self.desk.look.px(int(room) / 10 + 0.6) if room.isdecimal() else 0)
        add.addLayout(self.photo_room)
        add.addSpacing(self.desk.look.px(1))
        self.others.lay_into(add)
        add.addStretch(1)

    def _order(self) -> None:
        # From text to text; what is pressed comes after.
        texts = [self.place, *self.fields.values()]
        if answer := self.fields.get(QUESTION_KIND):
            texts.insert(texts.index(answer), self.question.edit)
        pressed = [self.before, self.after, self.question.change]
        for block in self.blocks.values():
            pressed += block.buttons.all_made()
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
        self.acts.connect_block(kind, block)

    def dress(self) -> None:
        """Take up the typefaces and sizes in force."""
        self.fit()
        self.head.fit()
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

    def offer(self, button: QWidget) -> None:
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

    def _on_changed(self) -> None:
        self.refresh()
        if not self.isHidden():
            self.changed_in_sight.emit()

    def refresh(self) -> None:
        """Ask again what is kept of this night; behind another page not before ``show_night``, as that asks at each visit."""
        # Each cell kept on the sheet would else wait for it, and for all that hangs on this page.
        if self.page is not None and not self.isHidden():
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
        self.head.show_page(page)
        self.question.show_question(night, page.question)
        before = () if another else tuple(self.fields)
        self._show_kinds(self._kinds_of(page, anew))
        fresh = [self._show_kind(page, kind, kind not in before) for kind in self.fields]
        if any(fresh):
            self._order()
        self.photo_room.keep_for(page.night.photo_count)
        self.others.show_page(page)
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

    def _ask(self, question: str) -> None:
        self.kinds.every[QUESTION_KIND].ask(question)

    def _show_kind(self, page: NightPage, kind: str, another: bool) -> bool:
        """Show a kind's line; whether it has a button that it had not before."""
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
        here = line is not None
        new = block.buttons.show(earlier=kind in page.reworded, move=here, like=here, rest=here, later=here and self.night < self.desk.tonight())
        if here:
            block.buttons.button(REST).setText("Wake" if line.resting else "Let rest")
        block.show_later(line)
        self._say_state(kind)
        return new

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
        if self.blocks[kind].buttons.show(kept=state == "found" and line is not None):
            self._order()

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
        if is_move(event) or is_later(event):
            kind = next((kind for kind, field in self.fields.items() if field is self._at), "gratitude")
            (self.acts.move_line if is_move(event) else self.acts.add_later_word)(kind)
        elif is_text(event):
            # Typed at a button: it belongs to the words beside it, else where they were typed last.
            at = self.focusWidget()
            near = next((one.field for one in self.blocks.values() if at and one.isAncestorOf(at)), self._at)
            near.setFocus()
            near.keyPressEvent(event)
        else:
            super().keyPressEvent(event)

    # moving

    def _move(self, kind: str, by: int) -> None:
        fields = list(self.fields.values())
        place = fields.index(self.fields[kind]) + by
        if 0 <= place < len(fields):
            fields[place].setFocus()
            self.ensureWidgetVisible(fields[place])
