"""Chinese, emoji and the like on screen, on a system that has no typeface for them."""

import os
import subprocess
import sys
from datetime import date

import pytest
from PySide6.QtGui import QFont, QFontDatabase, QTextLayout

from keeper.window.desk.look import SANS, SERIF
from keeper.window.frame.start import foreign_letters

CHINESE = QFontDatabase.WritingSystem.SimplifiedChinese
TEXT = "今天下雨了。 今日は雨 오늘은 היום اليوم \U0001f3b9 \u2600 \u2192 \u2211"

_SHOWN_AT_START = """
import sys
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo
from keeper.clock import StoppedClock
from keeper.window.frame import opening
from PySide6.QtCore import QEventLoop, QTimer

clock = StoppedClock(datetime(2026, 11, 14, 22, 30, tzinfo=ZoneInfo("Europe/Riga")), "Europe/Riga")
app = opening.application()
frame = opening.make_frame(app, Path(sys.argv[1]), clock)
frame.show()
opening._open_page(frame, None)
field = frame.pages["night"].fields["memory"]

def until(true):
    while not true():
        loop = QEventLoop()
        QTimer.singleShot(10, loop.quit)
        loop.exec()

def picture():
    # The focus is elsewhere: no cursor blinks in it.
    return field.grab().toImage()

until(field.toPlainText)
before = picture()
opening.at_ease(frame)
until(frame.rest_is_loaded)
after = picture()
frame.dress_anew()
print(before == after, after == picture())
frame.leave()
"""


def boxes(text: str, font: QFont) -> int:
    """How many letters of a text have no glyph."""
    layout = QTextLayout(text, font)
    layout.beginLayout()
    layout.createLine()
    layout.endLayout()
    return sum(glyph == 0 for run in layout.glyphRuns() for glyph in run.glyphIndexes())


@pytest.mark.parametrize("family", [SERIF, SANS])
@pytest.mark.parametrize("size", [11.0, 17.0])
def test_no_letter_that_the_book_has_is_a_box_on_screen(frame, family, size):
    font = QFont(family)
    font.setPointSizeF(size)
    assert boxes(TEXT, font) == 0
    font.setItalic(True)
    assert boxes(TEXT, font) == 0


def test_the_book_s_faces_are_all_on_screen(frame):
    assert {"Noto Serif SC", "Noto Serif KR", "Noto Emoji", "Noto Sans Symbols 2", "Noto Sans Math",
            "Noto Serif Hebrew", "Noto Naskh Arabic"} <= set(QFontDatabase.families())  # fmt: skip
    if hasattr(QFontDatabase, "applicationEmojiFontFamilies"):
        assert QFontDatabase.applicationEmojiFontFamilies() == ["Noto Emoji"]


def test_what_stood_there_before_the_faces_came_is_set_anew(folder, store, write, tmp_path):
    # In a process of its own: in this one the faces may have come already.
    write(date(2026, 11, 14), "memory", "今天下雨了，我坐在窗边喝茶。\U0001f3b9")
    surroundings = {**os.environ, "QT_QPA_PLATFORM": "offscreen", "XDG_CACHE_HOME": str(tmp_path)}
    done = subprocess.run(
        [sys.executable, "-c", _SHOWN_AT_START, str(folder)], capture_output=True, text=True, timeout=200, env=surroundings
    )
    assert done.returncode == 0, done.stderr
    as_before, as_if_set_anew = done.stdout.split()
    # Where the system has faces for these letters, they were there before.
    assert as_if_set_anew == "True" and (as_before == "False" or QFontDatabase.families(CHINESE))


@pytest.mark.parametrize(
    ("text", "foreign"),
    [("", False), ("Plain.", False), ("Źdźbło, Æbeltoft – “so”", False), ("Привет, Ελλάδα", False), ("今", True),
     ("\u05e9", True), ("\u0645", True), ("\U0001f3b9", True), ("in tune \u2600", True)],
)  # fmt: skip
def test_letters_beyond_the_program_s_own_faces_are_known(text, foreign):
    assert foreign_letters.is_foreign(text) is foreign
