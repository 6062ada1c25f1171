"""What DEVELOPERS.md names is there."""

import re
from pathlib import Path

from keeper.store.file import migrations
from keeper.store.file.opening import SCHEMA

HERE = Path(__file__).resolve().parents[1]

_NAMED = re.compile(r"`([\w.-]+(?:/[\w.-]+)*/?)`")


def test_every_module_and_folder_that_is_named_is_there():
    text = re.sub(r"```.*?```", "", (HERE / "DEVELOPERS.md").read_text("utf-8"), flags=re.DOTALL)
    named = {name for name in _NAMED.findall(text) if "/" in name or name.endswith(".py")}
    places = [HERE / start for start in ("", "keeper", "keeper/store", "keeper/window")]
    gone = {name for name in named if not any((at / f"{name}{end}").exists() for at in places for end in ("", ".py"))}
    assert len(named) > 100 and gone == set()


def test_the_number_of_the_schema_is_that_of_the_last_migration():
    # It stands apart from the migrations, which the start does not bring in.
    last = max(int(found[1]) for name in vars(migrations) if (found := re.match(r"m(\d+)_", name)))
    assert last == SCHEMA
