"""Where the command line tells: standard output, and what becomes of it when nobody can hear."""

import errno
import os
import sys
from contextlib import suppress

import click

DONE, WRONG, MISUSED = 0, 1, 2
"""What the command returns: done; it could not be done; it was not understood."""


def forgive_terminals() -> None:
    """Let a terminal that cannot show a letter have a question mark in its place."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")


def done(sentence: str) -> None:
    """Tell what was done; on standard error when standard output does not take it, for it is done all the same."""
    try:
        click.echo(sentence)
        sys.stdout.flush()
    except OSError:
        let_go(sys.stdout)
        aside(sentence)


def aside(sentence: str) -> None:
    """Tell on standard error; when nobody can hear, nothing."""
    try:
        click.echo(sentence, err=True)
        sys.stderr.flush()
    except OSError:
        let_go(sys.stderr)


def not_told(error: OSError) -> None:
    """Say why standard output did not take what was asked for."""
    let_go(sys.stdout)
    # The reader of a pipe (such as head) may have had enough; that is no trouble.
    if error.errno == errno.EBADF:
        aside("Nothing can be printed: standard output is closed.")
    elif error.errno != errno.EPIPE:
        aside(f"The system refused: {(error.strerror or str(error)).lower()}.")


def let_go(stream) -> None:
    """Let what a stream did not take be forgotten: Python flushes once more at its end."""
    with suppress(OSError, ValueError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())
        os.close(nowhere)
        stream.flush()
