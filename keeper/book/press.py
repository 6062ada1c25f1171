"""Setting what is laid out: a PDF to keep, or pictures of its pages to look at."""

import json
import re
from datetime import UTC, datetime
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from keeper.book.laying_out import LaidOut, page_size
from keeper.book.letters import Compositor
from keeper.book.one_page import fit_one_page
from keeper.book.paging import fit_pages
from keeper.errors import KeeperError, MissingLibrary
from keeper.review.book import MonthSheet
from keeper.shipped import resource

if TYPE_CHECKING:
    from typst import Compiler, Fonts

ARCHIVAL = (("a-2a", "ua-1"), ("a-2b",))
"""PDF/A-2a (ISO 19005-2), which has all of 2b, with PDF/UA-1 (ISO 14289-1); else 2b alone."""

_REFUSED = re.compile(r'(?:the text|codepoint) `"(.+?)"`(?: could not be displayed|$)', re.DOTALL)
_ESCAPED = re.compile(r"\\u\{([0-9a-fA-F]+)\}")
_TRIES = 40


class CannotTypeset(KeeperError):
    """The book could not be set."""


class SetFrom(Protocol):
    """What typst sets: a folder, its template, the letters of its texts, and what it is called in a sentence."""

    folder: Path
    letters: Compositor

    @property
    def name(self) -> str: ...

    @property
    def main(self) -> Path: ...

    def write(self) -> None: ...

    def told(self) -> tuple[str, ...]: ...


def print_pdf(laid: LaidOut) -> tuple[bytes, int, tuple[str, ...]]:
    """The PDF, how many pages it has, and sentences on what it lacks.

    Raises CannotTypeset or MissingLibrary.
    """
    if isinstance(laid.work, MonthSheet):
        fit_one_page(laid, lambda: _pages(_compiler(laid)))
    else:
        fit_pages(page_size(laid.work), laid.write_fits, lambda: _parts(_compiler(laid)))
    return print_plainly(laid)


def print_plainly(laid: SetFrom) -> tuple[bytes, int, tuple[str, ...]]:
    """The same of what need not be made to fit."""
    compiler = _compiler(laid)
    pdf, remarks = _archival(laid, compiler)
    return pdf, _pages(compiler), (*laid.told(), *remarks)


def print_sheets(laid: SetFrom) -> bytes:
    """The PDF of pages that are set already, put upon sheets: no archival one, since it has other PDFs in it."""
    return _compiled(_compiler(laid), ())


def picture_pages(laid: SetFrom, folder: Path, dots_per_inch: float) -> tuple[Path, ...]:
    """The pages as PNG files in a folder, in order."""
    _compiler(laid).compile(output=str(folder / "page-{0p}.png"), format="png", ppi=dots_per_inch)
    return tuple(sorted(folder.glob("page-*.png")))


def _compiler(laid: SetFrom) -> "Compiler":
    try:
        from typst import Compiler
    except ImportError as error:
        raise MissingLibrary("The library typst, which sets books, is not installed.") from error
    return Compiler(str(laid.main), root=str(laid.folder), font_paths=_fonts(), ignore_system_fonts=True)


@lru_cache(maxsize=1)
def _fonts() -> "Fonts":
    from typst import Fonts

    # Only ours: the same words give the same book on every computer.
    return Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(resource("fonts"))])


def _archival(laid: SetFrom, compiler: "Compiler") -> tuple[bytes, tuple[str, ...]]:
    from typst import TypstError

    for standards in ARCHIVAL:
        for _ in range(_TRIES):
            try:
                return _compiled(compiler, standards), ()
            except TypstError as error:
                if not _refuse(laid, error.message):
                    break
    try:
        return _compiled(compiler, ()), ("It is not an archival PDF (PDF/A): something in it does not allow that.",)
    except TypstError as error:
        raise CannotTypeset(f"{laid.name} could not be set: {error.message}.") from error


def _compiled(compiler: "Compiler", standards: tuple[str, ...]) -> bytes:
    now = int(datetime.now(UTC).timestamp())
    return compiler.compile(format="pdf", pdf_standards=list(standards), timestamp=now)


def _refuse(laid: SetFrom, problem: str) -> bool:
    """Put a square for letters that typst will not set after all; False when the problem is another."""
    found = _REFUSED.search(problem)
    if not found:
        return False
    letters = set(_ESCAPED.sub(lambda code: chr(int(code[1], 16)), found[1]))
    fresh = letters - laid.letters.refused
    laid.letters.refused |= letters
    laid.write()
    return bool(fresh)


def _pages(compiler: "Compiler") -> int:
    return int(compiler.query("<pages>", field="value", one=True))


def _parts(compiler: "Compiler") -> list[dict]:
    return json.loads(compiler.query("<parts>", field="value"))
