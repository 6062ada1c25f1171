"""Later words in an archive, whole or in part, and taken into another keeper."""

import json
from datetime import date

import pytest

from keeper.actions import writing
from keeper.actions.giving.making import give
from keeper.actions.giving.taking import take
from keeper.actions.giving.wanted import ToGive
from keeper.actions.history import undoing
from keeper.actions.opening import open_or_begin
from keeper.actions.remembering import later
from keeper.store import lines

THEN, OTHER = date(2023, 11, 14), date(2024, 3, 1)
TONIGHT = date(2026, 11, 14)
FEW = frozenset(("json", "text", "tables"))


@pytest.fixture
def line(store, clock):
    line = writing.write_line(store, THEN, "memory", "The piano in Turku had lost its voice.", clock)
    later.write(store, line.id, TONIGHT, "It has it again.", clock)
    rests = writing.write_line(store, OTHER, "memory", "Better left alone.", clock)
    later.write(store, rests.id, TONIGHT, "Still.", clock)
    writing.rest_line(store, rests.id)
    return line


def test_they_come_into_another_keeper_under_its_own_line_and_go_by_undo(store, line, clock, tmp_path):
    give(store, tmp_path / "archive", ToGive(FEW), clock)
    with open_or_begin(tmp_path / "other") as other:
        own = writing.write_line(other, THEN, "memory", line.text, clock)
        assert own.id != line.id
        take(other, tmp_path / "archive", clock)
        assert [word.text for word in lines.by_id(other, own.id).later] == ["It has it again."]
        assert take(other, tmp_path / "archive", clock).act is None
        undoing.undo(other)
        assert lines.by_id(other, own.id).later == ()


@pytest.mark.parametrize(("first", "resting", "given"), [(None, False, ["It has it again."]), (OTHER, True, ["Still."]), (OTHER, False, [])])
def test_a_part_has_those_of_its_lines_alone(store, line, clock, tmp_path, first, resting, given):
    give(store, tmp_path / "archive", ToGive(FEW, first=first, resting=resting), clock)
    data = tmp_path / "archive" / "data"
    rows = json.loads((data / "json" / "keeper.json").read_text("utf-8"))["tables"].get("later_word", [])
    assert [row["text"] for row in rows] == given
    texts = "".join(path.read_text("utf-8") for folder in ("text", "tables") for path in (data / folder).iterdir())
    for word in ("It has it again.", "Still."):
        assert (word in texts) == (word in given)
