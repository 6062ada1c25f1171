"""Pages of a PDF (ISO 32000) drawn, in a process of its own: what a page asks for may never end, or end the process.

Nothing else of the program is at work there.
"""

import os
import pickle
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import IO, Any

from keeper.errors import KeeperError, UnreadablePhoto

MOST_PAGES = 1000
MOST_BYTES = 1 << 30

_LARGEST = 12_000
"""Dots of the longer side, at most, whatever is asked for."""

_MOST_MEMORY = 4 << 30
"""Bytes; pages as large as any that are drawn take a quarter of it."""

_LONGEST = 60
"""Seconds, from the last page on, that it lives at most; it is let go far sooner by whoever asked."""

A_SECOND, BYTES_A_SECOND, DOTS_A_SECOND = 1.0, 1_000_000, 4_000
"""What a page may take of the processor: this, a second more for so many bytes of the file, and one for a picture of so many dots a side.

Scans of 600 dots an inch take a fifth of it or less (measured with made ones); what is small and takes longer means ill.
"""

GOES_ON, DONE, REFUSED = "goes on", "done", "refused"


def pages_of(goes_on: Callable[[float], None], name: str, path: Path) -> int:
    """How many pages a PDF has, each of which can be opened; ``goes_on`` is called before each with the seconds that it may take."""
    may_take = _may_take(path)
    goes_on(may_take)
    with _opened(path, name) as document:
        many = len(document)
        if not many:
            raise UnreadablePhoto(f"{name} has no pages.")
        if many > MOST_PAGES:
            raise UnreadablePhoto(f"{name} has {many:,} pages; at most {MOST_PAGES:,} can be taken at once.")
        for number in range(many):
            _size(document, number)
            goes_on(may_take)
        return many


def page_drawn(goes_on: Callable[[float], None], name: str, path: Path, number: int, longest_side: int) -> tuple[tuple[int, int], bytes]:
    """A page, counted from 0: width and height, and its dots row by row, three bytes each (red, green, blue)."""
    goes_on(_may_take(path, min(longest_side, _LARGEST)))
    with _opened(path, name) as document:
        wide, high = _size(document, number)
        scale = min(longest_side, _LARGEST) / max(wide, high)
        # Annotations are drawn: a pen on a tablet writes such. Forms are not asked to do anything.
        bitmap = document[number].render(scale=scale, may_draw_forms=False)
        try:
            drawn = bitmap.to_pil().convert("RGB")
            return drawn.size, drawn.tobytes()
        finally:
            bitmap.close()


def _may_take(path: Path, longest_side: int = 0) -> float:
    try:
        size = os.stat(path).st_size
    except OSError:
        size = 0
    return A_SECOND + size / BYTES_A_SECOND + (longest_side / DOTS_A_SECOND) ** 2


def _size(document: Any, number: int) -> tuple[float, float]:
    page = document[number]
    try:
        wide, high = page.get_size()
    finally:
        page.close()
    if not (wide > 0 and high > 0) or max(wide, high) / min(wide, high) > 100:
        raise UnreadablePhoto("a page of it has no size.")
    return wide, high


@contextmanager
def _opened(path: Path, name: str) -> Iterator[Any]:
    """The document; whatever goes wrong with it is told as UnreadablePhoto."""
    import pypdfium2

    document = None
    try:
        if os.stat(path).st_size > MOST_BYTES:
            raise UnreadablePhoto(f"{name} is larger than a PDF of pages can be.")
        document = pypdfium2.PdfDocument(path)
        yield document
    except KeeperError as error:
        raise UnreadablePhoto(f"{name}: {error}" if name not in str(error) else str(error)) from error
    except pypdfium2.PdfiumError as error:
        raise UnreadablePhoto(_why(name, str(error))) from error
    except FileNotFoundError:
        raise UnreadablePhoto(f"{name} is not there.") from None
    except MemoryError as error:
        raise UnreadablePhoto(f"{name} is larger than can be opened safely.") from error
    except Exception as error:
        # Broken bytes make it raise nearly anything there is.
        raise UnreadablePhoto(_why(name, "")) from error
    finally:
        if document is not None:
            document.close()


def _why(name: str, said: str) -> str:
    if "password" in said.lower():
        return f"{name} is locked by a password. Save it without one, and bring it again."
    return broken(name)


def broken(name: str) -> str:
    """What is said of a PDF whose bytes make no sense."""
    return f"{name} is damaged or cut short, so it was left alone."


def work() -> None:
    """What the process does: asked through its standard input, it tells through its standard output, until nobody asks."""
    told = _alone()

    def tell(*news: Any) -> None:
        pickle.dump(news, told, pickle.HIGHEST_PROTOCOL)
        told.flush()

    def goes_on(may_take: float) -> None:
        tell(GOES_ON)
        _end_by_itself(may_take)

    tell(GOES_ON)
    with suppress(EOFError, OSError):
        while True:
            act, given = pickle.load(sys.stdin.buffer)
            try:
                tell(DONE, act(goes_on, *given))
            except UnreadablePhoto as error:
                tell(REFUSED, str(error))


def _end_by_itself(may_take: float) -> None:
    """Where whoever asked is gone, nobody else would end it; nor would anybody know how much of the processor it took."""
    import signal

    if hasattr(signal, "alarm"):
        signal.alarm(_LONGEST)
    if hasattr(signal, "setitimer"):
        # Not by the clock: beside other programs a sound page may take ten times as long by that.
        signal.setitimer(signal.ITIMER_PROF, may_take)


def _alone() -> IO[bytes]:
    """Take no more than is given; returns where to tell, which nothing that prints can reach."""
    import signal

    # Ctrl-C in a terminal reaches this process too; whoever asked decides.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    with suppress(ImportError, OSError, ValueError):
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (_MOST_MEMORY, _MOST_MEMORY))
        # A page that ends it leaves nothing of itself on the disk.
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    told = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    return told
