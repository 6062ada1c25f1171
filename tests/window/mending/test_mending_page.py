"""A window whose keeper turns out to be broken: it says so, keeps nothing, and comes to a mended one."""

import sqlite3
from datetime import date, timedelta

import pytest
from PySide6.QtTest import QTest

from keeper.actions.damage import checking, mending
from keeper.errors import CannotWrite, NotAKeeper
from keeper.store import lines, open_store
from keeper.store.file.folder import DAMAGE, FILE
from keeper.window.frame import opening
from keeper.window.frame.damage import broken, soundness
from keeper.window.frame.only_reading import OnlyReading

NIGHT = date(2026, 11, 14)


@pytest.fixture(autouse=True)
def soon(monkeypatch, tmp_path):
    """Looked over at once; and what is rescued stays in the test's folder."""
    monkeypatch.setattr(soundness, "LOOK_AFTER", 0)
    monkeypatch.setattr(soundness, "PHOTOS_AFTER", 50)


@pytest.fixture
def kept(store, write):
    """A keeper with a few lines."""
    for n in range(12):
        write(NIGHT - timedelta(days=n), "memory", f"The kettle sang {n}.")
    return store


def change_behind_its_back(folder, text="The kettle sank 3.", where="The kettle sang 3."):
    """What a disk does to letters."""
    connection = sqlite3.connect(folder / FILE)
    connection.execute("UPDATE line SET text = ? WHERE text = ?", (text, where))
    connection.commit()
    connection.close()


def test_a_keeper_that_is_well_is_not_spoken_of(qtbot, kept, opened, folder):
    frame = opened()
    qtbot.waitUntil(lambda: (folder / "checks.json").exists())
    assert frame.findChild(OnlyReading) is None and not frame.said.isVisible() and not (folder / DAMAGE).exists()
    frame.go("mending")
    page = frame.pages["mending"]
    assert not page.view.isVisible() and page.look_over.hasFocus()
    page.look_over.click()
    qtbot.waitUntil(lambda: "It is what was written" in page.told.text())


@pytest.fixture
def damaged(qtbot, kept, opened, folder):
    """A window that has found out."""
    change_behind_its_back(folder)
    frame = opened()
    qtbot.waitUntil(lambda: frame.findChild(OnlyReading) is not None)
    return frame


def test_on_trouble_it_is_read_only_at_once_and_said_plainly(qtbot, damaged, folder, tmp_path):
    assert damaged.said.text().startswith("This keeper is damaged. 1 line is not as it was written: Wednesday 11 November 2026.")
    assert "its file is damaged. What you type here is not kept." in damaged.findChild(OnlyReading).told.text()
    page = damaged.pages["night"]
    field = page.fields["gratitude"]
    field.setFocus()
    QTest.keyClicks(field, "Swam in the cold")
    page.commit("gratitude")
    qtbot.waitUntil(lambda: page.blocks["gratitude"].state.text() == "not kept yet")
    rescued = folder.parent / "keeper-unkept-2026-11-14.txt"
    qtbot.waitUntil(lambda: rescued.exists() and "Swam in the cold" in rescued.read_text())
    with open_store(folder) as again:
        assert again.only_read
        with pytest.raises(CannotWrite, match="keeper mend"), again.writing():
            pass
        assert lines.count(again) == 12


def mended(qtbot, frame, take: bool):
    """Go through the page to a mended keeper, with or without the doubtful line."""
    frame.findChild(OnlyReading).mend.click()
    page = frame.pages["mending"]
    assert frame.page_shown() == "mending" and page.view.see.hasFocus()
    page.view.see.click()
    qtbot.waitUntil(lambda: page.view.survey is not None and len(page.view.doubtful.rows) == 1)
    (shown,) = page.view.doubtful.rows
    assert shown.one.text == "The kettle sank 3."
    shown.take.setChecked(take)
    page.view.mend.click()
    qtbot.waitUntil(lambda: not frame.isVisible())
    assert frame.opens_anew
    opening.put_into_place(frame)


@pytest.mark.parametrize("take", [True, False])
def test_it_is_mended_and_one_types_on(qtbot, damaged, opened, folder, take):
    mended(qtbot, damaged, take)
    frame = opened()
    assert frame.findChild(OnlyReading) is None and not frame.desk.store.only_read
    page = frame.pages["night"]
    field = page.fields["gratitude"]
    field.setFocus()
    QTest.keyClicks(field, "Swam in the cold")
    page.commit("gratitude")
    qtbot.waitUntil(lambda: page.blocks["gratitude"].state.text() == "kept")
    with open_store(folder) as store:
        texts = {line.text for line in lines.between(store, date(2026, 1, 1), NIGHT)}
        assert ("The kettle sank 3." in texts) == take and len(texts) == 12 + take
        assert not checking.look_over(store, NIGHT, all_of_it=True)
    (room,) = (folder / "broken").iterdir()
    assert b"The kettle sank 3." in b"".join(file.read_bytes() for file in room.iterdir())


def test_a_keeper_that_cannot_be_opened_is_mended_before_there_is_a_window(qtbot, folder, kept):
    kept.close()
    data = bytearray((folder / FILE).read_bytes())
    data[:100] = bytes(100)
    (folder / FILE).write_bytes(data)
    look = opening.Look(opening.application())
    look.dress({})
    dialog = broken.BrokenDialog(look, folder, "It cannot be opened.")
    dialog.show()
    dialog.view.see.click()
    qtbot.waitUntil(lambda: dialog.view.survey is not None)
    assert len(dialog.view.survey.choice.right) == 12
    dialog.view.mend.click()
    qtbot.waitUntil(lambda: not dialog.isVisible())
    assert dialog.result() == 1 and mending.put_into_place(folder)
    with open_store(folder) as store:
        assert lines.count(store) == 12


def test_a_window_that_could_not_open_a_keeper_does_not_hold_it(qtbot, folder, kept):
    kept.close()
    (folder / FILE).write_bytes(bytes(100) + (folder / FILE).read_bytes()[100:])
    with pytest.raises(NotAKeeper) as raised:
        opening._frame(opening.application(), folder, None, False)
    lock = opening._locked(folder)
    assert lock is not None and raised.value
    lock.unlock()
