"""The page for a clinician put into a folder for typst."""

import json
import shutil
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path
from typing import Any

from keeper.book.coverage import faces
from keeper.book.letters import Compositor
from keeper.review.clinician import wording
from keeper.review.clinician.page import ClinicianPage, ClinicianReading, nights_in_point, points, ticks
from keeper.review.month_series import LINE, MARK
from keeper.shipped import resource

Data = dict[str, Any]

INK = "#1c2430"
"""What goes to another person is set in one dark ink, whatever the keeper's own."""

LETTERS = 10.0

TRIED = (
    (13.0, LETTERS, 1), (11.0, LETTERS, 1), (9.0, LETTERS, 1), (11.0, LETTERS, 2), (10.0, LETTERS, 2), (7.5, LETTERS, 2),
    (5.5, LETTERS, 2), (4.0, LETTERS, 2), (4.0, 9.0, 2), (4.0, 8.0, 2),
)  # fmt: skip
"""How high strips are (millimetres) and how large letters (points), on how many pages at most: the first that all has room with.

On two pages, sixteen strips of 11 stand on the first.
"""


@dataclass
class ClinicianLaidOut:
    """A folder with all that typst needs for the page; strips are ``high`` millimetres, its letters ``size`` points."""

    folder: Path
    work: ClinicianPage
    letters: Compositor
    high: float = TRIED[0][0]
    size: float = LETTERS
    name: str = "The page for a clinician"
    _made: tuple[frozenset[str], Data] | None = None

    @property
    def main(self) -> Path:
        """The template that is set."""
        return self.folder / "clinician.typ"

    def write(self) -> None:
        """Write the data anew, after the height or the letters refused have changed."""
        data = {**self._data(), "high": self.high, "size": {"text": self.size}}
        (self.folder / "clinician.json").write_bytes(json.dumps(data, ensure_ascii=False).encode("utf-8", "replace"))

    def _data(self) -> Data:
        # Of fifty years it takes a while; another height or size changes nothing of it.
        refused = frozenset(self.letters.refused)
        if self._made is None or self._made[0] != refused:
            self.letters.forget()
            self._made = refused, of_page(self.work, self.letters)
        return self._made[1]

    def told(self) -> tuple[str, ...]:
        """What was left out, as sentences."""
        return self.letters.told()


def lay_out_page(work: ClinicianPage, folder: Path) -> ClinicianLaidOut:
    """Put the page into an empty folder."""
    for template in ("parts.typ", "clinician.typ"):
        shutil.copy(resource(f"book/{template}"), folder)
    laid = ClinicianLaidOut(folder, work, Compositor(faces(resource("fonts"))))
    laid.write()
    return laid


def of_page(page: ClinicianPage, letters: Compositor) -> Data:
    """What ``clinician.typ`` sets."""
    nights = len(page.nights)
    return {
        "ink": INK, "lang": "en", "name": "",
        "title": wording.title(page.first, page.last), "nights": wording.of_strips(page),
        "strips": [_strip(one, nights, letters) for one in page.readings],
        "ticks": ticks(page.first, page.last),
        "heads": wording.HEADS,
        "counts": [[letters.plain(cell) for cell in wording.counts(one, nights)] for one in page.readings],
        "below": wording.below_counts(page),
        "said": [[letters.plain(one.sentence), letters.plain(one.small)] for one in page.said],
        "said_head": wording.said_head(page), "none": page.none, "method": page.method, "cautions": page.cautions,
    }  # fmt: skip


def _strip(of: ClinicianReading, nights: int, letters: Compositor) -> Data:
    its = points(of.values, nights_in_point(nights), of.drawn == MARK)
    shares = [None if value is None else _share(of, value) for value in its]
    name = letters.plain(wording.name(of.tracker))
    return {
        "name": name, "kind": of.drawn if nights_in_point(nights) == 1 else LINE, "scale": letters.plain(wording.scale(of)), "many": len(its), "runs": list(_runs(shares)),
        # Of many nights sticks would run into one another; and a yes is as much a yes when it is low.
        "tall": 0.5 if of.drawn == MARK and nights_in_point(nights) == 1 else 1,
        "known": [[first, last] for first, last in _ends(shares)],
        "alt": f"{name}, night by night; its middle and ends are in the table of counts.",
    }  # fmt: skip


def _share(of: ClinicianReading, value: float) -> float:
    return min(max((value - of.low) / ((of.high - of.low) or 1.0), 0.0), 1.0)


def _runs(shares: Iterable[float | None]) -> Iterable[list[tuple[int, float]]]:
    """Points in a row, each its place from 0 and its height; no line goes over nights without."""
    for empty, run in groupby(enumerate(shares), key=lambda point: point[1] is None):
        if not empty:
            yield [(place, round(share, 4)) for place, share in run]


def _ends(shares: Iterable[float | None]) -> Iterable[tuple[int, int]]:
    for run in _runs(shares):
        yield run[0][0], run[-1][0]
