"""Pages of a notebook as they are brought, and what was typed from them, go out and come in again without loss."""

from datetime import date

from PIL import Image

from keeper.actions.giving.making import give
from keeper.actions.giving.taking import take
from keeper.actions.giving.wanted import ToGive
from keeper.actions.opening import open_or_begin
from keeper.actions.scans import bringing
from keeper.actions.sheet.filling import Typed, fill_in

FIRST, LAST = date(2026, 9, 1), date(2026, 9, 30)
SCANS = "SELECT * FROM scan ORDER BY id"
PAPER = "SELECT * FROM from_paper ORDER BY line_id"


def all_of(store, query):
    return store.connection.execute(query).fetchall()


def files_of(store):
    return {path.name: path.read_bytes() for path in (store.folder / "photos").rglob("*.png")}


def test_scans_their_files_and_what_came_from_paper_are_the_same_again(store, clock, tmp_path):
    (tmp_path / "pages").mkdir()
    for number in range(3):
        Image.new("RGB", (300, 420), (200, 90, number * 60)).save(tmp_path / "pages" / f"{number}.png")
    bringing.bring(store, [tmp_path / "pages"], FIRST, LAST, clock)
    fill_in(store, (FIRST, "line:memory"), Typed("From the notebook."), clock, LAST)
    give(store, tmp_path / "out", ToGive(), clock)
    with open_or_begin(tmp_path / "other") as other:
        take(other, tmp_path / "out", clock)
        for query in (SCANS, PAPER):
            assert all_of(other, query) == all_of(store, query) != []
        assert files_of(other) == files_of(store) and len(files_of(store)) == 3
