"""Archives that come from anywhere: nothing is followed out of them, and what is wrong is told in a sentence."""

import hashlib
import json
import os

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.errors import BadArchive
from keeper.exchange.archive import checking
from keeper.exchange.archive.bag import Bag
from keeper.exchange.archive.names import read, spelt
from keeper.exchange.archive.rows_in import RowsIn

HEAD = '{"format": "keeper of days", "version": 1, "schema": 17, "whole": true, "tables": '


@pytest.fixture
def bag(tmp_path):
    folder = tmp_path / "bag"
    folder.mkdir()
    made = Bag(folder)
    with made.text("text/2026.md") as out:
        out.write("# 2026\n")
    made.bytes(b"picture", "photos/a b%.jpg")
    made.close([("External-Identifier", "x")])
    return folder


def whole(folder) -> dict:
    listed = checking.listed(folder)
    checking.check(listed)
    return dict(listed.hashes)


def test_a_bag_is_read_as_it_was_written(bag):
    assert set(whole(bag)) == {"data/text/2026.md", "data/photos/a b%.jpg"}
    assert "  data/photos/a b%25.jpg\n" in (bag / "manifest-sha256.txt").read_text()


def test_the_example_of_the_drafts_that_became_rfc_8493_is_read(tmp_path):
    (tmp_path / "bagit.txt").write_text("BagIt-Version: 0.97\nTag-File-Character-Encoding: UTF-8\n")
    (tmp_path / "manifest-md5.txt").write_text(
        "49afbd86a1ca9f34b677a3f09655eae9 data/27613-h/images/q172.png\n"
        "408ad21d50cef31da4df6d9ed81b01a7 data/27613-h/images/q172.txt\n"
    )
    listed = checking.listed(tmp_path)
    assert (listed.algorithm, len(listed.hashes)) == ("md5", 2)
    with pytest.raises(BadArchive, match=r"q172.png.* is missing"):
        checking.check(listed)


@pytest.mark.parametrize("path", [
    "../secret", "data/../../secret", "/etc/passwd", "data//x", "data/./x", "~/x", "C:/x", "data/..\\x", "other/x", "data/a\x00b", "data/%2E%2E/../x",
])  # fmt: skip
def test_a_path_that_leads_out_is_refused(bag, path):
    with (bag / "manifest-sha256.txt").open("a") as manifest:
        manifest.write(f"{'0' * 64}  {path}\n")
    with pytest.raises(BadArchive):
        whole(bag)


def test_a_link_is_not_followed(bag, tmp_path):
    (tmp_path / "secret").write_bytes(b"picture")
    os.remove(bag / "data/photos/a b%.jpg")
    os.symlink(tmp_path / "secret", bag / "data/photos/a b%.jpg")
    with pytest.raises(BadArchive, match="is a link"):
        whole(bag)


def test_a_folder_that_is_a_link_is_not_followed(bag, tmp_path):
    os.rename(bag / "data/photos", tmp_path / "elsewhere")
    os.symlink(tmp_path / "elsewhere", bag / "data/photos")
    with pytest.raises(BadArchive):
        whole(bag)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="There are no pipes here.")
def test_a_pipe_that_would_never_end_is_not_opened(bag):
    os.remove(bag / "data/text/2026.md")
    os.mkfifo(bag / "data/text/2026.md")
    with pytest.raises(BadArchive):
        whole(bag)


def test_what_was_changed_is_named(bag):
    (bag / "data/text/2026.md").write_text("# 2027\n")
    with pytest.raises(BadArchive, match=r"2026.md.*changed or damaged"):
        whole(bag)


def test_what_tells_of_the_bag_is_checked_too(bag):
    (bag / "bag-info.txt").write_text((bag / "bag-info.txt").read_text().replace("Identifier: x", "Identifier: y"))
    with pytest.raises(BadArchive, match=r"bag-info.txt.*changed or damaged"):
        whole(bag)


def test_what_is_missing_or_too_much_is_named(bag):
    (bag / "data/more.txt").write_text("x")
    with pytest.raises(BadArchive, match=r"more.txt.*not in its list"):
        whole(bag)
    os.remove(bag / "data/more.txt")
    os.remove(bag / "data/text/2026.md")
    with pytest.raises(BadArchive, match=r"2026.md.* is missing"):
        whole(bag)


def test_a_folder_that_is_no_bag_is_told(tmp_path):
    with pytest.raises(BadArchive, match=r"bagit.txt is missing"):
        checking.listed(tmp_path)


@given(st.text())
def test_a_name_is_read_as_it_was_spelt_or_refused(name):
    try:
        assert read(spelt(f"data/{name}")) == f"data/{name}"
    except BadArchive:
        assert not name or any(letter in name for letter in "\\\x7f") or min(name) < " " or {"", ".", ".."} & set(name.split("/"))


@given(st.binary(max_size=200))
def test_whatever_a_manifest_holds_it_is_read_or_refused(tmp_path, data):
    (tmp_path / "bagit.txt").write_text("BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n")
    (tmp_path / "manifest-sha256.txt").write_bytes(data)
    try:
        checking.check(checking.listed(tmp_path))
    except BadArchive as error:
        assert str(error).endswith(".")


# the JSON


def rows_of(path, text: str | bytes) -> dict:
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return {name: list(rows) for name, rows in RowsIn(path).tables()}


@given(st.dictionaries(st.text(max_size=5), st.lists(st.dictionaries(st.text(max_size=5), st.one_of(
    st.none(), st.text(max_size=9), st.integers(-(1 << 63), (1 << 63) - 1), st.floats(allow_nan=False, allow_infinity=False)
), max_size=3), max_size=4), max_size=3), st.sampled_from((None, 1)))  # fmt: skip
def test_json_is_read_however_it_is_laid_out(tmp_path, tables, indent):
    text = HEAD + json.dumps(tables, indent=indent) + "}"
    assert rows_of(tmp_path / "k.json", text) == tables


def test_rows_are_read_one_at_a_time_across_the_edges_of_what_is_held(tmp_path):
    rows = [{"text": "\u00e9" * (number * 997 % 5000), "n": number} for number in range(500)]
    assert rows_of(tmp_path / "k.json", HEAD + json.dumps({"line": rows}, ensure_ascii=False) + "}") == {"line": rows}


@pytest.mark.parametrize("text", [
    "", "[]", "{", "{}", '{"tables": {}}', HEAD, f"{HEAD}{{", f'{HEAD}{{"line": [', f'{HEAD}{{"line": 1}}}}', f'{HEAD}{{"line": [1]}}}}',
    f'{HEAD}{{"line": [{{"a": [1]}}]}}}}', f'{HEAD}{{"line": [{{"a": NaN}}]}}}}', f'{HEAD}{{"line": [{{"a": {1 << 64}}}]}}}}',
    f'{HEAD}{{"line": [{{"a": {"9" * 5000}}}]}}}}', f"{HEAD}{'[' * 100_000}", f'{HEAD}{{"line": [{"[" * 100_000}', b"\xff\xfe",
    '{"format": "other", "version": 1, "schema": 1, "tables": {}}', '{"format": "keeper of days", "version": 2, "tables": {}}',
])  # fmt: skip
def test_what_is_no_json_of_a_keeper_is_refused(tmp_path, text):
    with pytest.raises(BadArchive):
        rows_of(tmp_path / "k.json", text)


@given(st.binary(max_size=60))
def test_whatever_stands_in_the_json_it_is_read_or_refused(tmp_path, data):
    try:
        rows_of(tmp_path / "k.json", HEAD.encode() + b'{"line": [{"a": ' + data)
    except BadArchive as error:
        assert str(error).endswith(".")


def test_a_hash_is_that_of_the_file(bag):
    assert whole(bag)["data/text/2026.md"] == hashlib.sha256(b"# 2026\n").hexdigest()
