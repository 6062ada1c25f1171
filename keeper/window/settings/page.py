"""The settings page, drawn from the list of settings."""

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtGui import QColor, QIcon, QPixmap, QShowEvent
from PySide6.QtWidgets import QColorDialog, QGridLayout, QVBoxLayout, QWidget

from keeper import settings
from keeper.settings import INKS, SETTINGS, Setting
from keeper.window.desk.desk import Desk
from keeper.window.parts.choice import Choice
from keeper.window.parts.keys_shown import rows
from keeper.window.parts.page import BasicPage
from keeper.window.parts.piecemeal import Piecemeal
from keeper.window.parts.small import Paper, label

if TYPE_CHECKING:
    from keeper.window.settings.backups import BackupsBox
    from keeper.window.settings.kinds import KindsBox
    from keeper.window.settings.resting import RestingBox
    from keeper.window.settings.this_keeper import ThisKeeperBox

OWN_INK = "one of my own\u2026"


class SettingsPage(BasicPage, Paper):
    """Few settings, each in force at once; then the keys, the place, the credits."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look)
        self.desk = desk
        self.controls: dict[str, QWidget] = {}
        self.kinds: KindsBox | None = None
        self.resting: RestingBox | None = None
        self.backups: BackupsBox | None = None
        self.keeper: ThisKeeperBox | None = None
        self._coming = Piecemeal(self)
        self._begun = False
        self.body.addWidget(label("Settings", "head"))
        self.body.addLayout(self._settings())
        self.body.addSpacing(desk.look.px(1.2))
        self.later = QVBoxLayout()
        self.later.setSpacing(desk.look.px(1.2))
        self.body.addLayout(self.later)
        self.body.addStretch(1)
        # The page itself has the focus first: a key that goes astray changes nothing.
        self.setAccessibleName("Settings")
        self._fit_controls()

    def show_night(self, night: date) -> None:
        """The same on any night."""

    def dress(self) -> None:
        """Take up the text size in force, and whatever else was set."""
        self.fit()
        self._fit_controls()
        for setting in SETTINGS:
            if setting.label:
                self._show(setting, self.controls[setting.name])

    def _show(self, setting: Setting, box: Choice) -> None:
        value = settings.read(self.desk.kept, setting.name)
        if setting.choices:
            self._show_choice(box, value)
        else:
            box.setCurrentIndex(box.findData(value))

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if not self._begun:
            # The settings are seen first.
            self._begun = True
            self._coming.begin([
                self._add_kinds, self._add_resting, self._add_backups, self._add_keys, self._add_keeper, self._add_credits,
            ])  # fmt: skip

    def is_shown(self) -> bool:
        """Whether all that stands below the settings is there."""
        return self._begun and self._coming.over()

    def _add_kinds(self) -> None:
        from keeper.window.settings.kinds import KindsBox

        self.kinds = KindsBox(self.desk, list(self.controls.values())[-1])
        self.later.addWidget(self.kinds)

    def _add_resting(self) -> None:
        from keeper.window.settings.resting import RestingBox

        self.resting = RestingBox(self.desk)
        self.later.addWidget(self.resting)

    def _add_backups(self) -> None:
        from keeper.window.settings.backups import BackupsBox

        self.backups = BackupsBox(self.desk)
        self.later.addWidget(self.backups)

    def _add_keys(self) -> None:
        px = self.desk.look.px
        # In a box of their own, shown at once: each part that joins what is seen has the whole page laid out anew.
        box = QWidget()
        under = QVBoxLayout(box)
        under.setContentsMargins(0, px(0.6), 0, 0)
        under.setSpacing(px(0.5))
        under.addWidget(label("Keys", "words"))
        under.addLayout(rows(self.desk.look))
        self.later.addWidget(box)

    def _add_keeper(self) -> None:
        from keeper.window.settings.this_keeper import ThisKeeperBox

        self.keeper = ThisKeeperBox(self.desk)
        self.later.addWidget(self.keeper)

    def _add_credits(self) -> None:
        self.later.addWidget(label(CREDITS, "quiet"))

    def _settings(self) -> QGridLayout:
        grid = QGridLayout()
        px = self.desk.look.px
        grid.setContentsMargins(0, px(0.8), 0, 0)
        grid.setHorizontalSpacing(px(1.2))
        grid.setVerticalSpacing(px(0.9))
        grid.setColumnStretch(2, 1)
        for place, setting in enumerate(one for one in SETTINGS if one.label):
            control = self._choice(setting) if setting.choices else self._number(setting)
            control.setAccessibleDescription(setting.description)
            self.controls[setting.name] = control
            grid.addWidget(label(setting.label, wrap=False), place, 0)
            grid.addWidget(control, place, 1)
            grid.addWidget(label(setting.description, "quiet"), place, 2)
        return grid

    def _fit_controls(self) -> None:
        for control in self.controls.values():
            control.setMinimumWidth(self.desk.look.px(10))

    def _choice(self, setting: Setting) -> Choice:
        made = Choice(self.desk.look, setting.label)
        for choice in setting.choices:
            made.addItem(choice)
            if setting.name == "ink":
                made.setItemIcon(made.count() - 1, _swatch(INKS[choice]))
        if setting.name == "ink":
            made.addItem(OWN_INK)
        self._show(setting, made)
        made.activated.connect(lambda _: self._on_choice(setting, made))
        return made

    def _show_choice(self, box: Choice, value: str) -> None:
        place = box.findText(value)
        if place < 0:
            place = 0
            box.insertItem(0, _swatch(value), value)
        box.setCurrentIndex(place)

    def _on_choice(self, setting: Setting, box: Choice) -> None:
        value = box.currentText()
        if value == OWN_INK:
            now = settings.read(self.desk.kept, "ink")
            colour = QColorDialog.getColor(QColor(INKS.get(now, now)), self, "Your ink")
            value = colour.name() if colour.isValid() else now
            self._show_choice(box, value)
        self._put_in_force(setting.name, value)

    def _number(self, setting: Setting) -> Choice:
        made = Choice(self.desk.look, setting.label)
        for number in range(setting.low, setting.high + 1, setting.step):
            made.addItem(f"{number}{setting.unit}", str(number))
        self._show(setting, made)
        made.activated.connect(lambda _: self._put_in_force(setting.name, made.currentData()))
        return made

    def _put_in_force(self, name: str, value: str) -> None:
        self.desk.change_setting(name, value)
        if name in ("ink", "palette", "text_size"):
            self.desk.look.dress(self.desk.kept)
            self.desk.dressed.emit()
        self.desk.changed.emit()


CREDITS = (
    "Keeper of Days is made with Qt and PySide6 (LGPL), SQLite (public domain) and sqlite-utils (Apache 2.0). "
    "Set in Source Serif 4 and Source Sans 3 (SIL Open Font License). "
    "Place and theme colours: Okabe and Ito, 2008. "
    "Town names and positions: GeoNames (geonames.org), CC BY 4.0. "
    "Made with Natural Earth. "
    "Which words are near: word lists of wordfreq (Robyn Speer; with data of Google Books Ngrams, the Leeds Internet "
    "Corpus, Wikipedia, ParaCrawl, OpenSubtitles and SUBTLEX by Marc Brysbaert and others), CC BY-SA 4.0, "
    "Wiktionary by those who write it (CC BY-SA), multilingual-e5-small (MIT) and WordNet (Princeton University)."
)


def _swatch(colour: str) -> QIcon:
    spot = QPixmap(14, 14)
    spot.fill(QColor(colour))
    return QIcon(spot)
