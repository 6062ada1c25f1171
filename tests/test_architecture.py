"""Who may import whom, and that only the store speaks SQL."""

import ast
import importlib.util
import os
import re
import shutil
import subprocess
import sys
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
        capture_output=True, text=True, encoding="utf-8", errors="replace", timeout=60,
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


def speaks_sql(source: str) -> list[str]:
    """Strings of a module, other than docstrings, that hold SQL."""
    tree = ast.parse(source)
    documented = (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)
    docs = {id(node.body[0].value) for node in ast.walk(tree)
            if isinstance(node, documented) and node.body and isinstance(node.body[0], ast.Expr)}  # fmt: skip
    texts = [node.value for node in ast.walk(tree) if isinstance(node, ast.Constant) and id(node) not in docs]
    return [text for text in texts if isinstance(text, str) and SQL.search(" ".join(text.split()))]


def modules() -> list[Path]:
    """Every module of the program outside the store."""
    return [path for path in (ROOT / "keeper").rglob("*.py") if "store" not in path.relative_to(ROOT / "keeper").parts and "_shipped" not in path.parts]


def test_no_room_but_the_store_speaks_sql():
    assert len(modules()) > 20
    spoken = {str(path.relative_to(ROOT)): speaks_sql(path.read_text("utf-8")) for path in modules()}
    assert {path: texts for path, texts in spoken.items() if texts} == {}


def test_sql_is_known_when_seen():
    assert speaks_sql('"""SELECT a FROM b is only told of."""\nx = "SELECT a\\n FROM b"') == ["SELECT a\n FROM b"]
    assert speaks_sql("f'DELETE FROM {table}'") == ["DELETE FROM "]
    assert speaks_sql("x = 'PRAGMA user_version'") == ["PRAGMA user_version"]
    assert speaks_sql("x = 'Select a place from the list. Update it, then set it.'") == []
    store = (ROOT / "keeper" / "store" / "lines.py").read_text("utf-8")
    assert len(speaks_sql(store)) > 5


def test_no_module_of_the_program_opens_the_network():
    forbidden = {"socket", "urllib", "http", "requests", "ftplib", "smtplib", "ssl", "asyncio"}
    reached = {}
    for path in (ROOT / "keeper").rglob("*.py"):
        tree = ast.parse(path.read_text("utf-8"))
        names = {alias.name.split(".")[0] for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names}
        names |= {(node.module or "").split(".")[0] for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
        if names & forbidden:
            reached[str(path.relative_to(ROOT))] = names & forbidden
    assert reached == {}


def test_the_command_line_wakes_neither_qt_nor_sqlite_utils():
    listed = "import sys, keeper.cli.command; print(*[m for m in ('PySide6', 'sqlite_utils', 'tzlocal') if m in sys.modules])"
    shown = subprocess.run([sys.executable, "-c", listed], capture_output=True, text=True, timeout=60)
    assert (shown.returncode, shown.stdout.split()) == (0, [])


def properties_in_constructors(source: str) -> list[str]:
    """Keywords in the making of Qt's things, as "QTimer(interval)".

    Calls of a class taken from PySide6, and of ``super().__init__`` in a class
    that has only such ones below it.
    """
    tree = ast.parse(source)
    qt = {alias.asname or alias.name for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)
          for alias in node.names if has_properties(node.module or "", alias.name)}  # fmt: skip
    made = [(node.func.id, node) for node in ast.walk(tree) if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)]
    for owner in (node for node in ast.walk(tree) if isinstance(node, ast.ClassDef)):
        bases = [getattr(base, "id", "") for base in owner.bases]
        if bases and set(bases) <= qt:
            made += [(bases[0], node) for node in ast.walk(owner) if isinstance(node, ast.Call)
                     and ast.unparse(node.func) == "super().__init__"]  # fmt: skip
    return [f"{name}({word.arg})" for name, call in made if name in qt for word in call.keywords]


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
    for path in (ROOT / "keeper").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                where.setdefault(node.name, set()).add(path.relative_to(ROOT).as_posix())
    assert {name for name, paths in where.items() if len(paths) > 1} <= {"MonthPage", "YearPage"}


def test_no_property_is_named_in_a_constructor_of_qt():
    # PySide makes the setter's name by the C library's capitals; under a Turkish locale "i" has another one.
    named = {str(path.relative_to(ROOT)): properties_in_constructors(path.read_text("utf-8")) for path in modules()}
    assert {path: words for path, words in named.items() if words} == {}


def test_properties_in_constructors_are_known_when_seen():
    head = "from PySide6.QtCore import QTimer, Signal\nfrom PySide6.QtGui import QPen\nfrom keeper.x import Paper\n"
    assert properties_in_constructors(head + "QTimer(self, interval=0)") == ["QTimer(interval)"]
    assert properties_in_constructors(head + "class A(QTimer):\n    def f(self):\n        super().__init__(singleShot=True)") == [
        "QTimer(singleShot)"
    ]
    own = "class A(Paper):\n    s = Signal(str, name='s')\n    def f(self):\n        super().__init__(look, ems=4)\nPaper(ems=3)\nQTimer(self)\nQPen(c=1)"
    assert properties_in_constructors(head + own) == []
