"""Pages of a PDF (ISO 32000) as pictures; a process of its own draws them, which is ended where a page takes for ever."""

import atexit
import os
import pickle
import signal
import stat
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from queue import Empty, SimpleQueue
from typing import IO, TYPE_CHECKING, Any

from keeper.errors import Stopped, UnreadablePhoto, shown_name
from keeper.exchange import pdf_drawing

if TYPE_CHECKING:
    from PIL.Image import Image

MAGIC = b"%PDF-"
_WITHIN = 1024
"""Bytes within which the magic stands (ISO 32000-1, annex H, implementation note 13)."""

LONGEST = 45.0 if hasattr(signal, "setitimer") else 20.0
"""Seconds that a page may take by the clock. Where the system counts them, seconds of the processor end it far sooner (``pdf_drawing.A_SECOND``)."""

_LOOK_ROUND = 0.05
"""Seconds between looks whether to stop."""

_ENDING = 5.0
_COMING_UP = 60.0
_IDLE = 30.0
"""Seconds after which a process that is asked nothing more is let go."""

_PROGRAM = (
    "import pickle, sys; sys.path[:] = pickle.load(sys.stdin.buffer); from keeper.exchange.pdf_drawing import work; work()"
)

# The library may be used by one thread at a time.
_alone = threading.Lock()


def is_pdf(path: Path) -> bool:
    """Whether a file begins as a PDF does; one that cannot be read does not."""
    try:
        # Opening a pipe or a device could wait for ever.
        if not stat.S_ISREG(os.stat(path).st_mode):
            return False
        with open(path, "rb") as file:
            return MAGIC in file.read(_WITHIN)
    except (OSError, ValueError):
        return False


def pages_of(path: Path, called: Path | None = None, stopped: Callable[[], bool] = lambda: False) -> int:
    """How many pages a PDF has, each of which can be opened.

    ``called`` is the name that sentences give it. Raises UnreadablePhoto for
    one that is damaged, locked by a password, without pages or with too many,
    Stopped as soon as ``stopped()`` says so.
    """
    return _asked(pdf_drawing.pages_of, shown_name(called or path), path, stopped=stopped)


def page_picture(path: Path, number: int, longest_side: int, called: Path | None = None) -> "Image":
    """A page, counted from 0, as an RGB picture; its longer side has so many dots.

    Raises UnreadablePhoto.
    """
    from PIL import Image

    return Image.frombytes("RGB", *_asked(pdf_drawing.page_drawn, shown_name(called or path), path, number, longest_side))


class _Ended(Exception):
    """The process is gone."""


class _NeverBegan(Exception):
    """No process came up: what is asked for is drawn here."""


class _Drawer:
    """The process, asked one thing at a time."""

    def __init__(self) -> None:
        self._process = subprocess.Popen(
            [sys.executable, "-P", "-c", _PROGRAM], stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL,
            creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
        )  # fmt: skip
        self._news: SimpleQueue = SimpleQueue()
        # A pipe cannot be asked on every system whether there is something in it.
        self._listener = threading.Thread(target=_listen, args=(self._process.stdout, self._news), daemon=True)
        self._listener.start()

    def begin(self) -> None:
        """Wait until it can be asked. Raises _Ended."""
        try:
            self._tell(sys.path)
            self._heard(_COMING_UP)
        except Empty:
            raise _Ended from None

    def ask(self, act: Callable, given: tuple, stopped: Callable[[], bool]) -> tuple:
        """What it answers. Raises Empty where it takes too long, _Ended, Stopped."""
        self._tell((act, given))
        try:
            while (news := self._heard(LONGEST, stopped))[0] == pdf_drawing.GOES_ON:
                pass
        except _Ended:
            if self._took_too_much():
                raise Empty from None
            raise
        return news

    def _took_too_much(self) -> bool:
        if not hasattr(signal, "SIGPROF"):
            return False
        with suppress(subprocess.TimeoutExpired):
            return self._process.wait(_ENDING) == -signal.SIGPROF
        return False

    def _tell(self, what: object) -> None:
        try:
            pickle.dump(what, self._process.stdin)
            self._process.stdin.flush()
        except OSError as error:
            raise _Ended from error

    def _heard(self, within: float, stopped: Callable[[], bool] = lambda: False) -> tuple:
        until = time.monotonic() + within
        while not stopped():
            try:
                news = self._news.get(timeout=max(0.0, min(_LOOK_ROUND, until - time.monotonic())))
            except Empty:
                if time.monotonic() >= until:
                    raise
                continue
            if news is None:
                raise _Ended
            return news
        raise Stopped

    def end(self) -> None:
        """Let it go, whatever it is at."""
        self._process.kill()
        with suppress(OSError):
            self._process.stdin.close()
        self._listener.join()
        self._process.stdout.close()
        self._process.wait()


def _listen(told: IO[bytes], news: SimpleQueue) -> None:
    with suppress(EOFError, OSError, pickle.UnpicklingError):
        while True:
            news.put(pickle.load(told))
    news.put(None)


_drawer: _Drawer | None = None
_when_idle: threading.Timer | None = None


def _asked(act: Callable, name: str, *given: Any, stopped: Callable[[], bool] = lambda: False) -> Any:
    with _alone:
        try:
            what, answer = _answered(act, (name, *given), stopped)
        except Stopped:
            # It is at what nobody waits for any more.
            _let_go()
            raise
        except Empty:
            _let_go()
            raise UnreadablePhoto(f"{name} takes too long to be drawn, so it was left alone.") from None
        except _Ended:
            raise UnreadablePhoto(pdf_drawing.broken(name)) from None
        except _NeverBegan:
            return act(lambda _: None, name, *given)
        _let_go_later()
    if what == pdf_drawing.REFUSED:
        raise UnreadablePhoto(answer)
    return answer


def _answered(act: Callable, given: tuple, stopped: Callable[[], bool]) -> tuple:
    """Raises Empty where it takes too long, _Ended where the page ended the process, _NeverBegan, Stopped."""
    try:
        return _come_up().ask(act, given, stopped)
    except _Ended:
        # Something else may have ended it while it was idle.
        _let_go()
    try:
        return _come_up().ask(act, given, stopped)
    except _Ended:
        _let_go()
        raise


def _come_up() -> _Drawer:
    global _drawer
    if _when_idle:
        _when_idle.cancel()
    if _drawer is None:
        try:
            _drawer = _Drawer()
            _drawer.begin()
        except (_Ended, OSError, ValueError) as error:
            _let_go()
            raise _NeverBegan from error
    return _drawer


def _let_go_later() -> None:
    global _when_idle
    _when_idle = threading.Timer(_IDLE, _let_go_idle)
    _when_idle.daemon = True
    _when_idle.start()


def _let_go_idle() -> None:
    timer = threading.current_thread()
    with _alone:
        # It may have been asked again meanwhile.
        if timer is _when_idle:
            _let_go()


def _let_go() -> None:
    global _drawer
    if _drawer is not None:
        _drawer.end()
        _drawer = None


atexit.register(_let_go)
