"""Where the program begins; the only wiring.

Kept light: what is imported here and by the window's first page decides how
soon one can type.
"""

import gc
import sys
import warnings
from datetime import date
from pathlib import Path

from keeper import streams, system
from keeper.errors import KeeperError, MissingLibrary
from keeper.private import keep_to_oneself


def main(arguments: list[str] | None = None) -> int:
    """The command ``keeper``: the window, or one of the verbs."""
    streams.mend()
    keep_to_oneself()
    if not sys.warnoptions:
        # Libraries warn whoever programs with them, not the person.
        warnings.showwarning = lambda *_, **__: None
    arguments = sys.argv[1:] if arguments is None else arguments
    if arguments in ([], ["--demo"]):
        return open_window(demo=bool(arguments))
    from keeper.cli.command import main as command

    return command(arguments, open_window)


def open_window(folder: Path | None = None, night: date | None = None, demo: bool = False) -> int:
    """Open the window on a keeper, or bring the one already open forward.

    ``folder`` is the keeper's; the person's own when None. Returns the exit
    status; what goes wrong is told on the screen or, without one, in the
    terminal.
    """
    # Garbage is left alone until one can type; the window takes it up again.
    gc.disable()
    _import_all_but_qt()
    try:
        system.check_system()
        from keeper.window.frame.opening import run
    except ImportError as error:
        return _told(MissingLibrary(system.why_not(str(error))))
    except KeeperError as error:
        return _told(error)
    return run(folder, night, demo)


def _import_all_but_qt() -> None:
    # Once PySide6 is in, it reads the source of every module imported after
    # it; so whatever does without Qt comes first.
    import queue
    import threading

    from keeper.actions import drafts, opening, reading, rescue, trouble, writing
    from keeper.dates import written
    from keeper.window.desk import keys, palette, words

    del queue, threading, drafts, opening, reading, rescue, trouble, writing, written, keys, palette, words


def _told(error: KeeperError) -> int:
    print(f"keeper: {error}", file=sys.stderr)
    return 1


if __name__ == "__main__":
    sys.exit(main())
