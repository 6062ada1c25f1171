"""The longest block while the 1,250 lines of a theme come, fifty at a time, and are scrolled through."""

from datetime import UTC, date, datetime, time, timedelta

from PySide6.QtCore import QElapsedTimer
from PySide6.QtWidgets import QApplication

from keeper.model import Found, Line, Moment
from keeper.window.frame import opening
from keeper.window.themes.lines import ThemeLines

MANY, AT_ONCE, STEP = 1250, 50, 150


def line(at: int) -> Found:
    night = date(2023, 1, 1) + timedelta(at)
    words = f"{at}: " + "felt and brass, rain on the pier, " * (at % 7 + 1)
    return Found(Line(f"line{at}", night, "gratitude", words, Moment(datetime.combine(night, time(21), UTC), 0, "")), "")


def test_scrolling_through_a_large_theme(folder, store, clock):
    opening.application()
    frame = opening.make_frame(QApplication.instance(), folder, clock)
    shown = ThemeLines(frame.desk.look, lambda: None)
    shown.resize(700, 500)
    shown.show()
    watch, longest = QElapsedTimer(), {"come": 0.0, "scrolled": 0.0}

    def timed(what, act):
        watch.start()
        act()
        QApplication.processEvents()
        longest[what] = max(longest[what], watch.nsecsElapsed() / 1e6)

    shown.show_lines(tuple(map(line, range(AT_ONCE))), True, True)
    QApplication.processEvents()
    bar = shown.verticalScrollBar()
    for at in range(AT_ONCE, MANY, AT_ONCE):
        some = tuple(map(line, range(at, at + AT_ONCE)))
        timed("come", lambda some=some: shown.rows.append(some, True))
        while bar.value() < bar.maximum():
            timed("scrolled", lambda: bar.setValue(bar.value() + STEP))
    frame.leave()
    print(f"\n{MANY} lines: at most {longest['come']:.0f} ms when more come, {longest['scrolled']:.0f} ms while scrolling")
