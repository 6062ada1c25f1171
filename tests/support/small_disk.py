"""A disk of its own for a test, which can be filled and closed to writing; where the system lets one be made."""

import os
import subprocess
from contextlib import suppress
from pathlib import Path

import pytest


class SmallDisk:
    """A disk of some megabytes in memory, at ``path``."""

    def __init__(self, path: Path, megabytes: int = 12) -> None:
        self.path = path
        path.mkdir()
        self._mount("-t", "tmpfs", "-o", f"size={megabytes}m", "tmpfs")

    def _mount(self, *told: str) -> None:
        try:
            done = subprocess.run(["mount", *told, str(self.path)], capture_output=True, timeout=200)
        except OSError:
            pytest.skip("No disk can be mounted here.")
        if done.returncode:
            pytest.skip("Only who may mount disks can try this.")

    def fill(self) -> None:
        """Leave no room on it."""
        with suppress(OSError), open(self.path / "filling", "ab", buffering=0) as filling:
            while True:
                filling.write(b"x" * 4096)
        assert os.statvfs(self.path).f_bavail == 0

    def empty(self) -> None:
        """Make room again."""
        (self.path / "filling").unlink()

    def close_to_writing(self) -> None:
        """Let it only be read."""
        self._mount("-o", "remount,ro")

    def open_to_writing(self) -> None:
        """Let it be written again."""
        self._mount("-o", "remount,rw")

    def end(self) -> None:
        """Take it away."""
        subprocess.run(["umount", "-l", str(self.path)], capture_output=True, timeout=200)
