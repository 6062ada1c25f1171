"""Choosing what takes part in patterns; the number of questions is told as one chooses."""

from collections.abc import Iterable

from PySide6.QtWidgets import QCheckBox, QDialog, QScrollArea, QVBoxLayout, QWidget

from keeper.actions.patterns import asking
from keeper.dates import written
from keeper.review.patterns.candidates import MOVE, PERSON, READING, RHYTHMS, THEME, TRAVEL, Candidate
from keeper.window.desk.desk import Desk
from keeper.window.parts.flow import Flow
from keeper.window.parts.small import label, plain_button, plainly, quiet_button, row

FEWER = "The more questions, the stronger a pattern has to be to stand out among them: fewer is better."

GROUPS = (
    ("Readings", (READING,)), ("Where you were", (MOVE, TRAVEL)), ("Rhythms", RHYTHMS), ("Themes", (THEME,)),
    ("People", (PERSON,)),
)  # fmt: skip


class PickingDialog(QDialog):
    """Boxes for all that can take part; ``keys`` are those ticked."""

    def __init__(self, desk: Desk, known: Iterable[Candidate], taking: Iterable[Candidate], parent: QWidget) -> None:
        super().__init__(parent)
        self.desk = desk
        self.setWindowTitle("What takes part in patterns")
        self.known, ticked = tuple(known), {one.key for one in taking}
        self.boxes = {one.key: self._box(one, one.key in ticked) for one in self.known}
        self.told = label("", "quiet")
        self.ask = plain_button("Ask", self.accept, by_enter=True)
        px = desk.look.px
        layout = QVBoxLayout(self)
        layout.setContentsMargins(*[px(1.4)] * 4)
        layout.setSpacing(px(0.6))
        layout.addWidget(label(FEWER, "quiet"))
        layout.addWidget(self._groups(), 1)
        layout.addWidget(self.told)
        layout.addLayout(row(None, plain_button("Cancel", self.reject), self.ask))
        self.setMinimumWidth(px(36))
        self.resize(px(42), px(34))
        self._count()

    def _box(self, one: Candidate, ticked: bool) -> QCheckBox:
        box = QCheckBox(plainly(one.name))
        box.setChecked(ticked)
        box.setAccessibleName(f"{one.name} takes part")
        box.toggled.connect(lambda _: self._count())
        return box

    def _groups(self) -> QScrollArea:
        within, scrolled = QWidget(), QScrollArea()
        body = QVBoxLayout(within)
        # Clear of the bar by which it is scrolled.
        body.setContentsMargins(0, 0, self.desk.look.px(1), 0)
        body.setSpacing(self.desk.look.px(0.4))
        for name, kinds in GROUPS:
            its = [self.boxes[one.key] for one in self.known if one.kind in kinds]
            if its:
                all_of = quiet_button("none, or all", lambda its=its: self._turn(its), f"{name}: none, or all")
                body.addLayout(row(label(name, "section"), None, all_of))
                body.addWidget(Flow(self.desk.look, *its, gap=1.4))
        body.addStretch(1)
        scrolled.setWidgetResizable(True)
        scrolled.setWidget(within)
        return scrolled

    def keys(self) -> list[str]:
        """The keys of what is ticked."""
        return [key for key, box in self.boxes.items() if box.isChecked()]

    def _turn(self, boxes: list[QCheckBox]) -> None:
        wanted = not any(box.isChecked() for box in boxes)
        for box in boxes:
            box.setChecked(wanted)

    def _count(self) -> None:
        ticked = set(self.keys())
        many = asking.questions(one for one in self.known if one.key in ticked)
        self.told.setText(f"That is {written.counted(many, 'question')} at most." if many else "Something has to take part: two readings, or one and a rhythm.")
        self.ask.setEnabled(many > 0)
