"""Pictures: cut, turned and blown up, with notes that lie and sizes that are bombs."""

import random
import struct
import zlib
from functools import cache
from io import BytesIO
from pathlib import Path

from PIL import Image
from sample_pictures import HEIC, REAL, exif, jpeg_bytes, png, png_chunk, quarters, wide_gamut_profile, with_exif

from keeper.errors import UnreadablePhoto
from keeper.exchange import picture
from keeper.exchange.picture_file import media_type
from keeper.exchange.unplaced import unplaced
from meaning_ill import must_be_a_sentence

KINDS = ("JPEG", "PNG", "WEBP", "TIFF", "GIF", "BMP", "AVIF")
ENDINGS = (".jpg", ".png", ".heic", ".tif", ".webp", ".gif", ".bmp", ".avif", "")
XMP = (
    b'<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description '
    b'xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmp:CreateDate="2026-06-03T12:00:00+03:00"/></rdf:RDF></x:xmpmeta>'
)
_PIECES = (b"\0", b"\xff", b"\xff" * 40, b"\xff\xd8", b"\xff\xd9", b"\xff\xda", b"\xff\xe1\xff\xff", b"II*\0", b"\x69\x87\x04\0", b"\x25\x88\x04\0",
           b"IHDR", b"IDAT", b"IEND", b"acTL", b"ftypheic", b"meta", b"iloc", b"\0\0\0\0", b"\x7f\xff\xff\xff", b"\x80\0\0\0", b"GIF89a", b"2026:06:03 12:00:00",
           b"<!DOCTYPE a [<!ENTITY b 'c'>]>", b"\0" * 300)  # fmt: skip


@cache
def seeds() -> tuple[bytes, ...]:
    """Sound pictures, one of each kind and some with much to tell."""
    noise, made = Image.effect_noise((60, 44), 60).convert("RGB"), []
    for kind in KINDS:
        out = BytesIO()
        noise.save(out, kind, **({"save_all": True, "append_images": [quarters(60, 44)]} if kind in ("GIF", "PNG", "WEBP", "TIFF") else {}))
        made.append(out.getvalue())
    told = exif("2026:06:03 12:00:00", "+03:00", 6, 56.9, 24.1)
    out = BytesIO()
    quarters().save(out, "TIFF", compression="tiff_lzw", exif=told and Image.Exif())
    made += [out.getvalue(), with_exif(jpeg_bytes(quarters()), told), HEIC.read_bytes()]
    out = BytesIO()
    quarters().save(out, "JPEG", progressive=True, icc_profile=wide_gamut_profile(), xmp=XMP, exif=b"Exif\0\0" + told)
    return (*made, out.getvalue())


@cache
def _real() -> tuple[bytes, ...]:
    return tuple(path.read_bytes() for path in sorted(REAL.glob("*.*")) if path.suffix != ".md" and path.stat().st_size < 400_000)


def case(number: int, folder: Path) -> Path:
    """A picture that is none, or nearly."""
    chance = random.Random(number)
    file = folder / f"picture{chance.choice(ENDINGS)}"
    file.write_bytes(_made(chance))
    return file


def _made(chance: random.Random) -> bytes:
    which = chance.randrange(20)
    if which < 8:
        return _mangled(chance.choice(seeds()), chance)
    if which == 8:
        return _mangled(chance.choice(_real()), chance)
    if which < 12:
        return with_exif(jpeg_bytes(quarters()), _mangled(exif("2026:06:03 12:00:00", "+03:00", 6, 56.9, 24.1), chance)[:65_000])
    if which == 12:
        return _png_of(chance)
    if which == 13:
        return _blown_up(chance)
    if which == 14:
        return _with_xmp(_mangled(XMP * chance.choice((1, 1, 50)), chance))
    if which == 15:
        return chance.choice(seeds())[: chance.randint(0, 3000)]
    if which == 16:
        return chance.choice(seeds())[: chance.randint(4, 64)] + chance.randbytes(chance.randint(0, 2000))
    if which == 17:
        return _with_profile(_mangled(wide_gamut_profile(), chance))
    if which == 18:
        return chance.choice(seeds()) + chance.choice(seeds())
    return _directory_without_end(chance)


def _mangled(seed: bytes, chance: random.Random) -> bytes:
    data = bytearray(seed)
    for _ in range(chance.randint(1, 8)):
        reach = chance.choice((64, 400, len(data)))
        at = chance.randint(0, min(reach, len(data)))
        what = chance.randrange(5)
        if what == 0:
            data[at : at + chance.randint(1, 60)] = b""
        elif what == 1:
            data[at:at] = chance.choice(_PIECES)
        elif what == 2 and data:
            data[at % len(data)] = chance.randrange(256)
        elif what == 3:
            data[at : at + 4] = struct.pack(chance.choice("<>") + "I", chance.choice((0, 1, 0xFFFF, 1 << 20, 0x7FFFFFFF, 0xFFFFFFFF)))
        else:
            data[at:at] = bytes(data[at : at + 30]) * chance.randint(1, 20)
    return bytes(data)


def _png_of(chance: random.Random) -> bytes:
    """A PNG whose sums are right and whose pieces lie."""
    wide, high = (chance.choice((0, 1, 8, 300, 11_000, 100_000, 0x7FFFFFFF)) for _ in "ab")
    pieces = [png_chunk(chance.choice((b"iCCP", b"tEXt", b"zTXt", b"iTXt", b"eXIf", b"PLTE", b"tRNS", b"gAMA", b"acTL", b"fcTL", b"fdAT", b"pHYs")),
                        chance.choice((b"", chance.randbytes(chance.randint(0, 40)), b"name\0\0" + zlib.compress(b"\0" * chance.choice((10, 5_000_000))))))
              for _ in range(chance.randint(0, 4))]  # fmt: skip
    made = bytearray(png(wide, high, *pieces))
    made[24:26] = bytes((chance.choice((1, 2, 4, 8, 16, 7)), chance.choice((0, 2, 3, 4, 6, 5))))
    made[29:33] = struct.pack(">I", zlib.crc32(made[12:29]))
    return bytes(made)


def _blown_up(chance: random.Random) -> bytes:
    """A picture that says that it is far larger than it is."""
    data = bytearray(jpeg_bytes(quarters()))
    at = data.index(b"\xff\xc0") + 5
    data[at : at + 4] = struct.pack(">HH", *(chance.choice((0, 1, 9_000, 16_000, 65_535)) for _ in "ab"))
    return bytes(data)


def _with_xmp(packet: bytes) -> bytes:
    body = b"http://ns.adobe.com/xap/1.0/\0" + packet[:60_000]
    data = jpeg_bytes(quarters())
    return data[:2] + b"\xff\xe1" + struct.pack(">H", len(body) + 2) + body + data[2:]


def _with_profile(profile: bytes) -> bytes:
    out = BytesIO()
    quarters().save(out, "JPEG", icc_profile=profile)
    return out.getvalue()


def _directory_without_end(chance: random.Random) -> bytes:
    """A TIFF whose directories follow one another in a ring, or have entries without number."""
    entries = b"".join(struct.pack("<HHII", chance.choice((256, 257, 258, 259, 273, 277, 279, 330, 34665, 34853, 700)), chance.randint(0, 14),
                                   chance.choice((0, 1, 9, 0xFFFFFFFF)), chance.choice((8, 1, 100, 0xFFFFFFF0))) for _ in range(chance.randint(0, 9)))  # fmt: skip
    many = chance.choice((len(entries) // 12, 0xFFFF))
    return b"II*\0" + struct.pack("<I", 8) + struct.pack("<H", many) + entries + struct.pack("<I", chance.choice((8, 0, 0xFFFFFFFF)))


class Reader:
    """Reads a picture as the taking in, the pages and the giving do."""

    def __init__(self, room: Path) -> None:
        """Nothing is needed."""

    def read(self, file: Path) -> bool:
        """Whether it was proven whole; all else that is done with a picture is done too."""
        for other in (picture.look_at, lambda one: picture.without_whereabouts(one, 200, cut_off=True)):
            try:
                other(file)
            except UnreadablePhoto as told:
                must_be_a_sentence(told)
        try:
            facts, small = picture.read_with_thumbnail(file, 64)
        except UnreadablePhoto as told:
            must_be_a_sentence(told)
            return False
        assert facts.width > 0 and facts.height > 0 and small.startswith(b"\xff\xd8")
        plain = unplaced(file.read_bytes(), media_type(file), facts.orientation, facts.taken_local)
        if plain is not None:
            file.with_name("plain").write_bytes(plain)
            try:
                assert picture.look_at(file.with_name("plain")).latitude is None
            except UnreadablePhoto as told:
                must_be_a_sentence(told)
            finally:
                file.with_name("plain").unlink()
        return True
