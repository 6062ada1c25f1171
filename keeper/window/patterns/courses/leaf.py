"""A closer look: what is asked, the sentence first, the chart, and one key away the numbers and the method."""

from collections.abc import Callable, Sequence
from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QWidget

from keeper import cautions
from keeper.actions.courses import asked
from keeper.actions.courses.asked import Askable
from keeper.errors import KeeperError
from keeper.review.courses.values import Figures
from keeper.review.patterns.candidates import Candidate
from keeper.review.patterns.whole import NO_CAUSE
from keeper.window.desk.desk import Desk
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.choice import Choice
from keeper.window.parts.errand import Errand
from keeper.window.parts.flow import Flow
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import Paper, breakable, label, quiet_button, row
from keeper.window.patterns.courses.figures import FiguresTable

NUMBERS, HOW = "Alt+N", "Alt+H"
"""The keys of the table and of the method, wherever on the page one is."""


class CourseLeaf(BasicPage, AsksAgain, Paper):
    """What all closer looks have in common.

    One says what it asks (``choices``, put into a row), what it asks of a lane (``question``, None where nothing can be
    asked), and shows the answer (``show_told``). ``left`` comes when the person goes back.
    """

    left = Signal()

    title = ""
    nothing = ""
    """What is said where there is nothing to choose from."""

    goes_together = False
    """Whether it tells of two things, of which one might be taken for the cause of the other."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look, 52)
        self.desk = desk
        self.askable: Askable | None = None
        self.wanted: tuple[str, ...] = ()
        self._errand, self._asking = Errand(desk.reader), Errand(desk.reader)
        self.back = quiet_button("\u2039 patterns", self.left.emit, "Back to patterns")
        self.choices = self.make_choices()
        self.asked = Flow(desk.look, *self.choices, gap=0.8)
        self.sentence, self.more, self.doing = label("", "words"), label(), label("", "quiet", wrap=False)
        self.stop = quiet_button("Stop", self.stop_asking)
        self.charts = self.make_charts()
        self.numbers = quiet_button("Numbers", self.turn_numbers, "Numbers behind it, as a table")
        self.how = quiet_button("How this was asked", self.turn_method)
        for key, button, turn in ((NUMBERS, self.numbers, self.turn_numbers), (HOW, self.how, self.turn_method)):
            button.setToolTip(key)
            pressed = QShortcut(QKeySequence(key), self)
            pressed.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            pressed.activated.connect(turn)
        self.tables = self.make_tables()
        self.method, self.caution = label(), label("", "quiet")
        self._lay_out()
        self.lead_with(next(one for one in self.choices if isinstance(one, Choice)))
        desk.changed.connect(self.refresh)

    def wanted_at(self, place: int) -> str:
        """The key that is wanted there, or ""."""
        return self.wanted[place] if place < len(self.wanted) else ""

    # what each has of its own

    def make_choices(self) -> Sequence[QWidget]:
        """The words and choices of the question, in their order; the first that is a choice leads."""
        raise NotImplementedError

    def make_charts(self) -> Sequence[QWidget]:
        """What is drawn, from above."""
        return ()

    def make_tables(self) -> Sequence[FiguresTable]:
        """The tables of the numbers."""
        return (FiguresTable(self.desk.look, f"{self.title}, numbers"),)

    def fill(self, askable: Askable) -> bool:
        """Put into the choices what there is; whether there is enough to ask."""
        raise NotImplementedError

    def question(self) -> Callable | None:
        """``work(store, task)`` for what is chosen now."""
        raise NotImplementedError

    def show_told(self, told: object) -> None:
        """Show an answer; calls ``tell``."""
        raise NotImplementedError

    # laying out

    def _lay_out(self) -> None:
        self.body.addLayout(row(self.back, None, self.doing, self.stop))
        self.heading = label(self.title, "head")
        self.body.addWidget(self.heading)
        for part in (self.asked, self.sentence, self.more, *self.charts):
            self.body.addWidget(part)
        self.body.addLayout(row(self.numbers, self.how, None, gap=self.desk.look.px(1.2)))
        for part in (*self.tables, self.method, self.caution):
            self.body.addWidget(part)
            part.setVisible(part is self.caution)
        self.body.addStretch(1)
        self._working(False)

    def dress(self) -> None:
        super().dress()
        for table in self.tables:
            table.fit()
        for chart in self.charts:
            chart.updateGeometry()

    # asking

    def show_night(self, night: date) -> None:
        """The same on any night."""
        self.ask()

    def show_thing(self, thing: tuple[str, ...]) -> None:
        """Ask of these, by the keys of what can take part."""
        self.wanted = tuple(thing)
        self.ask()

    def ask(self) -> None:
        """Ask what there is to choose from, then what is chosen."""
        self._asking.anew(lambda store, task: asked.what_can_be_asked(store), self._fill)

    def _fill(self, askable: Askable) -> None:
        self.askable = askable
        enough = self.fill(askable)
        self.wanted = ()
        self.asked.setVisible(enough)
        self.numbers.setVisible(enough)
        self.how.setVisible(enough)
        lost = self._lead(enough)
        if lost:
            self.setFocus()
        if enough:
            self.ask_chosen()
        else:
            self._errand.stop()
            self.show_nothing(self.nothing)

    def _lead(self, enough: bool) -> bool:
        """Let the first choice lead, or the way back where there is none; whether what has the focus is seen no more."""
        self.lead_with(next(one for one in self.choices if isinstance(one, Choice)) if enough else self.back)
        has = self.window().focusWidget()
        return self.isVisible() and (has is None or (not has.isVisible() and self.isAncestorOf(has)) or has is self.window())

    def ask_chosen(self) -> None:
        """Ask what is chosen now; what was asked before is broken off."""
        if (question := self.question()) is None:
            return
        self._working(True)
        self._errand.anew(question, self._told, self._failed, self._heard)

    def stop_asking(self) -> None:
        """Break off what is under way; another choice asks again."""
        self._errand.stop()
        self._working(False)
        self.sentence.setText("Stopped. Choose something to ask again.")
        self.setFocus()

    def leave(self) -> None:
        """Nothing is worked out for a page that nobody sees."""
        self._asking.stop()
        self._errand.stop()
        self._working(False)

    def hideEvent(self, event) -> None:
        super().hideEvent(event)
        self.leave()

    def _working(self, on: bool, share: float = 0.0) -> None:
        self.doing.setText(f"Working it out, {share * 100:.0f} %" if on and share else "Working it out" if on else "")
        self.stop.setVisible(on)

    def _heard(self, share: float, words: str) -> None:
        self._working(True, share)

    def _failed(self, error: KeeperError) -> None:
        self._working(False)
        self.show_nothing(str(error))

    def _told(self, told: object) -> None:
        self._working(False)
        self.show_told(told)

    # telling

    def tell(self, sentences: Sequence[str], figures: Sequence[Figures], method: str, body: bool) -> None:
        """The first sentence large, the others below it; the caution under all."""
        self.sentence.setText(breakable(sentences[0]))
        self.more.setText(breakable(" ".join(sentences[1:])))
        self.more.setVisible(len(sentences) > 1)
        for table, one in zip(self.tables, figures, strict=True):
            table.show_figures(one)
        self.method.setText(method)
        self.caution.setText(f"{NO_CAUSE} {cautions.under(body)}" if self.goes_together else cautions.under(body))
        known = any(one.rows for one in figures)
        self.numbers.setEnabled(known)
        if not known:
            self._show(self.tables, False)

    def show_nothing(self, why: str) -> None:
        """Say why there is nothing."""
        self.sentence.setText(why)
        for part in (self.more, *self.charts, *self.tables, self.method):
            part.hide()
        self.caution.setText(cautions.LABEL)

    def turn_numbers(self) -> None:
        """Show the numbers, or hide them."""
        self._show(self.tables, not self.tables[0].isVisible() and self.numbers.isEnabled())
        if self.tables[0].isVisible():
            self.tables[0].setFocus()
            self.tables[0].setCurrentCell(0, 0)

    def turn_method(self) -> None:
        """Show how it was asked, or hide it."""
        self.method.setVisible(not self.method.isVisible() and bool(self.method.text()))

    def _show(self, parts: Sequence[QWidget], shown: bool) -> None:
        for part in parts:
            part.setVisible(shown)


def fill_choice(choice: Choice, its: Sequence[Candidate], at: int = 0, wanted: str = "") -> None:
    """Offer these; what is ``wanted`` is chosen, or what was before, while it is there, else the one ``at`` its place."""
    chosen = wanted or choice.currentData()
    choice.blockSignals(True)
    choice.clear()
    for one in its:
        choice.addItem(one.name, one.key)
    place = choice.findData(chosen) if chosen else -1
    choice.setCurrentIndex(place if place >= 0 else min(at, len(its) - 1))
    choice.blockSignals(False)


def choice_of(desk: Desk, name: str, changed: Callable[[], None]) -> Choice:
    """A choice that asks again when another is chosen."""
    made = Choice(desk.look, name)
    made.currentIndexChanged.connect(lambda _: changed())
    return made
