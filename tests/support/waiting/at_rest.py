"""Waiting until a window has done all that was asked of it, and has heard of it."""

from PySide6.QtCore import QCoreApplication


def at_rest(qtbot, desk) -> None:
    """Wait until no lane has work of which the window has not heard, nor any that was asked for then.

    ``finish`` of a lane waits for the work alone: what the window makes of it comes later.
    """
    lanes, words = (desk.writer, desk.reader, desk.seeker, desk.worker, desk.darkroom), desk.words

    def is_so() -> bool:
        return not (words._sent or words._putting or any(lane._hearing for lane in lanes))

    for _ in range(3):
        qtbot.waitUntil(is_so)
        QCoreApplication.processEvents()
        if is_so():
            return
    qtbot.waitUntil(is_so)
