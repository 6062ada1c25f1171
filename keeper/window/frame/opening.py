"""Opening the window: application, keeper, frame, and what may end it."""

import gc
import sys
from collections.abc import Callable
from contextlib import suppress
from datetime import date
from pathlib import Path

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication

from keeper import settings
from keeper.actions import opening, trouble
from keeper.clock import Clock
from keeper.errors import CannotWrite, KeeperError, NotAKeeper
from keeper.window.desk.desk import Desk
from keeper.window.desk.look import Look, load_faces
from keeper.window.desk.pages import NIGHT
from keeper.window.frame.window import Frame

SETTLE_AFTER = 30
"""Milliseconds from the window's first showing to the rest: the system gives it the focus in between."""


def run(folder: Path | None, night: date | None, demo: bool) -> int:
    """Open the window and stay until it is closed; returns the exit status."""
    app = application()
    try:
        frame, lock = _frame(app, folder, night, demo)
    except NotAKeeper as error:
        if not _mended(app, folder or opening.own_folder(), str(error)):
            return _say_at_start(str(error))
        return run(folder, night, demo)
    except KeeperError as error:
        return _say_at_start(str(error))
    except Exception as problem:
        return _say_at_start(trouble.note(folder or opening.own_folder(), problem))
    if frame is None:
        return 0
    frame.show()
    _open_page(frame, night)
    # All that can wait until one can type.
    later = QTimer(frame)
    later.setSingleShot(True)
    later.setInterval(SETTLE_AFTER)
    later.timeout.connect(lambda: _settle_in(app, frame))
    later.start()
    status = app.exec()
    lock.unlock()
    if frame.opens_anew:
        put_into_place(frame)
        frame.deleteLater()
        return run(folder, night, demo)
    if frame.then_open:
        from keeper.window.desk.other_windows import open_keeper

        # Only now: one keeper has one window.
        open_keeper(frame.then_open)
    return status


def application() -> QApplication:
    """The one QApplication, made if need be."""
    app = QApplication.instance() or QApplication(sys.argv[:1])
    app.setApplicationName("keeper")
    app.setApplicationDisplayName("Keeper of Days")
    app.setDesktopFileName("keeper")
    load_faces()
    return app


def make_frame(app: QApplication, folder: Path, clock: Clock | None = None, title: str = "Keeper of Days") -> Frame:
    """A window on the keeper in a folder, not yet shown. Raises KeeperError."""
    store = opening.open_or_begin(folder)
    look = Look(app)
    look.dress(opening.read_settings(store))
    frame = Frame(Desk(folder, store, clock or Clock(), look), title)
    frame.restore()
    if store.only_read:
        from keeper.window.frame.only_reading import OnlyReading

        OnlyReading(frame)
    return frame


def _frame(app: QApplication, folder: Path | None, night: date | None, demo: bool):
    folder = folder or (opening.demo_folder() if demo else opening.own_folder())
    if not (demo or opening.has_keeper(folder) or opening.begins_unasked(folder) or _to_be_begun(app, folder)):
        return None, None
    lock = _locked(folder)
    if lock is None:
        from keeper.window.frame.held.single import call_forward

        if not call_forward(folder, night):
            raise CannotWrite(
                f"Another window has the keeper in {folder} open, but it does not answer. End that program first."
            )
        return None, None
    try:
        return _made(app, folder, demo), lock
    except BaseException:
        # What is wrong keeps all that led to it; a broken keeper may be opened again at once.
        lock.unlock()
        raise


def _made(app: QApplication, folder: Path, demo: bool) -> Frame:
    if not demo:
        return make_frame(app, folder)
    opening.lay_out_demo(folder)
    with opening.open_again(folder) as store:
        clock = opening.demo_clock(store)
    return make_frame(app, folder, clock, "Keeper of Days: the demo")


def _mended(app: QApplication, folder: Path, sentence: str) -> bool:
    """Offer to mend a keeper that cannot be opened; whether there is one now."""
    from keeper.actions.damage import mending

    if QApplication.platformName() == "offscreen" or not mending.can_be_mended(folder) or (lock := _locked(folder)) is None:
        return False
    from keeper.window.frame.damage.broken import BrokenDialog

    look = Look(app)
    look.dress({})
    try:
        return bool(BrokenDialog(look, folder, sentence).exec()) and mending.put_into_place(folder) is not None
    finally:
        lock.unlock()


def put_into_place(frame: Frame) -> None:
    """Let the mended keeper that waits be the one of a window that was closed; if it cannot be, it waits on."""
    from keeper.actions.damage import mending

    with suppress(CannotWrite):
        mending.put_into_place(frame.desk.folder)


def _to_be_begun(app: QApplication, folder: Path) -> bool:
    from keeper.window.frame.held.beginning import BeginDialog

    look = Look(app)
    look.dress({})
    return bool(BeginDialog(look, folder).exec())


def _locked(folder: Path):
    from keeper.window.frame.held.lock import lock

    with suppress(OSError):
        # Why it could not be made is told when the keeper is begun.
        folder.parent.mkdir(parents=True, exist_ok=True)
    return lock(folder)


def _open_page(frame: Frame, night: date | None) -> None:
    kept, tonight = frame.desk.kept, frame.desk.tonight()
    page, shown = NIGHT, night
    # The page and night of last time, unless a new evening has begun since.
    if night is None and settings.read(kept, "left_on") == tonight.isoformat():
        page = settings.read(kept, "page") or NIGHT
        try:
            shown = min(date.fromisoformat(settings.read(kept, "night")), tonight)
        except ValueError:
            shown = None
    frame.go(page if page in frame.buttons else NIGHT, shown or tonight)
    frame.activateWindow()


def at_ease(frame: Frame, *first: Callable[[], object]) -> None:
    """Bring in all that can wait until one can type, some of it first, and set Python up for a window with lanes.

    Whoever measures the window goes this way too: what is measured is then
    what a person has.
    """
    # Each call into Qt lets a lane that reckons go first. By default the window
    # then waits up to 5 ms, many times in one drawing of the map.
    sys.setswitchinterval(0.0001)
    frame.load_rest(first, (gc.freeze, lambda: _take_up_garbage(frame)))


def _take_up_garbage(frame: Frame) -> None:
    from keeper.window.frame.start import garbage

    garbage.take_up(frame)


def _settle_in(app: QApplication, frame: Frame) -> None:
    from keeper.window.frame.start.settling import heed_the_system, pieces_last

    heed_the_system(app, frame)
    at_ease(frame, lambda: _listen(frame))
    frame.rest.add(pieces_last(frame))


def _listen(frame: Frame) -> None:
    from keeper.window.frame.held.single import Listener

    frame.listener = Listener(frame.desk.folder, frame.come_forward)


def _say_at_start(sentence: str) -> int:
    from PySide6.QtWidgets import QMessageBox

    print(f"keeper: {sentence}", file=sys.stderr)
    box = QMessageBox(QMessageBox.Icon.NoIcon, "Keeper of Days", sentence)
    if QApplication.platformName() != "offscreen":
        box.exec()
    return 1
