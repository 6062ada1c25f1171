"""Under the locales of other systems the program starts, and each page is visited once."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from keeper.window.desk.pages import LISTED

LOCALES = ("tr_TR", "ar_EG")
"""Letters and the sign of decimals of another kind; days and digits of another kind."""

VISIT = """
import locale, sys
from pathlib import Path

from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from keeper.window.frame import opening
from keeper.window.desk.pages import LISTED

locale.setlocale(locale.LC_ALL, "")
app = opening.application()
frame = opening.make_frame(app, Path(sys.argv[1]))
frame.show()
opening._open_page(frame, None)
opening.at_ease(frame)
for _ in range(400):
    QTest.qWait(50)
    if frame.rest_is_loaded():
        break
for page in LISTED:
    frame.go(page)
    for lane in (frame.desk.reader, frame.desk.writer):
        assert lane.finish(20)
    QTest.qWait(60)
assert frame.ribbon is not None and frame.pages["night"].photos is not None
assert frame.close()
print("visited", len(frame.pages), locale.setlocale(locale.LC_CTYPE), QApplication.instance() is app)
"""


@pytest.fixture(scope="module")
def made(tmp_path_factory) -> Path:
    """A folder for locales that this computer need not have."""
    return tmp_path_factory.mktemp("locales")


def under(name: str, made: Path) -> dict[str, str]:
    """The environment of a system with this locale; it is made where the means are there."""
    if name == "C":
        return {**os.environ, "LC_ALL": "C", "LANG": "C"}
    if not shutil.which("localedef"):
        pytest.skip("There is no localedef to make the locale with.")
    spelt = made / f"{name}.UTF-8"
    if not spelt.is_dir():
        tried = subprocess.run(["localedef", "--no-archive", "-i", name, "-f", "UTF-8", spelt], capture_output=True, timeout=200)
    if not spelt.is_dir():
        pytest.skip(f"localedef knows no {name}: {tried.stderr.decode(errors='replace')[:200]}")
    return {**os.environ, "LOCPATH": str(made), "LC_ALL": spelt.name, "LANG": spelt.name}


@pytest.mark.parametrize("name", LOCALES)
def test_the_program_starts_and_every_page_is_there(folder, made, name):
    done = subprocess.run([sys.executable, "-c", VISIT, str(folder)], env=under(name, made),
                          capture_output=True, text=True, encoding="utf-8", timeout=200)  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith(f"visited {len(LISTED)} ") and done.stdout.endswith("True\n")
    assert f"{name}.UTF-8" in done.stdout
    assert "Traceback" not in done.stderr


SHOW = """
import sys
from keeper.cli.command import main
for typed in sys.argv[2:]:
    main(["--in", sys.argv[1], "show", typed], None)
    print("--", flush=True)
"""


def shown(folder: Path, environment: dict[str, str], *typed: str) -> list[str]:
    """What the command line says of each date, one after another."""
    done = subprocess.run([sys.executable, "-c", SHOW, str(folder), *typed], env=environment, stderr=subprocess.STDOUT,
                          stdout=subprocess.PIPE, text=True, encoding="utf-8", timeout=200)  # fmt: skip
    assert done.returncode == 0, done.stdout
    return done.stdout.split("--\n")[:-1]


@pytest.mark.parametrize(
    ("name", "typed"),
    [("tr_TR", ("4 Haziran 2019", "4 HAZ\u0130RAN 2019", "4.6.2019")), ("fr_FR", ("mardi 4 juin 2019", "4/6/2019")),
     ("de_DE", ("4. Juni 2019", "4.6.19")), ("sv_SE", ("2019-06-04", "19-06-04", "den 4 juni 2019")),
     ("en_US", ("6/4/2019", "June 4, 2019")), ("C", ("4.6.2019", "4 jun 19"))],
)  # fmt: skip
def test_the_command_line_takes_dates_in_the_way_of_the_system(store, folder, made, name, typed):
    told = shown(folder, under(name, made), "2019-06-04", *typed)
    assert "2019" in told[0] and "not a date" not in told[0]
    assert told == [told[0]] * len(told)


def test_a_locale_that_is_not_installed_still_tells_the_order(store, folder, made):
    without = {**os.environ, "LOCPATH": str(made / "none"), "LC_ALL": "en_US.UTF-8"}
    told = shown(folder, without, "2019-06-04", "6/4/2019", "4 Haziran 2019")
    assert told[0] == told[1] and "not a date" in told[2]
