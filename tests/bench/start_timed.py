"""Opens a window and tells as soon as one can type in it; run by test_bench_start.py.

``python start_timed.py keeper`` opens the program's own, ``python
start_timed.py bare`` nothing but a field.
"""

import gc
import sys


def watch(app, field_class: type) -> object:
    """Tell, and end, once a field has the focus."""
    from PySide6.QtCore import QTimer

    def look() -> None:
        if isinstance(app.focusWidget(), field_class):
            print("ready", flush=True)
            timer.stop()
            app.quit()

    timer = QTimer()
    timer.timeout.connect(look)
    timer.start(0)
    return timer


def keeper() -> int:
    """The program, opened as its command opens it."""
    # As the command does it: what does without Qt comes first (see keeper/start.py).
    gc.disable()
    from keeper.start import _import_all_but_qt, open_window

    _import_all_but_qt()
    # The program takes an application that is there already, so that one is
    # made here: there is no other way to look on without changing it.
    from PySide6.QtWidgets import QApplication, QPlainTextEdit

    app = QApplication(sys.argv[:1])
    timer = watch(app, QPlainTextEdit)
    status = open_window()
    del timer
    return status


def bare() -> int:
    """A window with one field."""
    from PySide6.QtWidgets import QApplication, QLineEdit, QVBoxLayout, QWidget

    app = QApplication(sys.argv[:1])
    window = QWidget()
    field = QLineEdit(window)
    QVBoxLayout(window).addWidget(field)
    window.show()
    field.setFocus()
    # As the program does; without it no field has the focus where no window manager gives it.
    window.activateWindow()
    timer = watch(app, QLineEdit)
    status = app.exec()
    del timer
    return status


if __name__ == "__main__":
    sys.exit({"keeper": keeper, "bare": bare}[sys.argv[1]]())
