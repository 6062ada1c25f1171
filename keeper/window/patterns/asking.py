"""Asking what goes with what; from here the further pages are reached."""

from collections.abc import Callable, Sequence
from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal

from keeper import cautions
from keeper.actions.patterns import asking, deciding
from keeper.actions.patterns import shown as patterns
from keeper.review.patterns.whole import METHOD, NO_CAUSE, STRONGER_AT_FIRST, PatternsView, Shown
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.errand import Errand
from keeper.window.parts.flow import Flow
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import Paper, label, quiet_button, row
from keeper.window.patterns.due import DueRows
from keeper.window.patterns.row import RowAct
from keeper.window.patterns.rows import FoldedRows, PatternRows
from keeper.window.patterns.work import PatternWork

if TYPE_CHECKING:
    from keeper.window.patterns.page import Further

EYE = f"Tell me when {deciding.MORE_NIGHTS} nights more are in"


class AskingPage(BasicPage, AsksAgain, Paper):
    """What goes with what; ``further_wanted`` comes with the name of a further page, and perhaps what it is to show."""

    further_wanted = Signal(str, object)

    def __init__(self, desk: Desk, further: Sequence["Further"]) -> None:
        super().__init__(desk.look, ems=46)
        self.desk = desk
        self.view: PatternsView | None = None
        self._then_leads = False
        self.work = PatternWork(desk, self)
        self._errand = Errand(desk.reader)
        self.ways = [quiet_button(f"{one.title} \u203a", lambda name=one.name: self.further_wanted.emit(name, None), one.title) for one in further]
        self._make()
        self._lay_out()
        self.work.moved.connect(self._show_work)
        self.work.told.connect(self._on_told)
        desk.changed.connect(self.refresh)
        self.lead_with(self.choose)
        self._show_work("", 0.0)

    def _make(self) -> None:
        self.standing, self.taking, self.doing = label("", "words"), label("", "quiet"), label("", "quiet", wrap=False)
        self.choose = quiet_button("Choose what takes part\u2026", self._choose)
        self.again = quiet_button("Ask", self.work.ask, "Ask all questions")
        self.stop = quiet_button("Stop", self.work.stop, "Stop asking")
        self.due = DueRows(self.desk, self._keep_eye, self._no_eye)
        self.told = PatternRows(self.desk)
        self.told.seen.connect(lambda one: self.ensureWidgetVisible(one, 0, self.desk.look.px(2)))
        self.first = label(STRONGER_AT_FIRST, "quiet")
        self.moved = FoldedRows(self.desk, "Moved by season or weekday only")
        self.away = FoldedRows(self.desk, "Put away")
        self.how = quiet_button("How this was asked \u203a", self._toggle_method, "How this was asked")
        self.method = [label("", "quiet") for _ in range(2 + len(METHOD))]
        self.caution = label("", "quiet")

    def _lay_out(self) -> None:
        px, body = self.desk.look.px, self.body
        body.addWidget(label("Patterns", "head"))
        if self.ways:
            body.addWidget(Flow(self.desk.look, *self.ways, gap=1.2))
        body.addWidget(self.standing)
        body.addWidget(self.taking)
        body.addWidget(Flow(self.desk.look, self.choose, self.again, self.how, gap=1.2))
        body.addLayout(row(self.doing, self.stop, None, gap=px(1)))
        for part in self.method:
            part.hide()
            body.addWidget(part)
        body.addWidget(self.due)
        body.addSpacing(px(0.6))
        for part in (self.told, self.first, self.moved, self.away):
            body.addWidget(part)
        body.addSpacing(px(0.6))
        body.addWidget(label(NO_CAUSE, "quiet"))
        body.addWidget(self.caution)
        body.addStretch(1)

    def dress(self) -> None:
        """Take up the palette and sizes in force."""
        self.fit()
        self.told.update()

    # asking and telling

    def show_night(self, night: date) -> None:
        """The same on any night; what was told is looked at again where anything changed since."""
        self.ask()
        if self.view is None or self.view.asked:
            self._look_again()

    def _look_again(self) -> None:
        if not self.work.running and not self.desk.store.only_read:
            self.desk.reader.run(lambda store, task: asking.last_asking(store) is not None,
                                 lambda asked: asked and not self.work.running and self.work.ask(of_itself=True))  # fmt: skip

    def ask(self) -> None:
        """Ask for what is shown."""
        self._errand.anew(lambda store, task: patterns.patterns_view(store), self._show)

    def _on_told(self) -> None:
        # Who asked reads on at the first answer.
        self._then_leads = self.window().focusWidget() is self.again
        self.ask()

    def _show(self, view: PatternsView) -> None:
        first, self.view = self.view is None, view
        self.standing.setText(view.standing)
        self.taking.setText(_taking(view))
        self.again.setText("Ask again" if view.asked else "Ask")
        self.due.show_due(view.due)
        self.told.show_patterns(view.told, self._acts())
        self.first.setVisible(bool(view.told))
        self.moved.show_patterns(view.moved, (self._away_act(),), view.moved_of)
        self.away.show_patterns(view.put_away, (RowAct("Bring back", self._bring_back, Qt.Key.Key_Delete, "Delete"),))
        for part, words in zip(self.method, (*view.was, *[""] * (2 - len(view.was)), *METHOD), strict=True):
            part.setText(words)
        self.caution.setText(cautions.under(view.of_the_body))
        leads = self.told.rows[0].sentence if self.told.rows else self.again if not view.asked else self.choose
        self.lead_with(leads)
        has = self.window().focusWidget()
        if self.isVisible() and ((first and has in (None, self, self.choose)) or (self._then_leads and has is self.again)):
            leads.setFocus()
        self._then_leads = False

    def _acts(self) -> tuple[RowAct, ...]:
        return (
            RowAct(EYE, self._watch, Qt.Key.Key_E, "E", "Keep no eye on it"),
            RowAct("Note on the month", self._note, Qt.Key.Key_N, "N"),
            self._away_act(),
        )

    def _away_act(self) -> RowAct:
        return RowAct("Put away", self._put_away, Qt.Key.Key_Delete, "Delete")

    def _show_work(self, what: str, share: float) -> None:
        held = self.window().focusWidget() in (self.again, self.stop)
        doing = f": {what}" if what != "asking" else ""
        told = f"Asking{doing}, {wording.percent(share)}." if what and what != "waiting" else "Asking\u2026"
        self.doing.setText(told if what else "")
        self.doing.setVisible(bool(what))
        self.stop.setVisible(bool(what))
        self.again.setEnabled(not what)
        if held and self.isVisible():
            (self.stop if what else self.again).setFocus()

    def _toggle_method(self) -> None:
        shown = self.method[-1].isHidden()
        for part in self.method:
            part.setVisible(shown and bool(part.text()))
        self.how.setText(f"How this was asked {'‹' if shown else '›'}")

    # doing

    def _choose(self) -> None:
        from keeper.actions.patterns.columns import candidates
        from keeper.window.patterns.picking import PickingDialog

        known, taking = candidates(self.desk.store), asking.taking_part(self.desk.store)
        dialog = PickingDialog(self.desk, known, taking, self)
        if dialog.exec() and (keys := dialog.keys()):
            self._do(lambda store: asking.pick(store, keys), then=self.work.ask)
        dialog.deleteLater()

    def _watch(self, one: Shown) -> None:
        tonight, question = self.desk.tonight(), one.told.question
        if one.watched:
            self._no_eye(question)
        else:
            self._do(lambda store: deciding.watch(store, question, one.sentence, tonight), "It is told when the nights are in.")

    def _keep_eye(self, question: tuple[str, str, int], sentence: str) -> None:
        tonight = self.desk.tonight()
        self._do(lambda store: deciding.watch(store, question, sentence, tonight))

    def _no_eye(self, question: tuple[str, str, int]) -> None:
        self._do(lambda store: deciding.watch_no_more(store, question), "No eye is kept on it.")

    def _put_away(self, one: Shown) -> None:
        self._do(lambda store: deciding.put_away(store, one.told.question, one.sentence), "Put away; it stands below.")

    def _bring_back(self, one: Shown) -> None:
        self._do(lambda store: deciding.bring_back(store, one.told.question, one.sentence))

    def _note(self, one: Shown) -> None:
        month = self.desk.tonight()
        said = f"Noted on {wording.month_and_year(month)}."
        self._do(lambda store: deciding.note_on_month(store, month, one.sentence), said)

    def _do(self, act: Callable, said: str = "", then: Callable[[], object] = lambda: None) -> None:
        def on_done(_: object) -> None:
            self.desk.changed.emit()
            if said:
                self.desk.said.emit(said)
            then()

        self.desk.write(act, on_done)


def _taking(view: PatternsView) -> str:
    names = [one.name for one in view.taking]
    told = ", ".join(names[:12]) + (f" and {wording.number(len(names) - 12)} more" if len(names) > 12 else "")
    if not names:
        return "Nothing takes part yet: readings come first."
    return f"Taking part: {told}. That is {wording.counted(view.questions, 'question')} at most; fewer is better."


