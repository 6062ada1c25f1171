"""What rests, in the settings: names and dates first, the words only where they are asked for."""

from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel

from keeper.actions import people
from keeper.model import Photo
from keeper.store import resting
from keeper.store.photos import known as photos


@pytest.fixture
def rests(qtbot, frame, store, write):
    line = write(date(2026, 3, 9), "memory", "The call in the night.")
    photo = photos.add(store, Photo("", "f" * 64, "jpg", 10, 40, 30, caption="The last ferry together"))
    photos.attach(store, date(2026, 4, 2), photo.id)
    resting.rest(store, "line", line.id)
    resting.rest(store, "photo", photo.id)
    people.rest(store, people.add(store, "Oddny").id)
    frame.go("settings")
    qtbot.waitUntil(lambda: frame.pages["settings"].resting is not None)
    box = frame.pages["settings"].resting
    qtbot.waitUntil(lambda: box.count.text() == "3 things rest.")
    box.open.setFocus()
    qtbot.keyClick(box.open, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: len(box.rows) == 3)
    return box


def seen(box) -> str:
    return " | ".join(part.text() for part in box.findChildren(QLabel) if part.isVisible())


def test_to_wake_one_no_painful_words_are_met(rests):
    assert [(row.name.text(), row.wake.accessibleName()) for row in rests.rows] == [
        ("Oddny", "Wake a name, Oddny"), ("Thu 2 Apr 2026", "Wake a photo, Thu 2 Apr 2026"),
        ("Mon 9 Mar 2026", "Wake a line of Mon 9 Mar 2026, memory"),
    ]  # fmt: skip
    assert "night." not in seen(rests) and "ferry" not in seen(rests)


def test_the_words_come_and_go_by_keyboard_one_row_at_a_time(qtbot, rests):
    *_, line = rests.rows
    rests.open.setFocus()
    for _ in range(20):
        if line.look.hasFocus():
            break
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
    assert line.look.hasFocus() and line.look.accessibleName() == "Read a line of Mon 9 Mar 2026, memory"
    qtbot.keyClick(line.look, Qt.Key.Key_Return)
    assert "The call in the night." in seen(rests) and "ferry" not in seen(rests)
    assert line.look.accessibleName() == "Hide a line of Mon 9 Mar 2026, memory"
    assert line.look.accessibleDescription() == "The call in the night."
    qtbot.keyClick(line.look, Qt.Key.Key_Return)
    assert "The call in the night." not in seen(rests) and line.look.hasFocus()
    assert not rests.rows[0].look.isVisible()
