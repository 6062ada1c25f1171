"""Choosing which readings are drawn on one axis."""

from collections.abc import Collection

from PySide6.QtWidgets import QCheckBox, QDialog, QVBoxLayout, QWidget

from keeper.actions.readings import axes, trackers
from keeper.model import Tracker
from keeper.review.readings.axes import can_share
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import emptied, label, plain_button, plainly, quiet_button, row

TOLD = "Two or three readings that measure alike can be drawn on one axis. Where they cross is marked, and named below."


class AxesDialog(QDialog):
    """The readings of a month, by their ids: those that share an axis, and those that could."""

    def __init__(self, desk: Desk, shown: Collection[str], parent: QWidget) -> None:
        super().__init__(parent)
        self.desk, self._shown = desk, frozenset(shown)
        self.setWindowTitle("Readings on one axis")
        self.boxes: dict[str, QCheckBox] = {}
        self._known: dict[str, Tracker] = {}
        px = desk.look.px
        layout = QVBoxLayout(self)
        layout.setContentsMargins(*[px(1.4)] * 4)
        layout.setSpacing(px(0.6))
        self.rows = QVBoxLayout()
        self.rows.setSpacing(px(0.4))
        self.join = plain_button("Draw on one axis", self._join, by_enter=True)
        layout.addWidget(label(TOLD, "quiet"))
        layout.addLayout(self.rows)
        layout.addStretch(1)
        layout.addLayout(row(None, plain_button("Close", self.accept), self.join))
        self.setMinimumWidth(px(30))
        desk.changed.connect(self.show_them)
        self.show_them()

    def show_them(self) -> None:
        """Show what shares an axis now, and what could."""
        emptied(self.rows)
        self.boxes = {}
        known = [one for one in trackers.every(self.desk.store) if one.id in self._shown]
        self._known = {one.id: one for one in known}
        together = axes.shared(known)
        for group in together:
            self._add_group(group)
        alone = [one for one in known if not any(one in group for group in together)]
        for one in alone:
            if any(can_share([one, other]) for other in alone if other is not one):
                self._add_box(one)
        self._allow()

    def _add_group(self, group: tuple[Tracker, ...]) -> None:
        named = ", ".join(one.name for one in group)
        apart = quiet_button("Draw apart", lambda: self._part(group), f"Draw {named} apart")
        self.rows.addLayout(row(label(named, "plain"), apart, None, gap=self.desk.look.px(1)))

    def _add_box(self, one: Tracker) -> None:
        box = QCheckBox(plainly(one.name))
        box.setAccessibleName(f"{one.name}, on one axis with others")
        box.toggled.connect(lambda _: self._allow())
        self.boxes[one.id] = box
        self.rows.addWidget(box)

    def chosen(self) -> list[Tracker]:
        """The readings ticked."""
        return [self._known[one] for one, box in self.boxes.items() if box.isChecked()]

    def _allow(self) -> None:
        chosen = self.chosen()
        for one, box in self.boxes.items():
            box.setEnabled(box.isChecked() or not chosen or can_share([*chosen, self._known[one]]))
        self.join.setEnabled(can_share(chosen))

    def _join(self) -> None:
        ids = [one.id for one in self.chosen()]
        self.desk.write(lambda store: axes.put_on_one_axis(store, ids), lambda _: self.desk.changed.emit())

    def _part(self, group: tuple[Tracker, ...]) -> None:
        ids = [one.id for one in group]
        self.desk.write(lambda store: axes.stand_alone(store, ids), lambda _: self.desk.changed.emit())
