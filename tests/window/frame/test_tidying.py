"""The keeper's folder is gone through once nobody types, in the background."""

import os
import stat
import sys
import time

import pytest

from keeper.window.frame import quiet


@pytest.mark.skipif(sys.platform == "win32", reason="permissions are different there")
def test_once_it_is_quiet_what_stands_open_is_closed_and_what_was_left_goes(qtbot, folder, store, opened, monkeypatch):
    photo, left = folder / "photos" / "ab" / "one.jpg", folder / "photos" / ".coming-4711-abcdefabcdef"
    photo.parent.mkdir()
    for file in (photo, left):
        file.touch()
        file.chmod(0o644)
        os.utime(file, (time.time() - 7200,) * 2)
    monkeypatch.setattr(quiet, "TIDY_AFTER", 100)
    opened()
    qtbot.waitUntil(lambda: not left.exists())
    qtbot.waitUntil(lambda: stat.S_IMODE(photo.stat().st_mode) == 0o600)
    assert photo.exists()
