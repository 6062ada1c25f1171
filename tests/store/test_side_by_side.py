"""Several connections in one process, and another program beside them.

On Unix a process loses all its locks on a file as soon as it closes any handle
of that file (POSIX.1, fcntl), so nothing but SQLite may ever open keeper.db
while it is in use.
"""

import subprocess
import sys
from datetime import date

from keeper.actions import opening, writing
from keeper.store import lines
from keeper.store.file.opening import FILE

WRITER = """
import sys
from datetime import date
from pathlib import Path
from keeper.actions import opening, writing
from keeper.clock import Clock
with opening.open_again(Path(sys.argv[1])) as store:
    writing.write_line(store, date(2026, 1, int(sys.argv[2])), "memory", "from another program", Clock())
"""


def write_elsewhere(folder, day):
    subprocess.run([sys.executable, "-c", WRITER, str(folder), str(day)], check=True, timeout=200)


def test_another_program_never_takes_away_what_this_one_has_open(store, folder, clock):
    writing.write_line(store, date(2026, 1, 1), "memory", "mine", clock)
    for day in range(2, 6):
        with opening.open_again(folder) as lane:
            assert lines.of_night(lane, date(2026, 1, 1))[-1].text == "mine"
        write_elsewhere(folder, day)
        # The other program was not the last to leave, so it left the log alone.
        assert (folder / f"{FILE}-wal").exists()
        assert lines.of_night(store, date(2026, 1, day))[0].text == "from another program"
        writing.write_line(store, date(2026, 1, 1), "gratitude", f"still mine {day}", clock)
    with opening.open_again(folder) as lane:
        assert lines.of_night(lane, date(2026, 1, 1))[0].text == "still mine 5"


def test_a_change_by_another_program_is_noticed(store, folder):
    before = store.version()
    write_elsewhere(folder, 9)
    assert store.version() != before
