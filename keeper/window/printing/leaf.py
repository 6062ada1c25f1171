"""Pages to print: what they are, how they look, and where they are saved."""

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal

from keeper.actions.opening import passing_folder
from keeper.dates.written import counted
from keeper.errors import KeeperError, shown_name
from keeper.window.desk.desk import Desk
from keeper.window.desk.lanes import Task
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import Paper, headed, label, quiet_button
from keeper.window.printing import wording
from keeper.window.printing.fields import PagesForm
from keeper.window.printing.preview import SidesPreview
from keeper.window.printing.under_way import UnderWay, ask_where

if TYPE_CHECKING:
    from tempfile import TemporaryDirectory

    from keeper.actions.paper.making import BookMade, Proof

_DOTS_PER_INCH = 90.0


class PrintLeaf(BasicPage, Paper):
    """Asks for pages to print, shows them, and saves them; ``send_wanted`` leads to the other leaf."""

    send_wanted = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look)
        self.desk = desk
        self._folder: TemporaryDirectory[str] | None = None
        self.send = quiet_button("A page to send\u2026", self.send_wanted.emit)
        self.form, self.preview = PagesForm(desk), SidesPreview(desk.look)
        self.show_button = quiet_button("Show the pages", self.look, "Show the pages as they will be printed")
        self.save_button = quiet_button("Save\u2026", self.save, "Save the pages as a PDF")
        self.under_way = UnderWay(desk, self.show_button, self.save_button)
        self.body.addLayout(headed(label("Print", "head"), self.send))
        for part in (self.form, self.under_way, self.preview):
            self.body.addWidget(part)
            self.body.addSpacing(desk.look.px(0.6))
        self.body.addStretch(1)
        self.lead_with(self.form.what)
        self.setAccessibleName("Pages to print")
        self._to_see = False
        self.verticalScrollBar().rangeChanged.connect(lambda *_: self._see())
        self.form.edited.connect(self._out_of_date)
        desk.ending.connect(self.let_go)

    def show_night(self, night: date) -> None:
        """Offer what the window is on."""
        self.form.show_night(night)

    # making

    def look(self) -> None:
        """Make the pages, and show them."""
        self.let_go()
        try:
            wanted = self.form.wanted()
            self._folder = passing_folder(self.desk.store)
        except KeeperError as error:
            self.under_way.tell(str(error))
            return
        folder, dots = Path(self._folder.name), _DOTS_PER_INCH * self.devicePixelRatioF()

        def work(store, task: Task) -> "Proof":
            # Much comes in with it: not on the window's thread.
            from keeper.actions.printing import making

            proof = making.proof_pages(store, wanted, folder, lambda s, w: task.progress(s * 0.7, w), task.stopped)
            task.progress(0.7, "Drawing the pages")
            making.picture_pages(proof, dots)
            return proof

        self.under_way.begin(work, self._shown)

    def _shown(self, proof: "Proof") -> str:
        self.preview.show_pages(proof.pictures)
        # Once they are laid out, which is a while later.
        self._to_see = True
        return " ".join(proof.left_out)

    def _see(self) -> None:
        """Bring the pages into sight, where they have just come."""
        if self._to_see and self.preview.isVisible():
            self.ensureWidgetVisible(self.preview.onward)
            self._to_see = self.verticalScrollBar().maximum() == 0

    def save(self) -> None:
        """Ask where the pages are to lie, and make them."""
        try:
            wanted = self.form.wanted()
        except KeeperError as error:
            self.under_way.tell(str(error))
            return
        name = wording.usual_name(wanted.what, wanted.first, wanted.last)
        target = ask_where(self, "Save the pages", name, ".pdf", "PDF")
        if target is None:
            return

        def work(store, task: Task) -> "BookMade":
            from keeper.actions.printing import making

            return making.make_pages(store, wanted, target, task.progress, task.stopped)

        self.under_way.begin(work, self._saved)

    def _saved(self, made: "BookMade") -> str:
        self.under_way.saved = made.path
        sides = counted(made.pages, "side")
        return " ".join((f"Saved as {shown_name(made.path)}, {sides}.", *made.left_out))

    # leaving

    def _out_of_date(self) -> None:
        # What is shown is what would be printed, or nothing is.
        if self._folder and not self.under_way.working:
            self.let_go()
            self.under_way.tell("")

    def let_go(self) -> None:
        """Put away the pages shown, and what was laid out for them."""
        self._to_see = False
        self.preview.show_pages(())
        if self._folder:
            # Behind whatever is still writing into it.
            folder, self._folder = self._folder, None
            self.desk.worker.run(lambda store, task: folder.cleanup())
