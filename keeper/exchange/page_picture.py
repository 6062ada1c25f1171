"""A page of a notebook as it is to be seen: turned, straightened, cut; the file stays as it is."""

import io
from pathlib import Path
from typing import TYPE_CHECKING

from keeper.exchange.pdf_pages import page_picture
from keeper.exchange.picture import picture

if TYPE_CHECKING:
    from numpy.typing import NDArray
    from PIL.Image import Image

PDF = "pdf"
"""The ending of a file with pages."""

Cut = tuple[float, float, float, float]
"""Left, top, right and bottom, in parts of the whole."""

_MOST = 8000
"""Dots of the longer side of a whole page, however little of it is to be seen."""

_PRINTED = 88
"""How well a JPEG is kept, of 100."""

_MEASURED = 1000
_PATCH = 25
_DARKER = 12
"""The size of a page whose angle is measured, the patch that ink is compared with, and by how much it is darker (of 255)."""


def page_as_seen(
    file: Path, page: int, longest_side: int, turns: int = 0, angle: float = 0.0, cut: Cut = (0, 0, 1, 1), called: Path | None = None
) -> "Image":
    """An RGB picture whose longer side has about so many dots.

    ``page`` counts within a PDF; ``turns`` are quarters to the right, then
    ``angle`` degrees to the right, then ``cut``. Raises UnreadablePhoto.
    """
    whole = min(_MOST, round(longest_side / max(cut[2] - cut[0], cut[3] - cut[1])))
    turned = _turned(_as_it_came(file, page, whole, called), turns)
    return _cut_out(_straightened(turned, angle), cut)


def jpeg_of(image: "Image") -> bytes:
    """A picture as a JPEG that tells nothing but itself."""
    with io.BytesIO() as out:
        image.save(out, "JPEG", quality=_PRINTED)
        return out.getvalue()


def ink_of(file: Path, page: int, turns: int = 0, called: Path | None = None) -> "NDArray":
    """Where a page has ink: an array of rows, true where it is darker than the paper about it. Raises UnreadablePhoto."""
    import numpy
    from PIL import ImageChops, ImageFilter

    grey = _turned(_as_it_came(file, page, _MEASURED, called), turns).convert("L")
    # Against the paper near by: a photo of a page has shadows.
    lighter = ImageChops.subtract(grey.filter(ImageFilter.BoxBlur(_PATCH)), grey)
    return numpy.asarray(lighter) > _DARKER


def _as_it_came(file: Path, page: int, longest_side: int, called: Path | None) -> "Image":
    if file.suffix == f".{PDF}":
        return page_picture(file, page, longest_side, called)
    return picture(file, longest_side)


def _turned(image: "Image", turns: int) -> "Image":
    from PIL.Image import Transpose

    # Pillow counts against the clock.
    how = (None, Transpose.ROTATE_270, Transpose.ROTATE_180, Transpose.ROTATE_90)[turns % 4]
    return image if how is None else image.transpose(how)


def _straightened(image: "Image", angle: float) -> "Image":
    from PIL.Image import Resampling

    if not angle:
        return image
    # What comes in at the corners is of the page's own colour.
    ground = image.resize((1, 1), Resampling.BOX).getpixel((0, 0))
    return image.rotate(-angle, Resampling.BICUBIC, expand=True, fillcolor=ground)


def _cut_out(image: "Image", cut: Cut) -> "Image":
    left, top, right, bottom = cut
    if cut == (0, 0, 1, 1):
        return image
    box = (round(left * image.width), round(top * image.height), round(right * image.width), round(bottom * image.height))
    return image.crop((box[0], box[1], max(box[2], box[0] + 1), max(box[3], box[1] + 1)))
