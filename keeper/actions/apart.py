"""Long work on the keeper in a process of its own, so that nothing holds the window up.

Threads of one process take turns at Python; a sum of some seconds would make
the window stutter. The process opens the keeper once more, as the command line
does beside an open window. It may be ended at any moment: what it had not yet
kept whole is not there.
"""

import os
import pickle
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from queue import Empty, SimpleQueue
from typing import IO, Any

from keeper.actions import trouble
from keeper.actions.opening import open_again
from keeper.errors import KeeperError, Stopped
from keeper.store import Store

Progress = Callable[[float, str], None]

# Not the module multiprocessing: its processes run the script again that the window was started from.
_PROGRAM = (
    "import pickle, sys; sys.path[:] = pickle.load(sys.stdin.buffer); from keeper.actions.apart import work; work()"
)
_LOOK_ROUND = 0.05  # seconds between looks whether to stop
_NICE = 5
_BEGUN, _HEARD, _DONE, _FAILED, _ENDED = range(5)


class _NeverBegan(Exception):
    """No process came up."""


def apart(
    store: Store, act: Callable, *given: Any, progress: Progress | None = None, stopped: Callable[[], bool] | None = None
) -> Any:
    """``act(store, *given)`` in a process of its own, at a lower priority; returns its outcome.

    With ``progress`` it is ``act(store, *given, progress, stopped)``. ``act`` is
    a function of a module; what goes in and what comes out are plain values.
    Where no process comes up it is done here. Raises what ``act`` raises, and
    Stopped as soon as ``stopped()`` says so.
    """
    stopped = stopped or (lambda: False)
    try:
        with _process(store.folder, act, given, progress is not None) as news:
            return _heard_out(news, progress or (lambda *_: None), stopped)
    except _NeverBegan:
        return act(store, *given, *((progress, stopped) if progress else ()))


@contextmanager
def _process(folder: Path, act: Callable, given: tuple, hears: bool) -> Iterator[SimpleQueue]:
    """A process at work and its news; when the block is left it is ended."""
    try:
        asked = pickle.dumps(sys.path) + pickle.dumps((folder, act, given, hears))
        process = subprocess.Popen(
            [sys.executable, "-P", "-c", _PROGRAM], stdin=subprocess.PIPE, stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL, env=_surroundings(), creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
        )  # fmt: skip
    except (OSError, ValueError, AttributeError, pickle.PicklingError) as error:
        raise _NeverBegan from error
    news: SimpleQueue = SimpleQueue()
    listener = threading.Thread(target=_listen, args=(process.stdout, news), daemon=True)
    with process:
        try:
            with suppress(OSError), process.stdin as asking:
                asking.write(asked)
            listener.start()
            yield news
        finally:
            process.kill()
            listener.join()


def _surroundings() -> dict[str, str]:
    # One core is the window's; sums spread over all of them would wait for one another.
    cores = str(max(1, (os.cpu_count() or 1) - 1))
    return {"OMP_NUM_THREADS": cores, "OPENBLAS_NUM_THREADS": cores, **os.environ}


def _listen(told: IO[bytes], news: SimpleQueue) -> None:
    # A pipe cannot be asked on every system whether there is something in it.
    with suppress(EOFError, OSError, pickle.UnpicklingError):
        while True:
            news.put(pickle.load(told))
    news.put((_ENDED,))


def _heard_out(news: SimpleQueue, progress: Progress, stopped: Callable[[], bool]) -> Any:
    begun = False
    while not stopped():
        try:
            what, *told = news.get(timeout=_LOOK_ROUND)
        except Empty:
            continue
        if what == _DONE:
            return told[0]
        if what == _FAILED:
            raise told[0]
        if what == _ENDED:
            raise KeeperError("The work ended before it was done; everything stays as it was.") if begun else _NeverBegan
        begun = True
        if what == _HEARD:
            progress(*told)
    raise Stopped


def work() -> None:
    """What the process does: asked through its standard input, it tells through its standard output."""
    told = _stand_back()

    def tell(*news: Any) -> None:
        pickle.dump(news, told)
        told.flush()

    folder, act, given, hears = pickle.load(sys.stdin.buffer)
    tell(_BEGUN)
    heard = (lambda share, words: tell(_HEARD, share, words), lambda: False) if hears else ()
    try:
        with open_again(folder) as store:
            outcome = act(store, *given, *heard)
        tell(_DONE, outcome)
    except KeeperError as error:
        tell(_FAILED, error)
    except BrokenPipeError:
        os._exit(1)  # nobody listens any more
    except Exception as error:
        tell(_FAILED, KeeperError(trouble.note(folder, error)))


def _stand_back() -> IO[bytes]:
    """Let the window go first; returns where to tell, which nothing that prints can reach."""
    import signal

    # Ctrl-C in a terminal reaches this process too; the window decides.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if hasattr(os, "nice"):
        os.nice(_NICE)
    told = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    return told
