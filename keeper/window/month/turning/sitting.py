"""Turning the month: a short sitting in five steps, each kept at once, left and taken up at any point."""

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from keeper.actions.months import shown as months
from keeper.days import first_of_month, next_month
from keeper.review.month import MonthView
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.month import wording as month_wording
from keeper.window.month.goals import GoalsBox
from keeper.window.month.nights import NightColumn
from keeper.window.month.photo import PhotoBox
from keeper.window.month.photo_choosing import PhotoChooser
from keeper.window.month.turning.question_shelf import QuestionShelf
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.errand import Errand
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import Paper, headed, label, quiet_button
from keeper.window.parts.typing.anywhere import TypedAnywhere
from keeper.window.parts.typing.month_words import MonthWordsBox

STEPS = ("look back", "photo", "goals", "question", "next goals")
DONE = "done"


def reached(kept: str, month: date) -> str:
    """The step at which the sitting with a month was left; "" when it was not begun."""
    spelt, _, step = kept.partition(" ")
    return step if spelt == month.isoformat()[:7] and step in (*STEPS, DONE) else ""


class TurnSitting(TypedAnywhere, AsksAgain, BasicPage, Paper):
    """The sitting. ``left`` comes when it is left or done."""

    left = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look)
        self.desk = desk
        self.month: date = first_of_month(desk.tonight())
        self.step = STEPS[0]
        self.view: MonthView | None = None
        self._errand = Errand(desk.reader)
        self.heading, self.where, self.told = label("", "head"), label("", "quiet"), label("")
        self.away = quiet_button("Not now", self._leave, "Not now: the sitting can be taken up again")
        self.earlier = quiet_button("\u2039 Back", lambda: self._go(-1), "Back to the step before")
        self.onward = quiet_button("", lambda: self._go(1), "The next step")
        self.stack = QStackedWidget()
        self._makers: dict[str, Callable[[], QWidget]] = {
            "look back": self._make_look_back, "photo": self._make_photo, "goals": self._make_goals,
            "question": self._make_question, "next goals": self._make_next_goals,
        }  # fmt: skip
        self.parts: dict[str, QWidget] = {}
        self.body.addLayout(headed(self.heading, self.earlier, self.onward))
        self.body.addLayout(headed(self.where, self.away))
        self.body.addWidget(self.told)
        self.body.addWidget(self.stack)
        self.body.addStretch(1)
        self.listen()
        desk.changed.connect(self.refresh)
        desk.dressed.connect(self.fit)

    # the steps

    def _column(self, *parts: QWidget) -> QWidget:
        made = QWidget()
        layout = QVBoxLayout(made)
        layout.setContentsMargins(0, self.desk.look.px(0.6), 0, self.desk.look.px(0.6))
        layout.setSpacing(self.desk.look.px(0.4))
        for part in parts:
            layout.addWidget(part)
        layout.addStretch(1)
        return made

    def _make_look_back(self) -> QWidget:
        self.nights, self.words = NightColumn(self.desk), MonthWordsBox(self.desk)
        self.nights.moved_to.connect(lambda area: self.ensureVisible(
            0, self.nights.mapTo(self.widget(), area.center()).y(), 0, area.height()))  # fmt: skip
        made = self._column(self.nights, self.words)
        self.words.dress()
        return made

    def _make_photo(self) -> QWidget:
        self.photo, self.chooser = PhotoBox(self.desk, tallest=20), PhotoChooser(self.desk)
        self.photo_words = MonthWordsBox(self.desk)
        made = self._column(self.photo, self.chooser, self.photo_words)
        self.photo_words.dress()
        return made

    def _make_goals(self) -> QWidget:
        self.goals, self.goals_rest = GoalsBox(self.desk), label("", "quiet")
        return self._column(self.goals, self.goals_rest)

    def _make_question(self) -> QWidget:
        self.shelf = QuestionShelf(self.desk)
        return self._column(self.shelf)

    def _make_next_goals(self) -> QWidget:
        self.next_goals = GoalsBox(self.desk)
        return self._column(self.next_goals)

    # going through

    def begin(self, month: date) -> None:
        """Sit down with a month: at the step where it was left, else at the first."""
        self.month = first_of_month(month)
        at = reached(self.desk.kept.get("turn", ""), self.month)
        self.show_step(at if at in STEPS else STEPS[0])

    def show_step(self, step: str) -> None:
        """Go to a step, and remember it."""
        self.step = step
        self.depart()
        if step not in self.parts:
            self.parts[step] = self._makers[step]()
            self.stack.addWidget(self.parts[step])
        self.stack.setCurrentWidget(self.parts[step])
        # As tall as the step shown, not as the tallest.
        for part in self.parts.values():
            shown = QWidget.sizePolicy(part)
            shown.setVerticalPolicy(shown.Policy.Preferred if part is self.parts[step] else shown.Policy.Ignored)
            part.setSizePolicy(shown)
        self._say()
        self.verticalScrollBar().setValue(0)
        self._remember(step)
        self.ask()

    def _say(self) -> None:
        at, gone, coming = STEPS.index(self.step), wording.month_and_year(self.month), self._next_name()
        self.heading.setText(f"Turning {gone}")
        self.where.setText(f"{at + 1} of {len(STEPS)}")
        self.told.setText({
            "look back": f"The nights of {gone}. Read where you like.",
            "photo": f"One photo for {gone}.",
            "goals": f"What became of {gone}\u2019s goals? One that goes on appears in {coming} too.",
            "question": f"What will you ask yourself in {coming}?",
            "next goals": f"What is {coming} for? A goal or two, or none.",
        }[self.step])  # fmt: skip
        self.earlier.setVisible(at > 0)
        last = at == len(STEPS) - 1
        self.onward.setText("Done" if last else "Next \u203a")
        self.onward.setAccessibleName("Done" if last else "Next step")

    def _next_name(self) -> str:
        return wording.month_and_year(next_month(self.month))

    def _go(self, by: int) -> None:
        self.keep()
        at = STEPS.index(self.step) + by
        if at < len(STEPS):
            self.show_step(STEPS[max(0, at)])
            return
        self._remember(DONE)
        self.left.emit()

    def _leave(self) -> None:
        self.keep()
        self.left.emit()

    def keep(self) -> None:
        """Keep what is being typed."""
        kept = {"look back": "words", "photo": "photo_words", "goals": "goals", "question": "shelf", "next goals": "next_goals"}
        for step, part in kept.items():
            if step in self.parts:
                getattr(self, part).keep()

    def _remember(self, step: str) -> None:
        spelt = f"{self.month.isoformat()[:7]} {step}"
        if self.desk.kept.get("turn") != spelt:
            self.desk.change_setting("turn", spelt)
            # For the offer on the page of the night.
            self.desk.changed.emit()

    # asking and showing

    def ask(self) -> None:
        """Ask for what is shown."""
        # The last two steps are about the month that comes.
        month = next_month(self.month) if self.step in STEPS[3:] else self.month
        self._errand.anew(
            lambda store, task: months.plain_pages(store, [month])[0], lambda view: self._show(self.step, view)
        )

    def _show(self, step: str, view: MonthView) -> None:
        self.view = view
        if step == "look back":
            self.where.setText(" \u00b7 ".join(filter(None, (f"1 of {len(STEPS)}", month_wording.held(view)))))
            self.nights.show_nights(view.nights)
            self._show_words(self.words, view)
        elif step == "photo":
            self.photo.show_photo(view.photo)
            self.chooser.show_month(view.month, view.page.photo_id)
            self._show_words(self.photo_words, view)
        elif step == "question":
            self.shelf.show_month(view.month, view.page.question)
            if "question" in view.rests:
                self.told.setText(f"A question is set for {self._next_name()}, and rests. Another takes its place.")
        elif step == "goals":
            self._show_outcomes(view)
        else:
            self.next_goals.show_goals(view.month, view.page.goals)
        self.arrive()

    def _show_words(self, box: MonthWordsBox, view: MonthView) -> None:
        box.show_words(view.month, view.page.words)
        # What is held back must not be typed over unseen.
        box.setVisible("words" not in view.rests)

    def _show_outcomes(self, view: MonthView) -> None:
        self.goals.show_goals(view.month, view.page.goals)
        for made in self.goals.rows:
            made.word.show()
        self.goals_rest.setText("Some of its goals rest." if "goals" in view.rests else "")
        self.goals_rest.setVisible(bool(self.goals_rest.text()))
        if not (view.page.goals or "goals" in view.rests):
            self.told.setText(f"No goals were set for {wording.month_and_year(view.month)}.")

    def field_of_step(self) -> QWidget | None:
        """Where words typed anywhere in the step go; None while it is not there."""
        if self.step not in self.parts or self.view is None:
            return None
        goals = [made.word for made in self.goals.rows] if self.step == "goals" else []
        fields = {"look back": lambda: self.words.field, "photo": lambda: self.photo_words.field,
                  "goals": lambda: next(iter(goals), self.goals.more), "question": lambda: self.shelf.own,
                  "next goals": lambda: self.next_goals.more}  # fmt: skip
        field = fields[self.step]()
        return None if field.isHidden() or field.parentWidget().isHidden() else field
