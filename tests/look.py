"""Open the demo and grab every page to PNG, in all palettes, small and large.

    python tests/look.py FOLDER [--keeper KEEPER] [--sizes 1024x700,1600x1000] [--pages night,year] [--papers day]

Look at the pictures after every change to a page. The README's pictures are
made with ``python tests/look.py demo_db/pictures --readme``, and among them
two facing pages of a book.
"""

import argparse
import shutil
import tempfile
from datetime import date
from pathlib import Path

from PySide6.QtCore import QEventLoop, QTimer
from PySide6.QtGui import QImage, QPainter
from PySide6.QtWidgets import QApplication

from keeper.actions import opening as keepers
from keeper.actions.paper import making
from keeper.settings import PAPERS
from keeper.window.desk.pages import LISTED
from keeper.window.frame import opening
from keeper.window.frame.window import Frame

SIZES = ("1024x700", "1600x1000")
README = {"night": "1200x800", "looking back": "1200x800", "find": "1200x800", "month": "1200x1000",
          "year": "1200x1000", "themes": "1200x800", "places": "1200x800"}  # fmt: skip
SOUGHT = "swam"
BOOK_YEAR, LEFT_PAGE, DOTS = 2025, 8, 95


def wait(milliseconds: int) -> None:
    """Let the window live for a while."""
    loop = QEventLoop()
    QTimer.singleShot(milliseconds, loop.quit)
    loop.exec()


def opened(folder: Path) -> Frame:
    """A window on a copy of a keeper, on the evening after its last night."""
    app = opening.application()
    with keepers.open_again(folder) as store:
        clock = keepers.demo_clock(store)
    frame = opening.make_frame(app, folder, clock)
    frame.show()
    opening._open_page(frame, None)
    opening.at_ease(frame)
    wait(600)
    return frame


def wait_for_themes(frame: Frame) -> None:
    """Wait until nothing is being looked for, half a minute at most."""
    from keeper.window.themes.work import ThemeWork

    for _ in range(60):
        wait(500)
        if not ThemeWork.of(frame.desk).running:
            return


def grab(frame: Frame, page: str, size: str, light: str, into: Path) -> Path:
    """One page as a picture."""
    frame.desk.kept["palette"] = light
    frame.dress_anew()
    frame.resize(*(int(side) for side in size.split("x")))
    frame.go(page, night_for(frame, page))
    if page == "find":
        frame.pages["find"].typed.setText(SOUGHT)
    if page == "themes":
        wait_for_themes(frame)
    wait(1500)
    for _ in range(3):
        # On a busy machine a page is not whole after a second; what is answered asks for more.
        frame.desk.reader.finish(20)
        wait(400)
    path = into / f"{page.replace(' ', '-')}-{light}-{size}.png"
    frame.grab().save(str(path))
    return path


def spread(keeper: Path, into: Path) -> Path:
    """Two facing pages of the book of a year as a picture, with a month's readings at the left."""
    with tempfile.TemporaryDirectory() as passing, keepers.open_again(keeper) as store:
        proof = making.proof_book(store, BOOK_YEAR, making.BookParts(), Path(passing), keepers.demo_clock(store))
        pages = making.picture_pages(proof, DOTS)[LEFT_PAGE - 1 : LEFT_PAGE + 1]
        left, right = (QImage(str(page)) for page in pages)
    both = QImage(left.width() + right.width(), left.height(), QImage.Format.Format_RGB32)
    both.fill("white")
    painter = QPainter(both)
    painter.drawImage(0, 0, left)
    painter.drawImage(left.width(), 0, right)
    painter.end()
    path = into / "book-spread.png"
    both.save(str(path))
    return path


def night_for(frame: Frame, page: str) -> date:
    """The night on which a page has something to show."""
    tonight = frame.desk.tonight()
    return tonight.replace(month=tonight.month - 1 or 12, day=20) if page == "month" else tonight


def main() -> None:
    """Grab what the command line asks for."""
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("folder", type=Path)
    asked.add_argument("--keeper", type=Path)
    asked.add_argument("--sizes", default=",".join(SIZES))
    asked.add_argument("--pages", default=",".join(LISTED))
    asked.add_argument("--papers", default=",".join(PAPERS))
    asked.add_argument("--readme", action="store_true")
    told = asked.parse_args()
    told.folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as passing:
        copy = Path(passing) / "keeper"
        if told.keeper:
            shutil.copytree(told.keeper, copy)
        else:
            keepers.lay_out_demo(copy)
        frame = opened(copy)
        for page in told.pages.split(","):
            sizes = [README[page]] if told.readme and page in README else told.sizes.split(",")
            if told.readme and page not in README:
                continue
            for size in sizes:
                for light in told.papers.split(","):
                    print(grab(frame, page, size, light, told.folder))
        frame.leave()
        if told.readme:
            print(spread(copy, told.folder))
        QApplication.processEvents()


if __name__ == "__main__":
    main()
