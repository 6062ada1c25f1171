"""What an installed copy carries, and that both ways of finding it agree."""

import importlib.metadata
import json
import tomllib
from pathlib import Path

import pytest

from keeper import shipped

ROOT = Path(__file__).parent.parent

NEEDED = (
    "resources/fonts/SourceSerif4_400Regular.ttf",
    "resources/gazetteer/towns.db.xz",
    "demo_db/keeper/keeper.db",
)


def test_an_installed_copy_carries_what_it_needs():
    copy = importlib.metadata.distribution("keeper")
    came_from = json.loads(copy.read_text("direct_url.json") or "{}")
    if came_from.get("dir_info", {}).get("editable"):
        pytest.skip("This is a checkout installed in place.")
    inside = {str(file) for file in copy.files or []}
    for name in NEEDED:
        assert f"keeper/_shipped/{name}" in inside


def test_a_checkout_finds_its_files():
    for name in NEEDED:
        found = shipped.demo_keeper().parent.parent if name.startswith("demo_db") else shipped.resource("").parent
        assert (found / name).is_file(), name


def test_the_copy_inside_the_package_is_taken_where_there_is_one(tmp_path, monkeypatch):
    (tmp_path / "_shipped").mkdir()
    monkeypatch.setattr(shipped, "_INSTALLED", tmp_path / "_shipped")
    assert shipped.resource("fonts") == tmp_path / "_shipped" / "resources" / "fonts"


def test_every_dependency_has_a_lower_bound():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    asked = project["dependencies"] + [one for more in project["optional-dependencies"].values() for one in more]
    assert asked
    for one in asked:
        assert ">=" in one, one


def test_the_version_of_qt_that_loses_references_is_kept_out():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    assert any(one.startswith("PySide6-Essentials") and "<6.12" in one for one in project["dependencies"])


def test_ci_runs_the_line_that_the_readme_gives():
    readme, run = (ROOT / "README.md").read_text(), (ROOT / ".ci" / "run").read_text()
    lines = [line for line in readme.splitlines() if "-m pytest" in line]
    assert len(lines) == 1 and "pip install" in lines[0]
    assert 'grep -m1 -- "-m pytest" README.md' in run


def test_what_asks_who_runs_it_is_run_for_the_superuser_too():
    run = (ROOT / ".ci" / "run").read_text()
    assert 'grep -rlE "small_disk|unprivileged|of_rights" tests' in run and "-m of_rights $of_rights" in run
    asking = [file for file in (ROOT / "tests").rglob("test_*.py") if "gete" + "uid" in file.read_text()]
    assert asking
    for file in asking:
        assert "of_rights" in file.read_text() or "def small_disk" in file.read_text(), file
