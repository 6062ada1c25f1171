"""Whether the keeper is what was written, and mending it when it is not."""

from datetime import date

from keeper.actions.damage import checking
from keeper.window.desk.desk import Desk
from keeper.window.mending.view import MendingView
from keeper.window.parts.errand import Errand
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import Paper, label, plain_button, row

WELL = "Nothing is known to be wrong with this keeper. It is looked over at each opening, and all of it once a week."


class MendingPage(BasicPage, Paper):
    """For a keeper that is well a way to look it over; for a broken one what can be saved of it."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look)
        self._desk = desk
        self._errand = Errand(desk.worker)
        self.told = label("", "quiet")
        self.look_over = plain_button("Look over all of it now", self._look_over)
        self.view = MendingView(desk.look, desk.folder, desk.worker, desk.mended.emit)
        self.body.addWidget(label("Mending", "head"))
        self.body.addSpacing(desk.look.px(0.6))
        self.body.addWidget(self.told)
        self.body.addLayout(row(self.look_over, None))
        self.body.addWidget(self.view)
        self.body.addStretch(1)
        self.setAccessibleName("Mending")

    def show_night(self, night: date) -> None:
        """The same on any night."""
        why = checking.why_damaged(self._desk.store)
        self.view.setVisible(bool(why))
        self.view.say_why(f"This keeper is damaged, so nothing is written in it any more. {why}")
        self.look_over.setVisible(not why)
        self.told.setVisible(not why)
        self.told.setText(WELL)
        self.lead_with(self.view.see if why else self.look_over)

    def _look_over(self) -> None:
        tonight = self._desk.tonight()
        self.look_over.setEnabled(False)
        self.told.setText("Looking it over\u2026")
        self._errand.anew(
            lambda store, task: checking.look_over(store, tonight, task.stopped, all_of_it=True), self._show, self._show
        )

    def _show(self, trouble: object) -> None:
        self.look_over.setEnabled(True)
        if str(trouble):
            self._desk.damaged.emit(str(trouble))
            self.show_night(self._desk.tonight())
        else:
            self.told.setText("All of it was looked over. It is what was written.")
