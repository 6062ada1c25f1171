"""Faces that are loaded after one can type: what is shown by then is drawn again with them."""

from PySide6.QtCore import QEvent, QObject

from keeper.actions import writing
from keeper.window.frame.start.rest import Rest


class Paintings(QObject):
    """Counts how often a widget is drawn."""

    count = 0

    def eventFilter(self, drawn: QObject, event: QEvent) -> bool:
        self.count += event.type() == QEvent.Type.Paint
        return False


def test_a_question_is_drawn_again_once_its_italic_is_there(qtbot, store, opened, tonight):
    writing.ask_question(store, tonight, "What sounded different?")
    frame = opened(rest=False)
    shown = frame.pages["night"].question.shown
    qtbot.waitUntil(shown.isVisible)
    paintings, drawn = Paintings(), -1
    shown.installEventFilter(paintings)
    # Until nothing else draws it.
    while drawn != paintings.count:
        drawn = paintings.count
        qtbot.wait(200)
    Rest(frame).take_in_faces()
    qtbot.waitUntil(lambda: paintings.count > drawn)
