"""The notebook beside the sheet: the page that a night stands on, turned, straightened, cropped, near or far."""

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.actions.scans import kept
from keeper.dates import written
from keeper.errors import KeeperError
from keeper.model.scans import WHOLE, Scan
from keeper.window.desk.desk import Desk
from keeper.window.parts.errand import Errand
from keeper.window.parts.flow import Flow
from keeper.window.parts.photos.canvas import STEP, PhotoCanvas
from keeper.window.parts.small import breakable, label, quiet_button
from keeper.window.parts.tips import plain_tip
from keeper.window.sheet.pages import PagePictures

_NUDGE = 0.25
"""Degrees by which a page is turned by hand."""


class NotebookBeside(QWidget):
    """Shows one page of a span's. ``flipped`` comes with its nights' first, when another is chosen by hand."""

    flipped = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk, self._look = desk, desk.look
        self.scans: tuple[Scan, ...] = ()
        self.scan: Scan | None = None
        self._night: date | None = None
        self._wanted = ""
        self.canvas = PhotoCanvas(desk.look)
        self.canvas.setAccessibleName("Page of the notebook")
        self._pictures = PagePictures(desk, self._show, lambda error: self.canvas.say(str(error)))
        self._measuring = Errand(desk.darkroom)
        self.told = label("", "quiet")
        self._build()

    def _build(self) -> None:
        self.before = quiet_button("\u2039 page", lambda: self.flip(-1), "The page before")
        self.after = quiet_button("page \u203a", lambda: self.flip(1), "The page after")
        self.turning = quiet_button("Turn", lambda: self.turn(1), "Turn the page to the right")
        self.straight = quiet_button("Straighten", self.straighten, "Straighten the page, or lay it as it came")
        self.crop = quiet_button("Crop", self.cut, "Keep of the page what is seen, or all of it again")
        self.begins = quiet_button("Begins here", self.begin_here, "Let the page begin with the night of the current row")
        self.away = quiet_button("Remove", self.remove, "Remove the page from the keeper")
        keys = ("Alt+Left", "Alt+Right", "Alt+T, Alt+Shift+T", "Alt+S; by hand: Alt+comma, Alt+full stop", "Alt+C", "Alt+B", "")
        buttons = (self.before, self.after, self.turning, self.straight, self.crop, self.begins, self.away)
        for button, pressed in zip(buttons, keys, strict=True):
            button.setToolTip(pressed)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(self._look.px(0.8), 0, 0, 0)
        layout.setSpacing(self._look.px(0.3))
        # The page itself stands level with the rows, however low the window.
        layout.addWidget(self.canvas, 1)
        layout.addWidget(self.told)
        layout.addWidget(Flow(self._look, *buttons, gap=0.9))

    def keys(self) -> tuple[tuple[str, Callable[[], object]], ...]:
        """What each key does while one types on the sheet."""
        step = self._look.px(4)
        moves = (("Alt+Up", 0, 1), ("Alt+Down", 0, -1), ("Alt+Shift+Left", 1, 0), ("Alt+Shift+Right", -1, 0))
        return (
            ("Alt+Left", lambda: self.flip(-1)), ("Alt+Right", lambda: self.flip(1)),
            ("Alt++", self.come_closer), ("Alt+=", self.come_closer),
            ("Alt+-", lambda: self.canvas.go_closer(1 / STEP)), ("Alt+0", lambda: self.canvas.set_zoom(None)),
            ("Alt+T", lambda: self.turn(1)), ("Alt+Shift+T", lambda: self.turn(-1)), ("Alt+S", self.straighten),
            ("Alt+,", lambda: self.nudge(-_NUDGE)), ("Alt+.", lambda: self.nudge(_NUDGE)),
            ("Alt+C", self.cut), ("Alt+B", self.begin_here),
            *((pressed, lambda x=x, y=y: self.canvas.move_by(x * step, y * step)) for pressed, x, y in moves),
        )  # fmt: skip

    # which page

    def show_scans(self, scans: tuple[Scan, ...]) -> None:
        """These are the pages of the span; the one seen stays, as it is to be seen now."""
        self.scans = scans
        wanted, self._wanted = self._wanted or (self.scan.id if self.scan else ""), ""
        again = next((one for one in scans if one.id == wanted), None)
        self._see(again or self._of(self._night) or (scans[0] if scans else None))

    def follow(self, night: date) -> None:
        """Show the page that a night stands on, as far down as it does; where there is none, the one seen stays."""
        self._night = night
        if self.scan is None or not self.scan.first <= night <= self.scan.last:
            self._see(self._of(night) or self.scan)
        self._look_down()

    def see(self, scan_id: str) -> None:
        """Show the page of this id, once it is among those of the span."""
        # Those of its nights may still be asked for.
        self._wanted = scan_id
        self._see(next((one for one in self.scans if one.id == scan_id), self.scan))

    def flip(self, by: int) -> None:
        """Go to the page before or after; at either end it stays."""
        if self.scan in self.scans:
            place = min(max(self.scans.index(self.scan) + by, 0), len(self.scans) - 1)
            self._see(self.scans[place])
            self.flipped.emit(self.scan.first)

    def _of(self, night: date | None) -> Scan | None:
        return next((one for one in self.scans if night and one.first <= night <= one.last), None)

    def _see(self, scan: Scan | None) -> None:
        was, self.scan = self.scan, scan
        if scan is None:
            self.canvas.say("")
            self.told.setText("")
            return
        self._tell(scan)
        if was is None or (was.id, was.turns, was.angle, was.cut) != (scan.id, scan.turns, scan.angle, scan.cut):
            self._pictures.ask(scan)

    def _show(self, image: QImage) -> None:
        self.canvas.go_on(image)
        self._look_down()

    def _look_down(self) -> None:
        """Come down the page with the nights on it, where it is closer than the whole."""
        if self.scan and self._night and self.canvas.zoom and self.scan.first < self.scan.last:
            down = (self._night - self.scan.first).days / (self.scan.last - self.scan.first).days
            self.canvas.look_at(min(max(down, 0.0), 1.0))

    def come_closer(self) -> None:
        """Come closer to where the night stands on the page."""
        self.canvas.go_closer(STEP)
        self._look_down()

    def _tell(self, scan: Scan) -> None:
        place = self.scans.index(scan) + 1 if scan in self.scans else 1
        parts = [f"page {place} of {len(self.scans)}", written.span(scan.first, scan.last), scan.name]
        self.told.setText(breakable(" \u00b7 ".join(filter(None, parts))))
        self.told.setToolTip(plain_tip(scan.name))
        self.canvas.setAccessibleDescription(self.told.text())
        self.before.setEnabled(place > 1)
        self.after.setEnabled(place < len(self.scans))
        self.straight.setText("Straighten" if not scan.angle else "As it came")
        self.crop.setText("Crop" if scan.cut == WHOLE else "Uncrop")

    # how it is seen

    def turn(self, quarters: int) -> None:
        """Turn the page by quarters to the right."""
        self._change(lambda store, scan: kept.turn(store, scan.id, quarters))

    def nudge(self, degrees: float) -> None:
        """Turn the page a little, by hand."""
        self._change(lambda store, scan: kept.straighten(store, scan.id, scan.angle + degrees))

    def straighten(self) -> None:
        """Let its rows lie level; once more, lay it as it came."""
        scan, folder = self.scan, self.desk.folder
        if scan and scan.angle:
            self._change(lambda store, scan: kept.straighten(store, scan.id, 0.0))
        elif scan:
            self._measuring.anew(lambda store, task: kept.level(folder, scan), lambda angle: self._on_measured(scan, angle), self._complain)

    def _on_measured(self, scan: Scan, angle: float) -> None:
        if not angle:
            self.desk.said.emit("The rows of this page lie level already, or none are seen on it.")
            return
        self._write(lambda store: kept.straighten(store, scan.id, angle))

    def cut(self) -> None:
        """Keep what is seen of the page; once more, all of it again."""
        part = self.canvas.seen_part() if self.scan and self.scan.cut == WHOLE else None
        if part and part[2] - part[0] > 0.99 and part[3] - part[1] > 0.99:
            self.desk.said.emit("Come closer, with Alt and +, until what is to stay fills the room; then crop.")
            return
        self.canvas.set_zoom(None)
        self._change(lambda store, scan: kept.cut_out(store, scan.id, part))

    def begin_here(self) -> None:
        """Let the page begin with the night of the current row."""
        night = self._night
        if night:
            self._change(lambda store, scan: kept.begin_at(store, scan.id, night))

    def remove(self) -> None:
        """Take the page out of the keeper."""
        self._change(lambda store, scan: kept.remove(store, scan.id))

    def _change(self, how: Callable) -> None:
        if (scan := self.scan) is not None:
            self._write(lambda store: how(store, scan))

    def _write(self, work: Callable) -> None:
        self.desk.write(work, lambda _: self.desk.changed.emit(), self._complain)

    def _complain(self, error: KeeperError) -> None:
        self.desk.said.emit(str(error))
