"""The three streams a program begins with: what becomes of those that were closed."""

import os
import sys


def mend() -> None:
    """Open what was closed before the program began.

    Else the first file that is opened takes the place of a stream, and what
    is told would be written into it. A closed output then refuses what is
    told, as a full disk does.
    """
    for number, name, mode in ((0, "stdin", "r"), (1, "stdout", "w"), (2, "stderr", "w")):
        try:
            os.fstat(number)
        except OSError:
            # Opened to read only, standard output refuses; complaints nobody can hear go nowhere.
            os.open(os.devnull, os.O_WRONLY if name == "stderr" else os.O_RDONLY)
        if getattr(sys, name) is None:
            stream = open(number, mode, encoding="utf-8", errors="replace", closefd=False)  # noqa: SIM115
            setattr(sys, name, stream)
