"""A page for a clinician: which readings and nights, how it will look, and where it goes."""

from collections.abc import Callable
from datetime import date
from itertools import pairwise
from pathlib import Path

from PySide6.QtCore import QStandardPaths, QUrl, Signal
from PySide6.QtGui import QDesktopServices, QShowEvent
from PySide6.QtWidgets import QCheckBox, QFileDialog, QWidget

from keeper.actions.clinician.chosen import MOST_READINGS, USUAL, Chosen, offered
from keeper.cautions import OF_THE_BODY
from keeper.errors import KeeperError, shown_name
from keeper.model import Tracker
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.errand import Errand
from keeper.window.parts.flow import Flow
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import Paper, breakable, label, plain_button, plainly, quiet_button, row
from keeper.window.parts.typing.date_edit import DateEdit, span_told
from keeper.window.patterns.clinician.preview import Preview

WHY = (
    "One or two pages to take along: the readings you choose, night by night, their counts, and what stands out from "
    "chance. Nothing is sent anywhere; you save it, print it, and hand it over."
)
NOTHING_NOTED = "Nothing was noted in these nights."
NONE_CHOSEN = "Choose at least one reading."
TOO_MANY = f"{MOST_READINGS} readings have room on two pages; leave some out."


class ClinicianLeaf(AsksAgain, BasicPage, Paper):
    """What is to be on the page, and the page itself; ``left`` comes when the person goes back."""

    left = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look)
        self.desk = desk
        self.saved: Path | None = None
        self.boxes: dict[str, QCheckBox] = {}
        self._wanted: dict[str, bool] = {}
        self._offered: tuple[Tracker, ...] = ()
        self._errand = Errand(desk.worker)
        self.back = quiet_button("\u2039 patterns", self.left.emit, "Back to patterns")
        self.first, self.last = DateEdit(desk, "From, the first night"), DateEdit(desk, "To, the last night")
        self.dates, self.told = label("", "quiet"), label("", "quiet")
        self.choice = Flow(desk.look, gap=1.2)
        self.with_patterns = QCheckBox("What stands out, and what was tried")
        self.with_patterns.setChecked(True)
        self.pdf = plain_button("Save as PDF\u2026", self.ask_where)
        self.table = plain_button("Save as a table\u2026", self.ask_where_table)
        self.folder = quiet_button("Open the folder", self.show_folder)
        self.break_off = quiet_button("Stop", self.stop_saving, "Stop saving")
        self.preview = Preview(desk)
        self._lay_out()
        self._listen()
        self.lead_with(self.back)
        self.setAccessibleName("A page for a clinician")

    def _lay_out(self) -> None:
        add, px = self.body, self.desk.look.px
        add.addLayout(row(self.back, None))
        add.addWidget(label("A page for a clinician", "head"))
        add.addWidget(label(WHY, "quiet"))
        add.addWidget(Flow(self.desk.look, label("From", "quiet", wrap=False), self.first, label("to", "quiet", wrap=False), self.last, gap=0.6))
        for part in (self.dates, self.choice):
            add.addWidget(part)
        add.addLayout(row(self.with_patterns, None))
        add.addWidget(Flow(self.desk.look, self.pdf, self.table, self.folder, gap=0.9))
        add.addWidget(self.told)
        add.addLayout(row(self.break_off, None))
        add.addWidget(self.preview)
        add.addSpacing(px(0.8))
        add.addWidget(label(OF_THE_BODY, "quiet"))
        add.addStretch(1)
        self.told.hide()
        self.folder.hide()
        self.break_off.hide()
        self.dress()

    def dress(self) -> None:
        """Take up the sizes in force."""
        super().dress()
        for edit in (self.first, self.last):
            edit.setFixedWidth(self.desk.look.px(11))

    def _listen(self) -> None:
        for edit in (self.first, self.last):
            edit.textChanged.connect(lambda _: self._on_dates())
        self.with_patterns.toggled.connect(lambda _: self.follow())
        self.desk.changed.connect(self.refresh)

    # choosing

    def show_night(self, night: date) -> None:
        """The same on any night; at first the last three months."""
        if not self.last.text():
            here = self.desk.tonight()
            for edit, day in ((self.first, here - USUAL), (self.last, here)):
                edit.blockSignals(True)
                edit.setText(wording.full_date(day))
                edit.blockSignals(False)
        # Else when it is seen, in a moment.
        self.refresh()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.ask()

    def ask(self) -> None:
        """Ask which readings there are in these nights, and draw the page again."""
        self._on_dates()

    def span(self) -> tuple[date, date] | None:
        """The nights that are meant; None where they are not to be understood, or the wrong way round."""
        ends = self.first.meant_or_none(), self.last.meant_or_none()
        if None in ends or ends[1].last < ends[0].first:
            return None
        return ends[0].first, ends[1].last

    def _on_dates(self) -> None:
        span = self.span()
        self.dates.setText(span_told(self.first, self.last, "from", "to"))
        if span is None:
            self.preview.nothing("The last night comes before the first." if self.first.meant_or_none() and self.last.meant_or_none() else "")
            self._allow(False)
            return
        try:
            self._offer(offered(self.desk.store, *span))
        except KeeperError as error:
            self.desk.said.emit(str(error))
            return
        self.follow()

    def _offer(self, its: tuple[Tracker, ...]) -> None:
        if its == self._offered:
            return
        self._remember()
        for thing in self.choice.things:
            thing.hide()
            thing.deleteLater()
        self.choice.things.clear()
        self.boxes, self._offered = {}, its
        for at, one in enumerate(its):
            box = self.boxes[one.id] = QCheckBox(plainly(one.name))
            box.setAccessibleName(one.name)
            box.setChecked(self._wanted.get(one.id, at < MOST_READINGS))
            box.toggled.connect(lambda _: self.follow())
            self.choice.add(box)
        self.choice.updateGeometry()
        for one, other in pairwise((self.last, *self.boxes.values(), self.with_patterns)):
            QWidget.setTabOrder(one, other)

    def _remember(self) -> None:
        # Of other nights it may not be offered; what was chosen stays chosen.
        self._wanted |= {key: box.isChecked() for key, box in self.boxes.items()}

    def chosen(self) -> Chosen | None:
        """What is to be on the page; None for nothing that can be."""
        span, its = self.span(), tuple(key for key, box in self.boxes.items() if box.isChecked())
        if span is None or not 0 < len(its) <= MOST_READINGS:
            return None
        return Chosen(*span, its, self.with_patterns.isChecked())

    def follow(self) -> None:
        """Draw the page of what is chosen now, or say why there is none."""
        chosen = self.chosen()
        self._allow(chosen is not None)
        if chosen is None:
            many = sum(box.isChecked() for box in self.boxes.values())
            self.preview.nothing(TOO_MANY if many > MOST_READINGS else NONE_CHOSEN if self.boxes else NOTHING_NOTED)
        elif self.isVisible():
            self.preview.ask(chosen)

    def _allow(self, possible: bool) -> None:
        for button in (self.pdf, self.table):
            button.setEnabled(possible)

    # saving

    def ask_where(self) -> None:
        """Ask where the pages are to lie, and put them there."""
        if target := self._where("Save the page", "pdf", "PDF (*.pdf)"):
            self.save(target)

    def ask_where_table(self) -> None:
        """Ask where the table is to lie, and put it there."""
        if target := self._where("Save the table", "csv", "Comma-separated values (*.csv)"):
            self.save_table(target)

    def _where(self, title: str, ending: str, kind: str) -> Path | None:
        documents = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
        offered = str(Path(documents or Path.home()) / f"readings-{self.chosen().last.isoformat()}.{ending}")
        name, _ = QFileDialog.getSaveFileName(self, title, offered, kind)
        return (Path(name) if Path(name).suffix else Path(f"{name}.{ending}")) if name else None

    def save(self, target: Path) -> None:
        """Make the pages and put them into a file, in the background."""
        from keeper.actions.clinician import making

        chosen, here = self.chosen(), self.desk.tonight()
        self._work(target, lambda store, task: making.make_page(store, chosen, target, here, task.progress, task.stopped))

    def save_table(self, target: Path) -> None:
        """The same as a table."""
        from keeper.actions.clinician import making

        chosen, here = self.chosen(), self.desk.tonight()
        self._work(target, lambda store, task: making.make_table(store, chosen, target, here, task.progress, task.stopped))

    def _work(self, target: Path, work: Callable) -> None:
        self._tell("Saving\u2026", under_way=True)
        self._errand.anew(work, lambda _: self._on_saved(target), lambda error: self._tell(str(error)), self._heard)

    def _heard(self, share: float, words: str) -> None:
        self._tell(f"Saving: {words[:1].lower()}{words[1:]}, {wording.percent(share)}.", under_way=True)

    def stop_saving(self) -> None:
        """Break off; nothing is saved."""
        self._errand.stop()
        self.pdf.setFocus()
        self._tell("Stopped; nothing was saved.")

    def _on_saved(self, target: Path) -> None:
        self.saved = target
        self._tell(f"Saved as {shown_name(target)}.")
        self.folder.show()

    def _tell(self, sentence: str, under_way: bool = False) -> None:
        self.told.setText(breakable(sentence))
        self.told.setVisible(bool(sentence))
        self.break_off.setVisible(under_way)

    def show_folder(self) -> None:
        """Open the folder in which it was saved last."""
        if self.saved:
            QDesktopServices.openUrl(QUrl.fromLocalFile(str(self.saved.parent)))
