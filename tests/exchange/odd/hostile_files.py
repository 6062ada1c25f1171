"""Files that mean ill, or are broken: bytes of any kind, and real files cut, turned and blown up."""

import io
import random
import zipfile

ENDINGS = (".csv", ".tsv", ".txt", ".md", ".json", ".ics", ".xlsx", ".ods", "")

SEEDS = (
    b'Date,Words\r\n2026-06-03,"one, ""two"""\r\n2026-06-04,three\r\n',
    "Datum;Wörter\n03.06.2026;Küche\n".encode("cp1252"), "Date\tWords\n2026-06-03\t東京\n".encode("utf-16"),
    b"# 2026\n## June\n### 3\nwords\n- 2026-06-04: more\n---\n3 June 2026 \xe2\x80\x94 x\n",
    b'[{"date": "2026-06-03", "text": "one", "place": {"name": "Riga"}}, ["a", 1.5, null, true], "x"]',
    b"BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nDTSTART;TZID=X:20260603T120000\r\nSUMMARY:one\\, two\r\n three\r\nEND:VEVENT\r\n"
    b"BEGIN:VTIMEZONE\r\nRRULE:FREQ=SECONDLY\r\nEND:VTIMEZONE\r\nEND:VCALENDAR\r\n",
)

_PIECES = (b"\0", b'"', b"\r", b"\n", b",", b";", b"\t", b"[", b"{", b"\xff", b"\xed\xa0\x80", b"\\u0000", b"\xef\xbb\xbf", b"=1+1",
           b"9" * 400, b"<!ENTITY a 'b'>", b"BEGIN:VEVENT\n", b"DTSTART:\n", b"../../x", b"1e999", b"2026-06-03", b"#" * 50, b"\x1a",
           b"\xe2\x80\xae", b"'" * 300, b"- " * 200, b"(" * 400, b"00:00:00T", b"\xd9\xa3", b"NaN", b"{\"a\":" * 60)  # fmt: skip


def mangled(seed: bytes, chance: random.Random) -> bytes:
    """A file like a seed, with a few of its bytes cut, doubled, turned or put in."""
    data = bytearray(seed)
    for _ in range(chance.randint(1, 8)):
        at = chance.randint(0, len(data))
        what = chance.randrange(5)
        if what == 0:
            data[at : at + chance.randint(1, 30)] = b""
        elif what == 1:
            data[at:at] = chance.choice(_PIECES)
        elif what == 2 and data:
            data[at % len(data)] = chance.randrange(256)
        elif what == 3:
            part = bytes(data[at : at + 20])
            data[at:at] = part * chance.randint(1, 40)
        else:
            data[at:at] = chance.choice(SEEDS)[: chance.randint(1, 60)]
    return bytes(data)


def packed(parts: dict[str, bytes]) -> bytes:
    """A packed file of these parts."""
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as into:
        for name, data in parts.items():
            into.writestr(name, data)
    return made.getvalue()


def repacked(sheet: bytes, chance: random.Random) -> bytes:
    """A spreadsheet with one of its parts mangled, and all sums right again."""
    with zipfile.ZipFile(io.BytesIO(sheet)) as old:
        parts = {name: old.read(name) for name in old.namelist()}
    name = chance.choice(sorted(parts))
    parts[name] = mangled(parts[name], chance)
    return packed(parts)


XLSX = {
    "[Content_Types].xml": b'<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
    b'<Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>'
    b'<Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>',
    "_rels/.rels": b'<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" '
    b'Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>',
    "xl/workbook.xml": b'<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" '
    b'xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="S" sheetId="1" r:id="r1"/></sheets></workbook>',
    "xl/_rels/workbook.xml.rels": b'<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" '
    b'Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>',
}  # fmt: skip


def xlsx(rows: bytes, dimension: bytes = b"A1:B2", head: bytes = b"") -> bytes:
    """A spreadsheet of the kind .xlsx with these rows in its one sheet."""
    sheet = head + (b'<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><dimension ref="' + dimension
                    + b'"/><sheetData>' + rows + b"</sheetData></worksheet>")  # fmt: skip
    return packed({**XLSX, "xl/worksheets/sheet1.xml": sheet})


def ods(rows: bytes, head: bytes = b"") -> bytes:
    """A spreadsheet of the kind .ods with these rows in its one sheet."""
    content = head + (
        b'<office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" '
        b'xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0">'
        b'<office:body><office:spreadsheet><table:table table:name="S">' + rows + b"</table:table></office:spreadsheet></office:body>"
        b"</office:document-content>"
    )
    return packed({
        "mimetype": b"application/vnd.oasis.opendocument.spreadsheet", "content.xml": content,
        "META-INF/manifest.xml": b'<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0"/>',
    })  # fmt: skip


LAUGHS = b'<!DOCTYPE l [<!ENTITY a "ha">' + b"".join(
    b'<!ENTITY %c "%s">' % (98 + n, (b"&%c;" % (97 + n)) * 10) for n in range(9)
) + b"]>"  # fmt: skip
FROM_ELSEWHERE = b'<!DOCTYPE l [<!ENTITY a SYSTEM "file:///etc/passwd">]>'
