"""PDFs: pages without end or without size, things that point at one another in a ring, streams that unpack without end."""

import random
import zlib
from functools import cache
from io import BytesIO
from pathlib import Path

from sample_pictures import quarters

from keeper.errors import UnreadablePhoto
from keeper.exchange import pdf_pages
from meaning_ill import must_be_a_sentence

_PIECES = (b"1 0 R", b"2 0 R", b"3 0 R", b"4 0 R", b"99999 0 R", b"<<", b">>", b"[" * 500, b"(" * 500, b"/Kids [2 0 R]", b"/Count 2147483647", b"/Count -1",
           b"/MediaBox [0 0 1e9 1]", b"/MediaBox [0 0 0 0]", b"/MediaBox [9 9 -9 -9]", b"/Rotate 91", b"/UserUnit 1e6", b"/Length 999999999", b"/Prev 9",
           b"/Filter [/FlateDecode /FlateDecode]", b"/Encrypt << /Filter /Standard /V 9 >>", b"endobj", b"stream\n", b"endstream", b"startxref\n9\n",
           b"\0", b"%" * 300, b"1e999", b"99999999999999999999", b"/Parent 2 0 R", b"/XFA 4 0 R", b"/OpenAction << /S /JavaScript /JS (while(1);) >>",
           b"q " * 4000, b"/F Do ", b"BI /W 99999 /H 99999 ID ", b"0 0 m " * 500)  # fmt: skip


def pdf(objects: list[bytes]) -> bytes:
    """A PDF of these objects, the first of which is its catalogue (ISO 32000-1, 7.5)."""
    out, places = bytearray(b"%PDF-1.7\n"), []
    for number, one in enumerate(objects, 1):
        places.append(len(out))
        out += b"%d 0 obj\n" % number + one + b"\nendobj\n"
    table = len(out)
    out += b"xref\n0 %d\n0000000000 65535 f \n" % (len(objects) + 1) + b"".join(b"%010d 00000 n \n" % at for at in places)
    return bytes(out) + b"trailer\n<< /Size %d /Root 1 0 R >>\nstartxref\n%d\n%%%%EOF\n" % (len(objects) + 1, table)


def stream(data: bytes, more: bytes = b"") -> bytes:
    """An object that is a stream."""
    return b"<< /Length %d %s>>\nstream\n" % (len(data), more) + data + b"\nendstream"


def page(content: bytes, resources: bytes = b"", box: bytes = b"0 0 300 400", more: tuple[bytes, ...] = ()) -> bytes:
    """A PDF of one page; ``content`` is an object, ``more`` follow it from number 5 on."""
    return pdf([
        b"<< /Type /Catalog /Pages 2 0 R >>", b"<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
        b"<< /Type /Page /Parent 2 0 R /MediaBox [" + box + b"] /Contents 4 0 R /Resources << " + resources + b" >> >>", content, *more,
    ])  # fmt: skip


def laughs(deep: int, many: int = 10) -> bytes:
    """A page that draws a form, which draws a form many times, and so on."""
    forms = []
    for level in range(deep):
        last = level == deep - 1
        its = b"0 0 10 10 re f\n" if last else b"/F Do\n" * many
        within = b"" if last else b"/Resources << /XObject << /F %d 0 R >> >> " % (6 + level)
        forms.append(stream(its, b"/Type /XObject /Subtype /Form /BBox [0 0 300 400] " + within))
    return page(stream(b"/F Do\n"), b"/XObject << /F 5 0 R >>", more=tuple(forms))


def bomb(megabytes: int) -> bytes:
    """A page of a few kilobytes whose content unpacks to so much."""
    return page(stream(zlib.compress(zlib.compress(b"0 0 m " * (megabytes * 170_000), 9), 9), b"/Filter [/FlateDecode /FlateDecode] "))


def ring() -> bytes:
    """A PDF whose list of pages holds itself."""
    return pdf([b"<< /Type /Catalog /Pages 2 0 R >>", b"<< /Type /Pages /Kids [2 0 R 2 0 R] /Count 2 /Parent 2 0 R >>"])


def pages(many: int) -> bytes:
    """A PDF of so many empty pages."""
    return pdf([
        b"<< /Type /Catalog /Pages 2 0 R >>",
        b"<< /Type /Pages /MediaBox [0 0 300 400] /Count %d /Kids [" % many + b" ".join(b"%d 0 R" % (3 + at) for at in range(many)) + b"] >>",
        *[b"<< /Type /Page /Parent 2 0 R >>"] * many,
    ])  # fmt: skip


@cache
def seeds() -> tuple[bytes, ...]:
    """Sound PDFs."""
    out = BytesIO()
    quarters(60, 80).save(out, "PDF", save_all=True, append_images=[quarters()])
    words = page(stream(b"BT /T 20 Tf 30 300 Td (The kettle sang.) Tj ET 10 10 m 90 90 l S"), b"/Font << /T << /Type /Font /Subtype /Type1 /BaseFont /Times-Roman >> >>")
    packed = page(stream(zlib.compress(b"0 0 10 10 re f\n" * 40), b"/Filter /FlateDecode "))
    shaded = page(stream(b"/S sh"), b"/Shading << /S << /ShadingType 2 /ColorSpace /DeviceGray /Coords [0 0 300 400] /Function << /FunctionType 2 /Domain [0 1] /N 1 >> >> >>")
    return out.getvalue(), words, packed, shaded, laughs(3), pages(5)


def case(number: int, folder: Path) -> Path:
    """A PDF that is none, or nearly."""
    chance = random.Random(number)
    which = chance.randrange(40)
    if which == 0:
        data = laughs(chance.randint(4, 5), chance.randint(1, 9))
    elif which == 1:
        data = bomb(chance.randint(1, 4))
    elif which == 2:
        data = chance.choice((ring(), pages(0), pages(1001), b"%PDF-1.7\n" + chance.randbytes(500)))
    elif which < 6:
        box = b" ".join(b"%g" % chance.choice((0, -1e9, 1, 14_400, 2e5, 1e38, 0.001, chance.randint(-500, 500))) for _ in range(4))
        data = page(stream(b"0 0 10 10 re f"), box=box)
    else:
        data = _mangled(chance.choice(seeds()), chance)
    file = folder / "paper.pdf"
    file.write_bytes(data)
    return file


def _mangled(seed: bytes, chance: random.Random) -> bytes:
    data = bytearray(seed)
    for _ in range(chance.randint(1, 8)):
        at = chance.randint(0, len(data))
        what = chance.randrange(6)
        if what == 0:
            data[at : at + chance.randint(1, 60)] = b""
        elif what == 1:
            data[at:at] = b" " + chance.choice(_PIECES) + b" "
        elif what == 2 and data:
            data[at % len(data)] = chance.randrange(256)
        elif what == 3:
            data[at:at] = bytes(data[at : at + 40]) * chance.randint(1, 30)
        elif what == 4:
            # A number becomes another.
            numbers = [place for place in range(len(data)) if 48 <= data[place] <= 57]
            if numbers:
                data[(there := chance.choice(numbers)) : there + 1] = chance.choice((b"0", b"-1", b"9", b"99999", b"2147483648", b"1e30"))
        else:
            data[at:at] = chance.choice(seeds())[: chance.randint(1, 400)]
    return bytes(data)


class Reader:
    """Reads a PDF as pages of a notebook are brought, and seen."""

    def __init__(self, room: Path) -> None:
        """Nothing is needed."""

    def read(self, file: Path) -> bool:
        """Whether its pages could be told; those that are seen are asked for too."""
        try:
            many = pdf_pages.pages_of(file)
            for number in {0, many - 1}:
                seen = pdf_pages.page_picture(file, number, 150)
                assert max(seen.size) <= 160 and seen.mode == "RGB"
        except UnreadablePhoto as told:
            must_be_a_sentence(told)
            return False
        return True
