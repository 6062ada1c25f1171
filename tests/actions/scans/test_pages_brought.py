"""Pages of a notebook: brought from folders, PDFs and cameras, laid along their nights, seen as they are to be read."""

import hashlib
import os
import signal
import subprocess
import zlib
from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from meaning_ill import papers
from on_paper.notebook_pages import askew, pdf_of, saved, written_page
from PIL import Image

from keeper.actions.backups import inside
from keeper.actions.backups import making as backups
from keeper.actions.damage import checking
from keeper.actions.history import lately, undoing
from keeper.actions.scans import bringing, kept
from keeper.actions.sheet.filling import Typed, fill_in
from keeper.errors import CannotWrite, Stopped, UnreadablePhoto
from keeper.exchange import pdf_drawing, pdf_pages
from keeper.exchange.page_picture import ink_of
from keeper.store import lines, tidying
from keeper.store.backups import bringing_back, listing, making
from keeper.store.history import letting_go
from keeper.store.photos import files as photo_files
from keeper.store.scans import known
from keeper.study.skew import angle_of

FIRST, LAST = date(2026, 9, 1), date(2026, 9, 30)
SMALL = (300, 420)


@pytest.fixture
def pages(tmp_path) -> Path:
    """A folder as a camera leaves it, and a file that is no page."""
    for number in (1, 2, 10):
        saved(Image.new("RGB", SMALL, (200, 200, 10 * number)), tmp_path / "book" / f"page {number}.png")
    (tmp_path / "book" / "notes.txt").write_text("no page", encoding="utf-8")
    return tmp_path / "book"


@pytest.fixture
def bring(store, clock):
    return lambda *sources, **more: bringing.bring(store, sources, FIRST, LAST, clock, **more)


def spans(store):
    return [(one.name, one.page, one.first.day, one.last.day) for one in kept.of_span(store, FIRST, LAST)]


def test_a_folder_is_laid_along_the_month_in_the_order_of_its_numbers(store, pages, bring):
    came = bring(pages)
    assert spans(store) == [("page 1.png", 0, 1, 10), ("page 2.png", 0, 11, 20), ("page 10.png", 0, 21, 30)]
    assert came.sentence == "3 pages of the notebook came. \u201cnotes.txt\u201d is neither a PDF nor a picture."
    assert bring(pages).already == 3 and len(spans(store)) == 3
    for one in kept.of_span(store, FIRST, LAST):
        data = known.file_of(store.folder, one).read_bytes()
        assert hashlib.sha256(data).hexdigest() == one.sha256 and data == (pages / one.name).read_bytes()


def test_a_pdf_is_one_file_of_many_pages(store, tmp_path, bring):
    pdf = pdf_of([Image.new("RGB", SMALL, (number * 40, 90, 90)) for number in range(6)], tmp_path / "scan.pdf")
    # Outside: how many pages qpdf counts in it.
    counted = subprocess.run(["qpdf", "--show-npages", pdf], capture_output=True, text=True, check=True, timeout=200)
    came = bring(pdf)
    assert len(came.scans) == int(counted.stdout) == 6 and len({one.sha256 for one in came.scans}) == 1
    # The colour that each page was made with, in the middle of what is drawn of it.
    middles = [kept.as_seen(store.folder, one, 200).getpixel((70, 100)) for one in came.scans]
    assert all(abs(red - number * 40) <= 3 for number, (red, *_) in enumerate(middles))
    assert kept.as_seen(store.folder, came.scans[0], 200).size == (143, 200)


def test_one_act_brings_them_and_one_takes_them_back(store, pages, bring):
    bring(pages)
    (act,) = lately.latest(store, "notebook")
    assert act.act.told == "3 pages of the notebook, 1 to 30 Sep 2026" and act.act.page == "sheet"
    undoing.turn(store, act.number)
    assert spans(store) == []
    undoing.turn(store, act.number)
    assert len(spans(store)) == 3


def test_a_page_is_turned_straightened_and_cropped_and_the_file_stays(store, tmp_path, bring):
    page = askew(written_page(), 3.0).rotate(90, expand=True)
    (scan,) = bring(saved(page, tmp_path / "photo.jpg")).scans
    before = known.file_of(store.folder, scan).read_bytes()
    kept.turn(store, scan.id, 1)
    angle = kept.level(store.folder, known.by_id(store, scan.id))
    assert angle == pytest.approx(-3.0, abs=0.15)
    seen = kept.straighten(store, scan.id, angle)
    again = kept.as_seen(store.folder, seen, 1000)
    again.save(tmp_path / "straight.png")
    assert angle_of(ink_of(tmp_path / "straight.png", 0)) == pytest.approx(0, abs=0.15)
    seen = kept.cut_out(store, scan.id, (0.1, 0.25, 0.9, 0.75))
    seen = kept.cut_out(store, scan.id, (0.0, 0.0, 0.5, 1.0))
    assert seen.cut == pytest.approx((0.1, 0.25, 0.5, 0.75)) and known.by_id(store, scan.id) == seen
    wide, high = kept.as_seen(store.folder, seen, 800).size
    assert wide / high == pytest.approx(again.width * 0.4 / (again.height * 0.5), rel=0.02)
    assert kept.cut_out(store, scan.id, None).cut == (0, 0, 1, 1)
    assert known.file_of(store.folder, scan).read_bytes() == before
    with pytest.raises(UnreadablePhoto, match="too small a part"):
        kept.cut_out(store, scan.id, (0.5, 0.5, 0.501, 0.9))


@given(st.lists(st.integers(-3, 3), max_size=6), st.floats(0, 0.4), st.floats(0.6, 1))
def test_turned_all_round_a_cut_is_what_it_was(quarters, low, high):
    cut = once = (low, low / 2, high, 1 - low)
    for one in quarters:
        cut = kept._turned(cut, one)
    assert kept._turned(cut, -sum(quarters)) == pytest.approx(once)


def test_a_turned_cut_shows_the_same_part(store, tmp_path, bring):
    page = Image.new("RGB", (400, 200), "white")
    page.paste("black", (300, 0, 400, 50))
    (scan,) = bring(saved(page, tmp_path / "corner.png")).scans
    kept.cut_out(store, scan.id, (0.75, 0.0, 1.0, 0.25))
    for _ in range(4):
        seen = kept.turn(store, scan.id, 1)
        assert kept.as_seen(store.folder, seen, 100).getextrema() == ((0, 0),) * 3


def test_where_a_page_begins_can_be_said(store, pages, bring):
    one, two, three = bring(pages).scans
    kept.begin_at(store, two.id, date(2026, 9, 8))
    assert [(a, b) for *_, a, b in spans(store)] == [(1, 7), (8, 20), (21, 30)]
    kept.begin_at(store, two.id, date(2026, 9, 12))
    assert [(a, b) for *_, a, b in spans(store)] == [(1, 11), (12, 20), (21, 30)]
    kept.begin_at(store, three.id, date(2026, 9, 30))
    assert [(a, b) for *_, a, b in spans(store)] == [(1, 11), (12, 29), (30, 30)]
    kept.remove(store, one.id)
    assert kept.count(store, FIRST, date(2026, 9, 11)) == 0


@given(st.integers(0, 400), st.integers(1, 900))
def test_pages_are_laid_along_all_nights_and_leave_none_out(days, many):
    last = FIRST + timedelta(days=days)
    laid = bringing.spread(FIRST, last, many)
    covered = {begins + timedelta(days=n) for begins, ends in laid for n in range((ends - begins).days + 1)}
    assert covered == {FIRST + timedelta(days=n) for n in range(days + 1)} and len(laid) == many
    assert laid == sorted(laid)


# what is no page


def broken(folder: Path) -> dict[str, tuple[Path, str]]:
    """Files that hold no page, and what is said of each."""
    folder.mkdir(exist_ok=True)
    whole = pdf_of([Image.new("RGB", SMALL)] * 2, folder / "whole.pdf")
    locked = folder / "locked.pdf"
    subprocess.run(["qpdf", "--encrypt", "a", "b", "256", "--", whole, locked], check=True, timeout=200)
    made = {
        "cut.pdf": (whole.read_bytes()[:200], "damaged or cut short"),
        "only its head.pdf": (b"%PDF-1.7\n", "damaged or cut short"),
        "empty.jpg": (b"", "is empty"),
        "words.jpg": (b"not a picture", "neither a PDF nor a picture"),
        "huge.png": (b"\x89PNG\r\n\x1a\n" + _png_head(60_000, 60_000), "than can be opened safely"),
    }
    for name, (data, _) in made.items():
        (folder / name).write_bytes(data)
    told = {name: (folder / name, why) for name, (_, why) in made.items()}
    return told | {"locked.pdf": (locked, "locked by a password"), "gone.pdf": (folder / "gone.pdf", "not there")}


def _png_head(wide: int, high: int) -> bytes:
    head = wide.to_bytes(4, "big") + high.to_bytes(4, "big") + bytes((8, 2, 0, 0, 0))
    return _chunk(b"IHDR" + head) + _chunk(b"IDAT" + zlib.compress(bytes(9))) + _chunk(b"IEND")


def _chunk(data: bytes) -> bytes:
    return (len(data) - 4).to_bytes(4, "big") + data + zlib.crc32(data).to_bytes(4, "big")


def test_what_is_no_page_is_left_out_with_a_clear_sentence(store, tmp_path, bring):
    for name, (path, why) in broken(tmp_path / "odd").items():
        came = bring(path)
        assert came.scans == () and name in came.sentence and why in came.sentence, came.sentence
    assert [file for file in (store.folder / "photos").rglob("*") if file.is_file()] == []


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes here")
def test_a_pipe_is_not_waited_for(tmp_path, bring):
    os.mkfifo(tmp_path / "pipe.pdf")
    assert "is not a file" in bring(tmp_path / "pipe.pdf").sentence


def test_broken_bytes_make_no_trouble_but_a_sentence(tmp_path):
    whole = pdf_of([written_page(size=SMALL)], tmp_path / "whole.pdf").read_bytes()

    @given(st.lists(st.tuples(st.integers(0, len(whole) - 1), st.integers(0, 255)), min_size=1, max_size=30), st.integers(0, len(whole)))
    def try_it(changes, length):
        data = bytearray(whole[: max(length, 10)])
        for at, value in changes:
            data[at % len(data)] = value
        file = tmp_path / "broken.pdf"
        file.write_bytes(data)
        try:
            if pdf_pages.pages_of(file):
                pdf_pages.page_picture(file, 0, 60)
        except UnreadablePhoto as error:
            assert "broken.pdf" in str(error) and str(error).endswith(".")

    try_it()


def test_a_page_that_would_be_drawn_for_ever_is_given_up_and_the_next_is_drawn(store, tmp_path, bring, monkeypatch):
    (tmp_path / "laughs.pdf").write_bytes(papers.laughs(12))
    (tmp_path / "whole.pdf").write_bytes(papers.pages(2))
    monkeypatch.setattr(pdf_pages, "LONGEST", 0.3)
    came = bring(tmp_path / "laughs.pdf")
    assert came.scans == () and "laughs.pdf\u201d takes too long to be drawn" in came.sentence
    monkeypatch.undo()
    assert pdf_pages.page_picture(tmp_path / "whole.pdf", 1, 40).size == (30, 40)
    assert [file for file in (store.folder / "photos").rglob("*") if file.is_file()] == []


@pytest.mark.skipif(not hasattr(signal, "setitimer"), reason="the system does not count what a process takes")
def test_a_small_file_has_no_more_than_a_second_of_the_processor(store, tmp_path, bring):
    (tmp_path / "laughs.pdf").write_bytes(papers.laughs(12))
    # One that was asked before is not counted.
    pdf_pages._let_go()
    before = sum(os.times()[2:4])
    came = bring(tmp_path / "laughs.pdf")
    assert came.scans == () and "laughs.pdf\u201d takes too long to be drawn" in came.sentence
    assert sum(os.times()[2:4]) - before < 2 * pdf_drawing.A_SECOND + 1


def test_stop_is_heard_while_a_pdf_is_proven(store, tmp_path, clock):
    (tmp_path / "laughs.pdf").write_bytes(papers.laughs(12))
    asked = []
    with pytest.raises(Stopped):
        # Once before it, then while it is waited for.
        bringing.bring(store, [tmp_path / "laughs.pdf"], FIRST, LAST, clock, stopped=lambda: asked.append(1) or len(asked) > 4)
    assert len(asked) == 5 and pdf_pages._drawer is None
    assert [file for file in (store.folder / "photos").rglob("*") if file.is_file()] == [] and spans(store) == []


def test_a_process_that_was_ended_comes_up_again(tmp_path):
    (tmp_path / "whole.pdf").write_bytes(papers.pages(2))
    assert pdf_pages.pages_of(tmp_path / "whole.pdf") == 2
    pdf_pages._drawer._process.kill()
    pdf_pages._drawer._process.wait()
    assert pdf_pages.pages_of(tmp_path / "whole.pdf") == 2


def test_where_no_process_comes_up_it_is_drawn_here(tmp_path, monkeypatch):
    (tmp_path / "whole.pdf").write_bytes(papers.pages(2))
    pdf_pages._let_go()
    monkeypatch.setattr(pdf_pages.sys, "executable", str(tmp_path / "nothing"))
    assert pdf_pages.pages_of(tmp_path / "whole.pdf") == 2 and pdf_pages._drawer is None


def test_stopped_or_on_a_full_disk_nothing_came(store, pages, clock, monkeypatch):
    asked = []
    with pytest.raises(Stopped):
        bringing.bring(store, [pages], FIRST, LAST, clock, stopped=lambda: asked.append(1) or len(asked) > 3)

    def full(*_):
        raise CannotWrite("The disk is full.")

    monkeypatch.setattr(known, "add", full)
    with pytest.raises(CannotWrite):
        bringing.bring(store, [pages], FIRST, LAST, clock)
    assert spans(store) == [] and [file for file in (store.folder / "photos").rglob("*") if file.is_file()] == []


# kept as photos are


def test_a_page_goes_into_the_backup_and_comes_back_from_it(store, pages, bring, tmp_path, clock):
    came = bring(pages)
    place = backups.own_place(store)
    making.make(store, place, "2026-11-14", date(2026, 11, 14))
    (backup, *_) = listing.listed(place)
    files = [known.file_of(store.folder, one) for one in came.scans]
    assert all((place / file.relative_to(store.folder)).read_bytes() == file.read_bytes() for file in files)
    for file in files:
        file.unlink()
    for one in came.scans:
        kept.remove(store, one.id)
    bringing_back.into_place(store, backup, ())
    assert len(spans(store)) == 3 and all(file.exists() for file in files)


def test_a_night_brought_back_brings_the_page_it_stands_on_and_whence_its_words_came(store, pages, bring, clock):
    came = bring(pages)
    fill_in(store, (FIRST, "line:memory"), Typed("From the notebook."), clock, LAST)
    making.make(store, backups.own_place(store), "2026-11-14", date(2026, 11, 14))
    (backup, *_) = listing.listed(backups.own_place(store))
    for one in came.scans:
        kept.remove(store, one.id)
        known.file_of(store.folder, one).unlink()
    with store.unnoted() as connection:
        for table in ("line", "wording", "from_paper", "night"):
            connection.execute(f"DELETE FROM {table}")
    inside.bring_nights(store, backup, [FIRST])
    assert [name for name, *_ in spans(store)] == ["page 1.png"] and lines.from_paper(store, FIRST) == {"memory"}
    assert known.file_of(store.folder, came.scans[0]).exists() and not known.file_of(store.folder, came.scans[1]).exists()


def test_files_of_pages_are_looked_over_as_those_of_photos_are(store, pages, bring):
    one, *_ = bring(pages).scans
    known.file_of(store.folder, one).write_bytes(b"spoilt")
    read = [checking.read_some_photos(store, date(2026, 11, 14) + timedelta(days=n)) for n in range(checking.ALL_PHOTOS_IN)]
    (told,) = {told for some in read for told in some.damaged}
    assert "page 1.png" in told and "was changed or damaged" in told


def test_the_file_of_a_page_goes_only_when_no_act_can_bring_it_back(store, pages, bring):
    one, *_ = bring(pages).scans
    file = known.file_of(store.folder, one)
    kept.remove(store, one.id)
    tidying.let_go_old(store)
    assert file.exists()
    for sha256, ending in letting_go.let_go_old(store, timedelta(0), 0):
        photo_files.take_away(store.folder, sha256, ending)
    assert not file.exists()
    assert all(known.file_of(store.folder, other).exists() for other in kept.of_span(store, FIRST, LAST))
