"""What is brought in when a closer look is opened, on the window's thread: none of the libraries that sums need."""

import subprocess
import sys


def test_opening_a_closer_look_brings_in_no_library_for_sums():
    listed = (
        "import sys; from importlib import import_module; from keeper.window.patterns.page import FURTHER; "
        "[import_module(f'keeper.window.patterns.{one.made_by.partition(\":\")[0]}') for one in FURTHER]; "
        "print(len(FURTHER), *[name for name in ('numpy', 'scipy', 'ruptures') if name in sys.modules])"
    )
    shown = subprocess.run([sys.executable, "-c", listed], capture_output=True, text=True, timeout=200)
    assert shown.returncode == 0 and int(shown.stdout.split()[0]) >= 4, shown.stderr
    assert shown.stdout.split()[1:] == []
