"""One measurement in a process of its own, so that typst remembers nothing: WHAT KEEPER WORK.

WHAT is ``whole`` (the program's way), ``compile`` (typst alone, over pages laid
out before in WORK) or ``scale`` (Pillow alone). Prints seconds, and megabytes
at the peak.
"""

import resource
import sys
from pathlib import Path
from time import perf_counter

YEAR = 2025


def whole(keeper: Path, work: Path) -> float:
    from keeper.actions import opening
    from keeper.actions.paper import making as book
    from keeper.clock import Clock

    with opening.open_kept(keeper) as store:
        begun = perf_counter()
        book.make_book(store, YEAR, book.BookParts(themes=False), work / "whole.pdf", Clock())
        return perf_counter() - begun


def compile(keeper: Path, work: Path) -> float:
    import typst

    from keeper.shipped import resource as shipped

    begun = perf_counter()
    fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(shipped("fonts"))])
    pdf = typst.compile(
        str(work / "book.typ"), root=str(work), font_paths=fonts, ignore_system_fonts=True, timestamp=1,
        pdf_standards=["a-2a", "ua-1"],
    )  # fmt: skip
    (work / "bare.pdf").write_bytes(pdf)
    return perf_counter() - begun


def scale(keeper: Path, work: Path) -> float:
    from PIL import Image, ImageOps

    sizes = [max(Image.open(file).size) for file in sorted(work.glob("photo-*.jpg"))]
    files = sorted(file for file in (keeper / "photos").rglob("*.jpg") if file.stat().st_size > 1_000_000)
    begun = perf_counter()
    for file, side in zip(files, sizes, strict=True):
        with Image.open(file) as image:
            image.thumbnail((side, side), reducing_gap=2.0)
            ImageOps.exif_transpose(image).convert("RGB").save(work / "bare.jpg", quality=92, subsampling=0)
    return perf_counter() - begun


if __name__ == "__main__":
    import PIL.Image
    import typst

    del PIL, typst
    seconds = globals()[sys.argv[1]](Path(sys.argv[2]), Path(sys.argv[3]))
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // (1 if sys.platform == "darwin" else 1024)
    print(seconds, peak if sys.platform != "darwin" else peak // 1_048_576)
