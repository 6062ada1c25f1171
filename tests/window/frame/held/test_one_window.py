"""One window a keeper, by whatever way it is reached; and none is begun before one was asked."""

import os
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from keeper.actions import opening as keepers
from keeper.actions import writing
from keeper.actions.backups import making
from keeper.errors import CannotWrite
from keeper.store import create_store, lines, open_store
from keeper.store.file.folder import FILE
from keeper.window.desk.look import Look
from keeper.window.frame import opening
from keeper.window.frame.held.beginning import BeginDialog
from keeper.window.frame.held.lock import address, lock

WINDOW = """
import sys
from pathlib import Path
from PySide6.QtCore import QTimer
from keeper.window.frame import opening
settle = opening._settle_in
def settled(app, frame):
    settle(app, frame)
    frame.rest.add([lambda: print("open", flush=True)])
    frame.come_forward = lambda night: print("came forward", flush=True)
    QTimer.singleShot(200_000, app.quit)
opening._settle_in = settled
sys.exit(opening.run(Path(sys.argv[1]), None, False))
"""


def window(folder: Path) -> subprocess.Popen:
    env = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    return subprocess.Popen([sys.executable, "-c", WINDOW, os.fspath(folder)], stdout=subprocess.PIPE,
                            stderr=subprocess.PIPE, text=True, env=env)  # fmt: skip


def called(folder: Path, again: Path) -> tuple[str, int]:
    """What a window says when the keeper is opened once more, and what that returns."""
    first = window(folder)
    try:
        assert first.stdout.readline() == "open\n"
        second = window(again)
        told, _ = second.communicate(timeout=200)
        assert told == ""
        return first.stdout.readline(), second.returncode
    finally:
        first.terminate()
        first.communicate(timeout=200)


@pytest.mark.skipif(sys.platform == "win32", reason="links need rights there")
@pytest.mark.parametrize("linked", ["keeper", "folder"])
def test_through_a_linked_folder_the_window_that_is_open_comes_forward(tmp_path, linked):
    real = tmp_path / "real" / "keeper"
    create_store(real).close()
    link = tmp_path / "link"
    link.symlink_to(real if linked == "keeper" else real.parent)
    assert called(real, link if linked == "keeper" else link / "keeper") == ("came forward\n", 0)


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="other systems have no such names")
def test_a_folder_whose_name_is_no_text_has_one_window_too(tmp_path):
    named = Path(os.fsdecode(os.fsencode(tmp_path) + b"/\xff\xfe keeper"))
    create_store(named).close()
    assert called(named, named) == ("came forward\n", 0)


def test_a_keeper_that_lies_where_no_lock_can_is_locked_all_the_same(small_disk):
    folder = small_disk.path / "keeper"
    create_store(folder).close()
    small_disk.close_to_writing()
    held = lock(folder)
    assert held.isLocked()
    assert lock(folder) is None
    held.unlock()
    assert lock(folder).isLocked()


def left_by_a_killed_window(folder) -> Path:
    """The lock beside a keeper as a killed window leaves it, made a while ago."""
    script = f"import os; from keeper.window.frame.held.lock import lock; held = lock({str(folder)!r}); os._exit(9)"
    subprocess.run([sys.executable, "-c", script], check=False, timeout=200)
    left = folder.parent / f".{folder.name}.lock"
    os.utime(left, (1, 1))
    return left


@pytest.mark.parametrize("disk", ["full", "closed"])
def test_a_window_that_was_killed_holds_no_keeper_on_a_disk_that_takes_nothing(small_disk, disk):
    folder = small_disk.path / "keeper"
    create_store(folder).close()
    left_by_a_killed_window(folder)
    small_disk.fill() if disk == "full" else small_disk.close_to_writing()
    held = lock(folder)
    assert held and held.isLocked()
    assert lock(folder) is None
    held.unlock()


def test_an_empty_lock_left_by_a_power_cut_holds_no_keeper(tmp_path):
    folder = tmp_path / "keeper"
    create_store(folder).close()
    left_by_a_killed_window(folder).write_bytes(b"")
    os.utime(tmp_path / ".keeper.lock", (1, 1))
    held = lock(folder)
    assert held and held.isLocked()
    assert lock(folder) is None
    held.unlock()


def test_windows_of_two_keepers_are_told_apart(tmp_path):
    (tmp_path / "link").symlink_to(tmp_path / "one")
    assert address(tmp_path / "one") == address(tmp_path / "link") != address(tmp_path / "two")


@pytest.fixture
def asked(qapp, monkeypatch):
    """What was asked before a keeper was begun; ``asked.answer`` is the answer."""
    class Asked(list):
        answer = 0

    asked = Asked()
    monkeypatch.setattr(BeginDialog, "exec", lambda self: asked.append(self.told.text()) or asked.answer)
    return asked


@pytest.mark.parametrize("there", [True, False])
def test_in_a_folder_that_was_named_the_window_asks_before_it_begins_a_keeper(asked, tmp_path, there):
    named = tmp_path / "stick" / "keeper"
    named.mkdir(parents=True) if there else None
    assert opening._frame(QApplication.instance(), named, None, False) == (None, None)
    assert [sentence.replace("\u200b", "") for sentence in asked] == [f"There is no keeper in {named}."]
    assert (os.listdir(named) == []) if there else not named.parent.exists()
    asked.answer = 1
    frame, held = opening._frame(QApplication.instance(), named, None, False)
    assert keepers.has_keeper(named)
    frame.desk.end()
    held.unlock()
    frame.deleteLater()


def test_in_the_usual_folder_it_begins_one_unasked(asked, folder):
    frame, held = opening._frame(QApplication.instance(), folder, None, False)
    assert asked == [] and keepers.has_keeper(folder)
    frame.desk.end()
    held.unlock()
    frame.deleteLater()


def test_a_key_pressed_too_early_begins_nothing(qtbot, tmp_path):
    from PySide6.QtCore import Qt

    look = Look(opening.application())
    look.dress({})
    dialog = BeginDialog(look, tmp_path)
    dialog.show()
    qtbot.waitUntil(lambda: dialog.focusWidget() is dialog.leave)
    qtbot.keyClick(dialog.focusWidget(), Qt.Key.Key_Return)
    qtbot.keyClick(dialog.focusWidget(), Qt.Key.Key_Space)
    assert dialog.result() == 0
    dialog.reject()


def test_a_backup_that_lies_there_can_be_brought_back_instead(qtbot, folder, store, clock, tmp_path):
    writing.write_line(store, date(2026, 11, 14), "memory", "The ferry.", clock)
    making.back_up_now(store, making.own_place(store), clock)
    store.close()
    for name in ("", "-wal", "-shm"):
        (folder / f"{FILE}{name}").unlink(missing_ok=True)
    look = Look(opening.application())
    look.dress({})
    dialog = BeginDialog(look, folder)
    dialog.show()
    qtbot.waitUntil(dialog.bring.isVisible)
    assert dialog.kept.text() == "Its backup of Saturday 14 November 2026 is there, with 1 night and 1 line."
    assert dialog.focusWidget() is dialog.leave
    dialog.bring.click()
    qtbot.waitUntil(lambda: dialog.result() == 1)
    with open_store(folder) as back:
        assert [line.text for line in lines.of_night(back, date(2026, 11, 14))] == ["The ferry."]


def test_a_backup_that_cannot_be_brought_back_is_told_and_all_can_be_tried_again(qtbot, folder, store, clock, monkeypatch):
    writing.write_line(store, date(2026, 11, 14), "memory", "The ferry.", clock)
    making.back_up_now(store, making.own_place(store), clock)
    store.close()
    (folder / FILE).unlink()
    look = Look(opening.application())
    look.dress({})
    dialog = BeginDialog(look, folder)
    dialog.show()
    qtbot.waitUntil(dialog.bring.isVisible)

    def full(*_):
        raise CannotWrite("The disk is full.")

    monkeypatch.setattr("keeper.actions.backups.bringing_back.bring_back_into", full)
    dialog.bring.click()
    qtbot.waitUntil(lambda: dialog.progress.text() == "The disk is full.")
    assert dialog.result() == 0 and dialog.bring.isEnabled() and not dialog.stop.isVisible()
    dialog.reject()
