"""The kinds of pictures that are taken: one list, and telling them apart by their first bytes."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of picture.

    ``decoder`` is Pillow's name of it; ``endings`` is how its files are
    called, without dots, the one it is kept under first.
    """

    decoder: str
    endings: tuple[str, ...]


KINDS = {
    "image/jpeg": Kind("JPEG", ("jpg", "jpeg", "jpe", "jfif")),
    "image/png": Kind("PNG", ("png",)),
    "image/webp": Kind("WEBP", ("webp",)),
    "image/heic": Kind("HEIF", ("heic", "hif")),
    "image/heif": Kind("HEIF", ("heif",)),
    "image/avif": Kind("AVIF", ("avif",)),
    "image/tiff": Kind("TIFF", ("tif", "tiff")),
    "image/gif": Kind("GIF", ("gif",)),
    "image/bmp": Kind("BMP", ("bmp", "dib")),
}
"""By media type. Whatever is offered, told or read follows this list."""

ENDINGS = tuple(ending for kind in KINDS.values() for ending in kind.endings)
"""How the files of pictures that are taken are called; their content decides."""

NAMED = "JPEG, PNG, WebP, HEIC, AVIF, TIFF, GIF or BMP"
"""The same list for a sentence."""

BOXED = frozenset({"image/heic", "image/heif", "image/avif"})
"""Kinds that lie in boxes (ISO/IEC 14496-12)."""

_MAGIC = (
    (b"\xff\xd8\xff", "image/jpeg"), (b"\x89PNG\r\n\x1a\n", "image/png"), (b"GIF87a", "image/gif"),
    (b"GIF89a", "image/gif"), (b"II*\0", "image/tiff"), (b"MM\0*", "image/tiff"), (b"II+\0", "image/tiff"),
    (b"MM\0+", "image/tiff"),
)  # fmt: skip
_BMP_HEADERS = {12, 16, 40, 52, 56, 64, 108, 124}
_HEIC_BRANDS = {b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"hevm", b"hevs"}
_HEIF_BRANDS = {b"mif1", b"msf1"}
_AVIF_BRANDS = {b"avif", b"avis"}


def kind_of(start: bytes) -> str:
    """The media type that a file's first 64 bytes tell; "" when it is none of KINDS."""
    for magic, kind in _MAGIC:
        if start.startswith(magic):
            return kind
    if start[:4] == b"RIFF" and start[8:12] == b"WEBP":
        return "image/webp"
    # Two letters alone would be the beginning of many a text.
    if start[:2] == b"BM" and int.from_bytes(start[14:18], "little") in _BMP_HEADERS:
        return "image/bmp"
    return _boxed_kind(start) if start[4:8] == b"ftyp" else ""


def _boxed_kind(start: bytes) -> str:
    # ISO/IEC 14496-12, 4.3: major brand, version, then the compatible brands.
    major, listed = start[8:12], start[16 : min(int.from_bytes(start[:4], "big"), 64)]
    brands = {major, *(listed[at : at + 4] for at in range(0, len(listed), 4))}
    if brands & _AVIF_BRANDS and major in _AVIF_BRANDS | _HEIF_BRANDS:
        return "image/avif"
    if major in _HEIC_BRANDS:
        return "image/heic"
    return "image/heif" if major in _HEIF_BRANDS else ""
