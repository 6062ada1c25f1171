"""Pages of a PDF (ISO 32000) as pictures."""

import os
import stat
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from keeper.errors import KeeperError, UnreadablePhoto, shown_name

if TYPE_CHECKING:
    from PIL.Image import Image

MAGIC = b"%PDF-"
_WITHIN = 1024
"""Bytes within which the magic stands (ISO 32000-1, annex H, implementation note 13)."""

MOST_PAGES = 1000
MOST_BYTES = 1 << 30

_LARGEST = 12_000
"""Dots of the longer side, at most, whatever is asked for."""

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


def pages_of(path: Path, called: Path | None = None) -> int:
    """How many pages a PDF has, each of which can be opened.

    ``called`` is the name that sentences give it. Raises UnreadablePhoto for
    one that is damaged, locked by a password, without pages or with too many.
    """
    with _opened(path, called or path) as document:
        many = len(document)
        if not many:
            raise UnreadablePhoto(f"{shown_name(called or path)} has no pages.")
        if many > MOST_PAGES:
            raise UnreadablePhoto(f"{shown_name(called or path)} has {many:,} pages; at most {MOST_PAGES:,} can be taken at once.")
        for number in range(many):
            _size(document, number)
        return many


def page_picture(path: Path, number: int, longest_side: int, called: Path | None = None) -> "Image":
    """A page, counted from 0, as an RGB picture; its longer side has so many dots.

    Raises UnreadablePhoto.
    """
    with _opened(path, called or path) as document:
        wide, high = _size(document, number)
        scale = min(longest_side, _LARGEST) / max(wide, high)
        # Annotations are drawn: a pen on a tablet writes such. Forms are not asked to do anything.
        bitmap = document[number].render(scale=scale, may_draw_forms=False)
        try:
            return bitmap.to_pil().convert("RGB")
        finally:
            bitmap.close()


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
def _opened(path: Path, called: Path) -> Iterator[Any]:
    """The document; whatever goes wrong with it is told as UnreadablePhoto."""
    name = shown_name(called)
    # Not before one is looked at: it takes a while to be brought in.
    import pypdfium2

    with _alone:
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
    return f"{name} is damaged or cut short, so it was left alone."
