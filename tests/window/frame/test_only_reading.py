"""A window on a keeper that can only be read: it opens, says so, keeps nothing and loses nothing."""

import os
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from waiting.at_rest import at_rest

from keeper.actions import writing
from keeper.actions.rescue import rescue
from keeper.store import create_store, lines, open_store
from keeper.window.frame import opening
from keeper.window.frame.only_reading import OnlyReading

NIGHT = date(2026, 11, 14)


@pytest.fixture(params=["full", "closed"])
def window(request, qtbot, small_disk, clock, tmp_path, monkeypatch):
    """A window on a keeper with a line, on a disk that is full or closed to writing."""
    place = small_disk.path / "keeper"
    with create_store(place) as store:
        writing.write_line(store, NIGHT, "gratitude", "The kettle sang.", clock)
    small_disk.fill() if request.param == "full" else small_disk.close_to_writing()
    monkeypatch.setattr(Path, "home", lambda: tmp_path)
    opening.application()
    frame = opening.make_frame(QApplication.instance(), place, clock)
    frame.why = "its disk is full" if request.param == "full" else "its disk, folder or file is closed to writing"
    frame.show()
    opening._open_page(frame, None)
    frame.load_rest()
    qtbot.waitUntil(frame.rest_is_loaded)
    yield frame
    frame.leave()
    assert not frame.isVisible()
    frame.deleteLater()


def sentences(frame) -> str:
    """What stands above the pages."""
    return frame.findChild(OnlyReading).told.text()


def test_it_opens_shows_what_is_kept_and_says_that_it_can_only_be_read(window):
    assert window.pages["night"].fields["gratitude"].toPlainText() == "The kettle sang."
    assert sentences(window) == f"This keeper can only be read: {window.why}. What you type here is not kept."
    assert window.windowTitle().endswith("(only to read)")


def test_what_is_typed_is_never_called_kept_and_put_on_another_disk_within_seconds(qtbot, window, tmp_path):
    page, file = window.pages["night"], tmp_path / "keeper-unkept-2026-11-14.txt"
    field = page.fields["memory"]
    field.setFocus()
    for more, all_of_it in (("Swam", "Swam"), (" in the cold", "Swam in the cold")):
        QTest.keyClicks(field, more)
        qtbot.waitUntil(
            lambda all_of_it=all_of_it: file.exists() and file.read_text() == f"2026-11-14 memory: {all_of_it}\n", timeout=30_000
        )
    page.commit("memory")
    qtbot.waitUntil(lambda: page.blocks["memory"].state.text() == "not kept yet")
    assert sentences(window).endswith(f"A copy of what you typed is in {file}.")
    assert not window.close()
    assert f"A copy of the words is in {file}." in window.said.text()
    # In one file, however often it was written.
    assert list(tmp_path.glob("keeper-unkept*")) == [file] and file.stat().st_mode & 0o777 == 0o600


def test_every_page_opens(qtbot, window):
    for page in ("looking back", "month", "year", "themes", "places", "find", "settings"):
        window.go(page)
        for _ in range(3):
            at_rest(qtbot, window.desk)
        assert window.page_shown() == page
        assert not (window.desk.folder / "trouble.txt").exists(), page
        assert "unexpected" not in window.said.text(), page


def test_another_disk_that_fills_too_leaves_what_it_took_before(small_disk, tmp_path, monkeypatch):
    file = rescue({(NIGHT, "memory"): "Swam."}, small_disk.path / "keeper", NIGHT)
    assert file.parent == small_disk.path
    small_disk.fill()
    monkeypatch.setattr(Path, "home", lambda: tmp_path)
    longer = rescue({(NIGHT, "memory"): "Swam " * 5000}, small_disk.path / "keeper", NIGHT, file)
    assert file.read_text() == "2026-11-14 memory: Swam.\n"
    assert longer.parent == tmp_path and longer.read_text().count("Swam") == 5000
    assert not list(small_disk.path.glob("*.new"))


def test_a_damaged_line_is_told_of_in_the_window(qtbot, opened, folder, store, clock):
    writing.write_line(store, NIGHT, "memory", "The kettle sang.", clock)
    store.connection.execute("UPDATE line SET written_at = 'Thursday'")
    frame = opened()
    assert frame.pages["night"].fields["memory"].toPlainText() == "The kettle sang."
    assert "The words of 2026-11-14 are whole." in frame.said.text()
    with open_store(folder) as again:
        assert lines.count(again) == 1


def test_what_nobody_expected_at_the_start_is_a_sentence(tmp_path):
    script = (
        "import sys; from pathlib import Path; from keeper.window.frame import opening\n"
        "opening.make_frame = lambda *_: 1 / 0\n"
        "sys.exit(opening.run(Path(sys.argv[1]), None, False))"
    )
    create_store(tmp_path / "keeper").close()
    env = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    done = subprocess.run([sys.executable, "-c", script, tmp_path / "keeper"], capture_output=True, text=True, env=env)
    assert done.returncode == 1
    assert done.stderr.startswith("keeper: Something unexpected went wrong (ZeroDivisionError).")
    assert "Traceback" not in done.stderr
