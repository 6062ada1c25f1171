"""A month that was printed here and scanned lies in its month, whatever span it was brought to."""

from datetime import date

import pypdfium2
import pytest
from PIL import Image

from keeper.actions.history import lately
from keeper.actions.printing import making
from keeper.actions.printing.wanted import PagesWanted
from keeper.actions.scans import bringing
from keeper.errors import Stopped

MAY, ENDS = date(2027, 5, 1), date(2027, 5, 31)
ELSEWHERE = date(2026, 9, 1), date(2026, 9, 30)


@pytest.fixture
def printed(store, tmp_path):
    return making.make_pages(store, PagesWanted("month", MAY, ENDS, "a5"), tmp_path / "month.pdf").path


def test_pictures_of_a_printed_month_lie_in_it_and_others_along_the_span(store, clock, printed, tmp_path):
    folder = tmp_path / "scans"
    folder.mkdir()
    pages = [page.render(scale=150 / 72).to_pil().convert("RGB") for page in pypdfium2.PdfDocument(printed)]
    for number, page in enumerate(pages):
        page.save(folder / f"{number}.png")
    Image.new("RGB", (300, 420), "white").save(folder / "other.png")
    came = bringing.bring(store, [folder], *ELSEWHERE, clock)
    *ours, other = came.scans
    assert came.sentence.endswith("By the code on them, pages lie in May 2027.")
    assert (ours[0].first, ours[-1].last, len(ours)) == (MAY, ENDS, len(pages))
    assert (other.first, other.last) == ELSEWHERE


def test_a_pdf_of_a_printed_month_lies_in_it(store, clock, printed):
    came = bringing.bring(store, [printed], *ELSEWHERE, clock).scans
    assert (came[0].first, came[-1].last) == (MAY, ENDS)
    (act,) = lately.latest(store, "notebook")
    assert act.act.night == MAY and act.act.told.endswith("1 to 31 May 2027")


def test_while_months_are_looked_for_it_can_be_stopped_and_none_came(store, clock, printed):
    told = []
    with pytest.raises(Stopped):
        bringing.bring(store, [printed], *ELSEWHERE, clock, lambda *said: told.append(said), lambda: len(told) > 1)
    assert len(told) == 2 and not bringing.known.of_span(store, MAY, ENDS)


def test_of_pages_of_the_months_asked_for_nothing_more_is_said(store, clock, printed):
    assert "code" not in bringing.bring(store, [printed], MAY, ENDS, clock).sentence
