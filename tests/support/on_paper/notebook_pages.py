"""Pages of a notebook to try things on: ruled and written, askew, as pictures and as a PDF."""

import random
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

SERIF = Path(__file__).parents[3] / "resources" / "fonts" / "SourceSerif4_400Regular.ttf"


def written_page(words: str = "The harbour was still, and the choir stayed till ten. ", *, ruled: bool = True, shadow: bool = False,
                 size: tuple[int, int] = (1240, 1748)) -> Image.Image:  # fmt: skip
    """A page with rows of writing, lying level; with a ``shadow`` as a lamp throws it."""
    page = Image.new("RGB", size, (250, 246, 236))
    draw, chance = ImageDraw.Draw(page), random.Random(7)
    font = ImageFont.truetype(str(SERIF), 34)
    for number in range(31):
        y = 90 + number * 50
        if ruled:
            draw.line((70, y + 40, size[0] - 70, y + 40), fill=(205, 200, 190), width=2)
        start = chance.randrange(len(words))
        draw.text((80, y), f"{number + 1}  {(words * 3)[start:start + chance.randrange(25, 58)]}", (40, 45, 70), font)
    if shadow:
        dark = Image.linear_gradient("L").resize(size).point(lambda value: 110 + value // 2)
        page = Image.composite(page, Image.new("RGB", size, (60, 50, 40)), dark)
    return page


def askew(page: Image.Image, degrees: float) -> Image.Image:
    """The page turned to the right by so many degrees, on a table."""
    return page.rotate(-degrees, Image.Resampling.BICUBIC, expand=True, fillcolor=(120, 100, 80))


def saved(page: Image.Image, path: Path) -> Path:
    """The page as a file."""
    path.parent.mkdir(parents=True, exist_ok=True)
    page.save(path)
    return path


def pdf_of(pages: list[Image.Image], path: Path) -> Path:
    """The pages as a PDF."""
    path.parent.mkdir(parents=True, exist_ok=True)
    pages[0].save(path, "PDF", save_all=True, append_images=pages[1:], resolution=150)
    return path
