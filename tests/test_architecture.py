"""Who may import whom, and that only the store speaks SQL."""

import ast
import importlib.util
import os
import re
import shutil
import subprocess
import sys
from dataclasses import dataclass
from functools import cache
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest
from PySide6.QtCore import QObject

ROOT = Path(__file__).resolve().parent.parent
SQL = re.compile(
    r"\b(SELECT\b.*\bFROM|INSERT (OR \w+ )?INTO|UPDATE \w+ SET|DELETE FROM|CREATE (TABLE|INDEX|TRIGGER|VIEW|VIRTUAL)"
    r"|DROP TABLE|ALTER TABLE|PRAGMA \w+|BEGIN IMMEDIATE)\b"
)


def contracts(project: Path) -> subprocess.CompletedProcess:
    """Check the contracts of pyproject.toml over the program in a folder."""
    return subprocess.run(
        [sys.executable, "-c", "from importlinter.cli import lint_imports_command as run; run()", "--no-cache"],
        cwd=project, env={**os.environ, "PYTHONPATH": str(project), "PYTHONDONTWRITEBYTECODE": "1"},
        capture_output=True, text=True, encoding="utf-8", errors="replace", timeout=200,
    )  # fmt: skip


def test_the_rooms_keep_to_their_contracts():
    checked = contracts(ROOT)
    assert checked.returncode == 0, checked.stdout + checked.stderr


VIOLATIONS = {
    "Only the window knows Qt": ("review/violating.py", "import PySide6.QtCore"),
    "Only the store speaks SQL": ("actions/violating.py", "import sqlite3"),
    "Window and command line reach the store through actions": ("cli/violating.py", "from keeper.store import lines"),
    "The study is pure": ("study/violating.py", "from keeper.store import lines"),
    "Data flows one way": ("store/violating.py", "def late():\n    from keeper.review import night"),
    "Rooms of the window never use each other": ("window/find/violating.py", "def late():\n    from keeper.window.year import lines"),
    "Rooms of the actions lie one upon another": ("actions/themes/violating.py", "from keeper.actions.months import goals"),
    "Rooms of the store lie one upon another": ("store/places/violating.py", "from keeper.store.photos import known"),
}


@pytest.fixture(scope="module")
def violated(tmp_path_factory) -> str:
    """What is said of a copy in which every contract is broken."""
    copy = tmp_path_factory.mktemp("violated")
    shutil.copytree(ROOT / "keeper", copy / "keeper", ignore=shutil.ignore_patterns("__pycache__", "_shipped"))
    shutil.copy(ROOT / "pyproject.toml", copy)
    for module, text in VIOLATIONS.values():
        (copy / "keeper" / module).write_text(f'"""Should not be."""\n\n{text}\n', encoding="utf-8")
    checked = contracts(copy)
    assert checked.returncode == 1, checked.stdout + checked.stderr
    return checked.stdout


@pytest.mark.parametrize("contract", VIOLATIONS)
def test_a_contract_really_fails_when_it_is_broken(violated, contract):
    assert f"{contract} BROKEN" in violated


ROOM_FOR = 16
"""Modules in a folder; ``__init__.py``, which is one docstring, not counted."""

LARGER = {"tests/bench": 19, "tests/support": 19, "keeper/store/file/shapes": 24}
"""Folders that have more, and may only get fewer; but of shapes there is one for each migration, and none goes."""


def modules_in(folder: Path) -> int:
    """How many modules lie in a folder itself."""
    return sum(path.name != "__init__.py" for path in folder.glob("*.py"))


def test_no_folder_has_more_modules_than_one_sees_at_a_glance():
    folders = {path.parent for top in ("keeper", "tests") for path in (ROOT / top).rglob("*.py")}
    assert len(folders) > 30
    counted = {folder.relative_to(ROOT).as_posix(): modules_in(folder) for folder in folders}
    assert {name: many for name, many in counted.items() if many > LARGER.get(name, ROOM_FOR)} == {}


@dataclass(frozen=True)
class Seen:
    """What a module of the program says of itself: to parse and walk through all of them takes seconds, and is done once."""

    at_once: set[str]
    imported: set[str]
    classes: set[str]
    sql: list[str]
    properties: list[str]


@cache
def seen() -> dict[Path, Seen]:
    """Every module of the program."""
    return {path: looked_at(path.read_text("utf-8")) for path in (ROOT / "keeper").rglob("*.py") if "_shipped" not in path.parts}


def looked_at(source: str) -> Seen:
    tree = ast.parse(source)
    nodes = list(ast.walk(tree))
    imported = {alias.name for node in nodes if isinstance(node, ast.Import) for alias in node.names}
    imported |= {node.module or "" for node in nodes if isinstance(node, ast.ImportFrom)}
    classes = {node.name for node in nodes if isinstance(node, ast.ClassDef) and not node.name.startswith("_")}
    return Seen(imported_at_once(tree), imported, classes, sql_among(nodes), properties_among(nodes))


def imported_at_once(tree: ast.Module) -> set[str]:
    """What a module brings in as it is brought in itself: names of modules, or of things in them.

    What a function imports when it is called is left out, and what only a
    checker of types reads.
    """
    found: set[str] = set()
    waiting = list(tree.body)
    while waiting:
        node = waiting.pop()
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            found |= {node.module, *(f"{node.module}.{alias.name}" for alias in node.names)}
        elif isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING":
            waiting += node.orelse
        elif not isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda):
            waiting += ast.iter_child_nodes(node)
    return found


def circle_among(at_once: dict[str, set[str]]) -> list[str]:
    """Modules, by their names and what they bring in, each of which brings in the one before it, and the first the last; [] for none."""
    graph = {name: (others & at_once.keys()) - {name} for name, others in at_once.items()}
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        return error.args[1]
    return []


def test_no_modules_bring_each_other_in():
    at_once = {".".join(path.relative_to(ROOT).with_suffix("").parts): one.at_once for path, one in seen().items() if path.name != "__init__.py"}
    assert len(at_once) > 200
    assert circle_among(at_once) == []


def test_a_circle_is_known_when_seen():
    apart = {"a": "import b", "b": "if TYPE_CHECKING:\n    import a\ndef late():\n    from a import x", "c": "class C:\n    import a"}
    assert circle_among({name: looked_at(text).at_once for name, text in apart.items()}) == []
    apart["b"] = "try:\n    from c import y\nexcept ImportError:\n    pass"
    assert set(circle_among({name: looked_at(text).at_once for name, text in apart.items()})) == {"a", "b", "c"}


def sql_among(nodes: list[ast.AST]) -> list[str]:
    """Strings of a module, other than docstrings, that hold SQL."""
    documented = (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)
    docs = {id(node.body[0].value) for node in nodes
            if isinstance(node, documented) and node.body and isinstance(node.body[0], ast.Expr)}  # fmt: skip
    texts = [node.value for node in nodes if isinstance(node, ast.Constant) and id(node) not in docs]
    return [text for text in texts if isinstance(text, str) and SQL.search(" ".join(text.split()))]


def speaks_sql(source: str) -> list[str]:
    return looked_at(source).sql


def outside_the_store() -> dict[str, Seen]:
    """Every module of the program outside the store."""
    return {str(path.relative_to(ROOT)): one for path, one in seen().items() if "store" not in path.relative_to(ROOT / "keeper").parts}


def test_no_room_but_the_store_speaks_sql():
    assert len(outside_the_store()) > 20
    assert {path: one.sql for path, one in outside_the_store().items() if one.sql} == {}


def test_sql_is_known_when_seen():
    assert speaks_sql('"""SELECT a FROM b is only told of."""\nx = "SELECT a\\n FROM b"') == ["SELECT a\n FROM b"]
    assert speaks_sql("f'DELETE FROM {table}'") == ["DELETE FROM "]
    assert speaks_sql("x = 'PRAGMA user_version'") == ["PRAGMA user_version"]
    assert speaks_sql("x = 'Select a place from the list. Update it, then set it.'") == []
    store = (ROOT / "keeper" / "store" / "lines.py").read_text("utf-8")
    assert len(speaks_sql(store)) > 5


def test_no_module_of_the_program_opens_the_network():
    forbidden = {"socket", "urllib", "http", "requests", "ftplib", "smtplib", "ssl", "asyncio"}
    reached = {path: {name.split(".")[0] for name in one.imported} & forbidden for path, one in seen().items()}
    assert {path: names for path, names in reached.items() if names} == {}
    assert {name.split(".")[0] for name in looked_at("def late():\n    import ssl.x\n    from http.y import z").imported} == {"ssl", "http"}


def test_the_command_line_wakes_neither_qt_nor_sqlite_utils():
    listed = "import sys, keeper.cli.command; print(*[m for m in ('PySide6', 'sqlite_utils', 'tzlocal') if m in sys.modules])"
    shown = subprocess.run([sys.executable, "-c", listed], capture_output=True, text=True, timeout=200)
    assert (shown.returncode, shown.stdout.split()) == (0, [])


def properties_among(nodes: list[ast.AST]) -> list[str]:
    """Keywords in the making of Qt's things, as "QTimer(interval)".

    Calls of a class taken from PySide6, and of ``super().__init__`` in a class
    that has only such ones below it.
    """
    qt = {alias.asname or alias.name for node in nodes if isinstance(node, ast.ImportFrom)
          for alias in node.names if has_properties(node.module or "", alias.name)}  # fmt: skip
    if not qt:
        return []
    made = [(node.func.id, node) for node in nodes if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)]
    for owner in (node for node in nodes if isinstance(node, ast.ClassDef)):
        bases = [getattr(base, "id", "") for base in owner.bases]
        if bases and set(bases) <= qt:
            made += [(bases[0], node) for node in ast.walk(owner) if isinstance(node, ast.Call)
                     and ast.unparse(node.func) == "super().__init__"]  # fmt: skip
    return [f"{name}({word.arg})" for name, call in made if name in qt for word in call.keywords]


def properties_in_constructors(source: str) -> list[str]:
    return looked_at(source).properties


def has_properties(module: str, name: str) -> bool:
    """Whether it is one of Qt's classes whose things have properties."""
    if not module.startswith("PySide6"):
        return False
    thing = getattr(importlib.import_module(module), name)
    return isinstance(thing, type) and issubclass(thing, QObject)


def test_scripts_beside_the_program_find_what_they_import():
    paths = [*(ROOT / "resources").rglob("*.py"), *(ROOT / "demo_db").glob("*.py")]
    wanted = {
        (path.name, node.module, alias.name)
        for path in paths
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.ImportFrom) and (node.module or "").partition(".")[0] == "keeper"
        for alias in node.names
    }
    assert wanted
    for script, module, name in wanted:
        room = importlib.import_module(module)
        assert hasattr(room, name) or importlib.util.find_spec(f"{module}.{name}"), (script, module, name)


def test_one_name_is_one_thing():
    """But a page of the window that is named as what it shows: the rooms part those."""
    where: dict[str, set[str]] = {}
    for path, one in seen().items():
        for name in one.classes:
            where.setdefault(name, set()).add(path.relative_to(ROOT).as_posix())
    assert {name for name, paths in where.items() if len(paths) > 1} <= {"MonthPage", "PlacePage", "YearPage"}


def test_no_property_is_named_in_a_constructor_of_qt():
    # PySide makes the setter's name by the C library's capitals; under a Turkish locale "i" has another one.
    assert {path: one.properties for path, one in outside_the_store().items() if one.properties} == {}


def test_properties_in_constructors_are_known_when_seen():
    head = "from PySide6.QtCore import QTimer, Signal\nfrom PySide6.QtGui import QPen\nfrom keeper.x import Paper\n"
    assert properties_in_constructors(head + "QTimer(self, interval=0)") == ["QTimer(interval)"]
    assert properties_in_constructors(head + "class A(QTimer):\n    def f(self):\n        super().__init__(singleShot=True)") == [
        "QTimer(singleShot)"
    ]
    own = "class A(Paper):\n    s = Signal(str, name='s')\n    def f(self):\n        super().__init__(look, ems=4)\nPaper(ems=3)\nQTimer(self)\nQPen(c=1)"
    assert properties_in_constructors(head + own) == []
