"""A window on a keeper that can only be read: it says so, and lays what is typed aside."""

from pathlib import Path

from PySide6.QtCore import QObject, QTimer

from keeper.actions.damage.checking import why_damaged
from keeper.actions.rescue import rescue
from keeper.errors import KeeperError
from keeper.window.desk.early import CENTRED, setting
from keeper.window.frame.window import Frame
from keeper.window.parts.small import label, quiet_button, row

LAY_ASIDE_EVERY = 800
"""Milliseconds between looks for words that are nowhere yet."""


class OnlyReading(QObject):
    """Tells for as long as the window is open that nothing is kept, and where the words are that were typed."""

    def __init__(self, frame: Frame) -> None:
        super().__init__(frame)
        self._frame, self._desk = frame, frame.desk
        self._laid: dict[tuple, str] = {}
        self._failed = False
        frame.setWindowTitle(f"{frame.windowTitle()} (only to read)")
        self.told = label("", "quiet")
        setting(self.told, CENTRED)
        px = self._desk.look.px
        self.told.setContentsMargins(px(1.2), px(0.4), px(1.2), 0)
        self.mend = quiet_button("Mend it", lambda: self._desk.go("mending"), "Mend this keeper")
        above = row(self.told, self.mend)
        above.setStretch(0, 1)
        above.setContentsMargins(0, 0, px(1.2), 0)
        frame.layout().insertLayout(0, above)
        self._say()
        self._timer = QTimer(self)
        self._timer.setInterval(LAY_ASIDE_EVERY)
        self._timer.timeout.connect(self.lay_aside)
        self._timer.start()

    def lay_aside(self) -> None:
        """Put what is typed and not kept into a file outside the keeper, if it is not there yet."""
        words = self._frame.unkept()
        if words and words != self._laid:
            self._laid = words
            into, folder, tonight = self._frame.rescued_to, self._desk.folder, self._desk.tonight()
            self._desk.writer.run(lambda store, task: rescue(words, folder, tonight, into), self._on_laid, self._on_failed)

    def _on_laid(self, path: Path | None) -> None:
        self._frame.rescued_to, self._failed = path, path is None
        self._say()

    def _on_failed(self, error: KeeperError) -> None:
        self._on_laid(None)

    def _say(self) -> None:
        where = self._frame.rescued_to
        # Only a damaged one can be mended; a disk cannot.
        self.mend.setVisible(bool(why_damaged(self._desk.store)))
        words = f"A copy of what you typed is in {where}." if where else "What you type here is not kept."
        if self._failed:
            words = "What you typed is nowhere but in this window."
        self.told.setText(f"This keeper can only be read: {self._desk.store.only_read}. {words}")
