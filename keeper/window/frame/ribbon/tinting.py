"""What tints the ribbon: the places, or a reading that the person chose; it is remembered."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QPoint
from PySide6.QtGui import QAction, QActionGroup

from keeper import settings
from keeper.actions.readings import trackers
from keeper.window.parts.errand import Errand
from keeper.window.parts.small import plainly

if TYPE_CHECKING:
    from PySide6.QtWidgets import QMenu

    from keeper.actions.months.tinting import Tint
    from keeper.window.frame.window import Frame

BY_PLACE = "by place"


class RibbonTint(QObject):
    """Gives a window's ribbon its tint, and asks which one is wanted."""

    def __init__(self, frame: "Frame") -> None:
        super().__init__(frame)
        self._desk, self._ribbon = frame.desk, frame.ribbon
        self._errand = Errand(frame.desk.reader)
        self._menu: QMenu | None = None
        self._ribbon.year_wanted.connect(self.ask)
        self._ribbon.tint_wanted.connect(self._choose)
        self._desk.changed.connect(self.ask)
        self.ask()

    def chosen(self) -> str:
        """The id of the tracker that tints, or "" for the places."""
        return settings.read(self._desk.kept, "ribbon")

    def ask(self) -> None:
        """Ask for the tint of the year shown."""
        year, tracker_id = self._ribbon.year, self.chosen()
        self._errand.anew(lambda store, task: _tint(store, year, tracker_id), self._give)

    def _give(self, told: "tuple[Tint | None, bool]") -> None:
        tint, choice = told
        self._ribbon.tint_by(tint, f"by {tint.tracker.name}" if tint else BY_PLACE if choice else "")

    def menu(self) -> "QMenu":
        """The tints there are, the one in force ticked."""
        from PySide6.QtWidgets import QMenu

        from keeper.actions.months import tinting

        made, group = QMenu(self._ribbon), QActionGroup(self)
        made.setAccessibleName("What tints the ribbon")
        for tracker_id, name in (("", BY_PLACE), *((one.id, f"by {one.name}") for one in tinting.can_tint(self._desk.store))):
            act = QAction(plainly(name), made)
            act.setCheckable(True)
            act.setChecked(tracker_id == self.chosen())
            act.triggered.connect(lambda _, tracker_id=tracker_id: self.tint_by(tracker_id))
            group.addAction(act)
            made.addAction(act)
        return made

    def tint_by(self, tracker_id: str) -> None:
        """Tint by a reading from now on; "" by place."""
        self._desk.change_setting("ribbon", tracker_id)
        self.ask()

    def _choose(self, spot: QPoint) -> None:
        menu = self.menu()
        menu.aboutToHide.connect(menu.deleteLater)
        menu.popup(spot)
        menu.setActiveAction(next((act for act in menu.actions() if act.isChecked()), menu.actions()[0]))


def _tint(store: object, year: int, tracker_id: str) -> "tuple[Tint | None, bool]":
    if not tracker_id:
        return None, bool(trackers.every(store))
    # Not before one is chosen: it brings in the study of what rests.
    from keeper.actions.months import tinting

    return tinting.tint_of(store, year, tracker_id), True
