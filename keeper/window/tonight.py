"""The page of a night: write a line, say where, go on to other nights."""

from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtGui import QTextDocument
from PySide6.QtWidgets import QHBoxLayout, QPlainTextDocumentLayout, QVBoxLayout, QWidget

from keeper.actions import reading, writing
from keeper.errors import KeeperError, UnreadableText
from keeper.model import KINDS
from keeper.review.night import NightPage
from keeper.window import wording
from keeper.window.desk import Desk
from keeper.window.early import FOCUS_BY_TAB, setting
from keeper.window.field import Field
from keeper.window.kept_room import KeptRoom
from keeper.window.leading import Leading
from keeper.window.parts import Paper, emptied, headed, label, quiet_button, row, rule
from keeper.window.place_field import PlaceField
from keeper.window.question import QuestionRow

REMEMBERED = 60
"""For how many fields, left behind, what was typed can still be undone."""

YEARS_NAMED = 6


class KindBlock(QWidget):
    """One kind's heading, field and what can be done with its line."""

    def __init__(self, desk: Desk, kind: str) -> None:
        super().__init__()
        self.kind = kind
        self.title = label(wording.KIND_NAMES[kind], "quiet", wrap=False)
        self.state = label("", "quiet", wrap=False)
        self.field = Field()
        self.field.setAccessibleName(wording.KIND_NAMES[kind])
        self.field.setPlaceholderText(wording.PLACEHOLDERS[kind])
        self.earlier = quiet_button("Earlier wordings", lambda: None, f"Earlier wordings of {kind}")
        self.rest = quiet_button("Let rest", lambda: None, f"Let the {kind} rest")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, desk.look.px(0.6), 0, 0)
        layout.setSpacing(2)
        layout.addLayout(row(self.title, self.state, None, self.earlier, self.rest, gap=desk.look.px(0.8)))
        layout.addWidget(self.field)
        layout.addWidget(rule())


class NightPageView(Leading, Paper):
    """Tonight, or any other night.

    ``night_changed`` comes when another night is shown.
    """

    night_changed = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look)
        self.desk = desk
        self.night: date = desk.tonight()
        self.page: NightPage | None = None
        self._documents: dict[tuple[date, str], QTextDocument] = {}
        self._kept: dict[tuple[date, str], str] = {}
        self._sent: dict[tuple[date, str], str] = {}
        self._drafted: set[tuple[date, str]] = set()
        self.failing: dict[tuple[date, str], str] = {}
        self._both_ways = False
        self._build()
        self.dress()
        desk.changed.connect(self.refresh)
        desk.dressed.connect(self.dress)

    def _build(self) -> None:
        self.heading = label("", "head")
        self.before = quiet_button("\u2039 earlier", lambda: self._step(-1), "The night before")
        self.after = quiet_button("later \u203a", lambda: self._step(1), "The night after")
        self.when = label("", "quiet")
        self.place = PlaceField(lambda: reading.known_places(self.desk.store), self._towns)
        self.place.chosen.connect(self._set_place)
        self.place.refused.connect(self.desk.said)
        self.place.settled.connect(lambda: self.fields["gratitude"].setFocus())
        self.place_said = label("", "quiet", wrap=False)
        self.question = QuestionRow(self.desk)
        self.blocks = {kind: KindBlock(self.desk, kind) for kind in KINDS}
        self.fields = {kind: block.field for kind, block in self.blocks.items()}
        self.photos = None
        self.photo_room = KeptRoom(self.desk.look)
        self.open_nights = QHBoxLayout()
        self.open_nights.setContentsMargins(0, 0, 0, 0)
        self.on_this_day = quiet_button("", lambda: self.desk.go("looking back", self.night))
        self.on_this_day.hide()
        self._lay_out()
        for kind, block in self.blocks.items():
            self._connect(kind, block)

    def _lay_out(self) -> None:
        add = self.body
        for button in (self.before, self.after):
            setting(button, FOCUS_BY_TAB)
        add.addLayout(headed(self.heading, self.before, self.after))
        add.addWidget(self.when)
        at = label("At", "quiet", wrap=False)
        at.setBuddy(self.place)
        add.addLayout(row(at, self.place, self.place_said, None))
        for kind, block in self.blocks.items():
            if kind == "reflection":
                add.addWidget(self.question)
            add.addWidget(block)
        add.addLayout(self.photo_room)
        add.addSpacing(self.desk.look.px(1))
        add.addLayout(self.open_nights)
        add.addWidget(self.on_this_day)
        add.addStretch(1)
        self.lead_with(self.fields["gratitude"])

    def _connect(self, kind: str, block: KindBlock) -> None:
        field = block.field
        field.left.connect(lambda: self.commit(kind))
        field.paused.connect(lambda: self._draft(kind))
        field.onward.connect(lambda: self._move(kind, 1))
        field.back.connect(lambda: self._move(kind, -1))
        field.mended.connect(lambda: self.desk.said.emit("Some of what came in was no text, and was left out."))
        field.textChanged.connect(lambda: self._say_state(kind))
        block.earlier.clicked.connect(lambda: self._show_wordings(kind))
        block.rest.clicked.connect(lambda: self._rest_or_wake(kind))

    def dress(self) -> None:
        """Take up the typefaces and sizes in force."""
        look = self.desk.look
        self.fit()
        self.place.setMinimumWidth(look.px(14))
        for field in self.fields.values():
            field.ensurePolished()
            for document in (field.document(), *self._documents.values()):
                document.setDefaultFont(field.font())
            field.fit()

    def read_both_ways(self) -> None:
        """From now on, right-to-left words set themselves from the right."""
        self._both_ways = True
        for field in self.fields.values():
            field.read_both_ways()

    def add_photos(self) -> None:
        """Bring in the night's photos, once one can type."""
        if self.photos or not self.window().isVisible():
            return
        from keeper.window.photo_strip import PhotoStrip

        self.photos = PhotoStrip(self)
        self.photo_room.addWidget(self.photos)

    # showing

    def show_night(self, night: date) -> None:
        """Keep what is being written, then show another night."""
        if self.page is not None:
            self.commit_all()
        self.night = night
        self._load()
        self.night_changed.emit(night)

    def refresh(self) -> None:
        """Ask again what is kept of this night."""
        if self.page is not None:
            self._load()

    def _load(self) -> None:
        try:
            page = reading.night_page(self.desk.store, self.night, self.desk.tonight())
        except KeeperError as error:
            self.desk.said.emit(str(error))
            return
        another = self.page is None or self.page.night.date != page.night.date
        self.page = page
        self._show_head(page)
        self.question.show_question(self.night, page.question)
        for kind in KINDS:
            self._show_kind(page, kind, another)
        self.photo_room.keep_for(page.night.photo_count)
        self._show_open_nights(page)
        self.look_back()

    def _show_head(self, page: NightPage) -> None:
        tonight = self.desk.tonight()
        self.heading.setText(wording.long_date(self.night))
        self.after.setEnabled(self.night < tonight)
        now = self.desk.clock.now()
        if self.night != tonight:
            self.when.setText(wording.how_long_ago(self.night, tonight).capitalize())
        elif now.date() != tonight:
            self.when.setText(f"Past midnight, and still this night. It ends at {self.desk.rollover()}:00.")
        else:
            self.when.setText("Tonight")
        place = page.night.place or page.carried
        self.place.show_place(place.name if place else "")
        carried = place and (page.carried or page.night.place_source == "carried")
        self.place_said.setText("carried on" if carried else "")

    def _show_kind(self, page: NightPage, kind: str, another: bool) -> None:
        key, line = (self.night, kind), page.night.line(kind)
        block, field = self.blocks[kind], self.fields[kind]
        was = self._kept.get(key)
        self._kept[key] = line.text if line else ""
        if another:
            self._hand_document(key, field)
        untouched = field.toPlainText().strip() in (was, "") if was is not None else not field.toPlainText()
        draft = next((d.text for d in page.drafts if d.kind == kind), None)
        if another and draft is not None and field.toPlainText() != draft and untouched:
            field.put(draft)
        elif untouched and key not in self._sent and draft is None:
            field.put(self._kept[key])
        block.earlier.setVisible(kind in page.reworded)
        block.rest.setVisible(line is not None)
        block.rest.setText("Wake" if line and line.resting else "Let rest")
        self._say_state(kind)

    def _hand_document(self, key: tuple[date, str], field: Field) -> None:
        # Each night's field has a document of its own that outlives the visit,
        # so that undo reaches back across a save and across nights.
        document = self._documents.pop(key, None)
        if document is None:
            document = QTextDocument(self)
            document.setDocumentLayout(QPlainTextDocumentLayout(document))
            document.setDefaultFont(field.font())
            document.setPlainText(self._kept[key])
        self._documents[key] = document
        field.setDocument(document)
        field.follow_document()
        if self._both_ways:
            field.read_both_ways()
        field.moveCursor(field.textCursor().MoveOperation.End)
        field.settle()
        while len(self._documents) > REMEMBERED:
            self._documents.pop(next(iter(self._documents)))

    def _show_open_nights(self, page: NightPage) -> None:
        emptied(self.open_nights)
        nights = [night for night in page.still_open if night != self.night]
        if not nights:
            return
        self.open_nights.addWidget(label("Still open:", "quiet", wrap=False))
        for night in nights:
            name = wording.weekday_and_day(night)
            button = quiet_button(name, lambda night=night: self.desk.go("night", night), f"Open the night of {name}")
            self.open_nights.addWidget(button)
        self.open_nights.addStretch(1)

    def look_back(self) -> None:
        """Ask whether other years hold something of this day."""
        from keeper.actions.remembering import looking_back

        night = self.night
        self.desk.reader.run(
            lambda store, task: looking_back(store, night), lambda found: self._show_looking_back(found)
        )

    def _show_looking_back(self, found) -> None:
        if found.night != self.night:
            return
        years = [str(night.date.year) for night in found.nights] if found.on_the_day else []
        more = f" and {len(years) - YEARS_NAMED} more" if len(years) > YEARS_NAMED else ""
        self.on_this_day.setText("This day in other years: " + " \u00b7 ".join(years[:YEARS_NAMED]) + more)
        self.on_this_day.setVisible(bool(years))

    def _say_state(self, kind: str) -> None:
        key, text = (self.night, kind), self.fields[kind].toPlainText().strip()
        kept = self._kept.get(key, "")
        line = self.page.night.line(kind) if self.page else None
        resting = " \u00b7 resting" if line and line.resting else ""
        if key in self.failing:
            said = "not kept yet"
        elif text != kept:
            said = "\u2026"
        else:
            said = "kept" + resting if kept else ""
        self.blocks[kind].state.setText(said)

    # writing

    def commit(self, kind: str) -> None:
        """Keep a field's line; on disk when its state says kept."""
        key = (self.night, kind)
        field = self.fields[kind]
        field.settle()
        text = writing.readable(field.toPlainText()).strip()
        if text == self._sent.get(key, self._kept.get(key, "")):
            self._drop_draft(key)
            return
        self._sent[key] = text
        self._drafted.discard(key)
        self.desk.write(
            lambda store: writing.write_line(store, *key, text, self.desk.clock),
            lambda line: self._on_kept(key, text),
            lambda error: self._on_failed(key, text, error),
        )

    def commit_all(self) -> None:
        """Keep every field of the night shown."""
        self.place.settle()
        for kind in KINDS:
            self.commit(kind)
        if self.photos:
            self.photos.commit()

    def unkept(self) -> dict[tuple[date, str], str]:
        """What is typed but not on disk, by night and kind."""
        waiting = {**self.failing, **self._sent}
        for kind, field in self.fields.items():
            text = field.toPlainText().strip()
            if self.page is not None and text != self._kept.get((self.night, kind), ""):
                waiting[(self.night, kind)] = text
        return {key: text for key, text in waiting.items() if text}

    def _draft(self, kind: str) -> None:
        key, text = (self.night, kind), self.fields[kind].toPlainText()
        if text.strip() == self._kept.get(key, ""):
            self._drop_draft(key)
            return
        self._drafted.add(key)
        self.desk.write(lambda store: writing.keep_draft(store, *key, text, self.desk.clock))

    def _drop_draft(self, key: tuple[date, str]) -> None:
        if key in self._drafted:
            self._drafted.discard(key)
            self.desk.write(lambda store: writing.drop_draft(store, *key))

    def _on_kept(self, key: tuple[date, str], text: str) -> None:
        self._kept[key] = text
        self.failing.pop(key, None)
        if self._sent.get(key) == text:
            del self._sent[key]
        self.desk.changed.emit()

    def _on_failed(self, key: tuple[date, str], text: str, error: KeeperError) -> None:
        self._sent.pop(key, None)
        self.failing[key] = text
        if isinstance(error, UnreadableText):
            self._drafted.add(key)
            self.desk.write(lambda store: writing.keep_draft(store, *key, text, self.desk.clock))
        self.desk.said.emit(str(error))
        if key[0] == self.night:
            self._say_state(key[1])

    def _towns(self):
        from keeper.window.town_search import TownSearch

        return TownSearch(self.desk)

    def _set_place(self, chosen) -> None:
        night = self.night

        def write(store):
            # On the writer's lane, since it brings the gazetteer along.
            from keeper.actions.towns import set_where

            return set_where(store, night, chosen, self.desk.clock)

        self.desk.write(write, lambda place: self.desk.changed.emit())

    def _rest_or_wake(self, kind: str) -> None:
        line = self.page.night.line(kind) if self.page else None
        if line is None:
            return
        act = writing.wake_line if line.resting else writing.rest_line
        self.desk.write(lambda store: act(store, line.id), lambda _: self.desk.changed.emit())

    def _show_wordings(self, kind: str) -> None:
        from keeper.window.wordings import WordingsDialog

        self.commit(kind)
        dialog = WordingsDialog(self.desk, self.night, kind, self)
        if dialog.exec():
            self.fields[kind].put(dialog.chosen)
            self.commit(kind)
            self.fields[kind].setFocus()

    # moving

    def _move(self, kind: str, by: int) -> None:
        place = KINDS.index(kind) + by
        if 0 <= place < len(KINDS):
            self.fields[KINDS[place]].setFocus()
            self.ensureWidgetVisible(self.fields[KINDS[place]])

    def _step(self, days: int) -> None:
        self.desk.go("night", self.desk.shifted(self.night, days))
