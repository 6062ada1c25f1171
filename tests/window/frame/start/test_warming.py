"""What the pages need is brought in while nobody types."""

import ast
import os
import subprocess
import sys

from keeper.window.frame.start import warming as made


def test_a_module_comes_after_what_it_needs():
    order = list(made._leaves_first(["keeper.window.month.page"], set()))
    assert order[-1] == "keeper.window.month.page" and len(order) == len(set(order)) > 20
    assert order.index("keeper.days") < order.index("keeper.review.month") < order.index("keeper.window.month.sheet")


def test_what_a_module_needs_is_what_its_text_says():
    for path in sorted((made._ROOT / "keeper").rglob("*.py")):
        said = set()
        for node in ast.parse(path.read_bytes()).body:
            if isinstance(node, ast.ImportFrom):
                said |= {node.module, *(f"{node.module}.{alias.name}" for alias in node.names)}
            elif isinstance(node, ast.Import):
                said |= {alias.name for alias in node.names}
        assert set(made._needed(path)) == said, path


def test_every_page_that_is_brought_in_is_there():
    folder = made._ROOT / "keeper" / "window"
    assert [page for page in made.AHEAD if not folder.joinpath(*page.split(".")).with_suffix(".py").is_file()] == []


def test_all_pages_are_brought_in_and_nothing_heavy(folder, store):
    script = (
        "import sys; from pathlib import Path; from PySide6.QtTest import QTest; from keeper.window.frame import opening; from keeper.window.frame.start import warming;"
        "warming.WARM_EVERY = warming.WARM_AFTER = 0; app = opening.application();"
        f"frame = opening.make_frame(app, Path({str(folder)!r})); frame.show(); frame.load_rest();"
        "[app.processEvents() for _ in iter(frame.rest_is_loaded, True)];"
        "coming = frame.findChild(warming.Warming);"
        "before = 'keeper.window.year.page' in sys.modules;"
        "[QTest.qWait(20) for _ in range(500) if coming._timer.isActive()];"
        "heavy = {'numpy', 'scipy', 'sklearn'} & set(sys.modules);"
        "print(before, [p for p in warming.AHEAD if f'keeper.window.{p}' not in sys.modules], heavy); frame.close()"
    )
    env = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, env=env)
    assert done.stdout == "False [] set()\n", done.stderr
