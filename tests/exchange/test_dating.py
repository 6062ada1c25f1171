"""When a picture was taken, by its camera, its notes and its name, in that order."""

from datetime import datetime

import pytest
from sample_pictures import jpeg_bytes, quarters, save

from keeper.exchange import dating, exif, file_dates, xmp
from keeper.exchange.dating import Dated
from keeper.exchange.picture import read_picture

ORIGINAL, DIGITIZED, OFFSET, OFFSET_DIGITIZED, MODIFIED = 0x9003, 0x9004, 0x9011, 0x9012, 0x0132

_HEAD = (
    '<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#" '
    'xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmlns:exif="http://ns.adobe.com/exif/1.0/" '
    'xmlns:photoshop="http://ns.adobe.com/photoshop/1.0/"><rdf:Description rdf:about=""'
)


def packet(elements: str = "", **attributes: str) -> bytes:
    """An XMP packet of one description; ``exif__DateTimeOriginal`` is exif:DateTimeOriginal."""
    told = "".join(f' {name.replace("__", ":")}="{value}"' for name, value in attributes.items())
    return f"{_HEAD}{told}>{elements}</rdf:Description></rdf:RDF></x:xmpmeta>".encode()


def test_what_the_camera_says_comes_first_then_what_became_a_file_then_notes_then_the_name():
    tags = {ORIGINAL: "2019:06:01 10:00:00", OFFSET: "+02:00", DIGITIZED: "2019:06:02 11:00:00", OFFSET_DIGITIZED: "+03:00"}
    notes, name = packet(exif__DateTimeOriginal="2019-06-03T12:00:00+04:00"), "IMG_20190604_130000.jpg"
    assert dating.dated(tags, notes, name) == Dated(datetime(2019, 6, 1, 10), 120)
    del tags[ORIGINAL]
    assert dating.dated(tags, notes, name) == Dated(datetime(2019, 6, 2, 11), 180, "digitized")
    del tags[DIGITIZED]
    assert dating.dated(tags, notes, name) == Dated(datetime(2019, 6, 3, 12), 240, "notes")
    assert dating.dated(tags, b"", name) == Dated(datetime(2019, 6, 4, 13), None, "name")
    assert dating.dated(tags, b"", "IMG_1234.jpg") == Dated()


def test_when_a_program_last_saved_it_is_never_asked(tmp_path):
    notes = packet(xmp__ModifyDate="2021-01-01T10:00:00", xmp__MetadataDate="2021-01-01T10:00:00")
    assert dating.dated({MODIFIED: "2021:01:01 10:00:00"}, notes, "a.jpg") == Dated()


def test_an_unset_date_gives_way_to_the_next():
    assert dating.dated({ORIGINAL: "0000:00:00 00:00:00", DIGITIZED: "2019:06:02 11:00:00"}, b"", "a") == Dated(
        datetime(2019, 6, 2, 11), None, "digitized"
    )


@pytest.mark.parametrize(
    ("notes", "found"),
    [
        (packet(exif__DateTimeOriginal="2019-06-03T22:15:00.25+05:45"), xmp.XmpDate(datetime(2019, 6, 3, 22, 15), "+05:45")),
        (packet("<xmp:CreateDate>2019-06-03T22:15Z</xmp:CreateDate>"), xmp.XmpDate(datetime(2019, 6, 3, 22, 15), "Z")),
        (packet(photoshop__DateCreated="2019-06-03"), xmp.XmpDate(datetime(2019, 6, 3, 12), "", day_only=True)),
        # What is seen was there before the picture of it was made, as of a scan.
        (packet(xmp__CreateDate="2015-01-01T10:00:00", photoshop__DateCreated="1974-08-12"),
         xmp.XmpDate(datetime(1974, 8, 12, 12), "", day_only=True)),
        (packet(xmp__CreateDate="2019-06"), None),
        (packet(xmp__CreateDate="2019-02-30T10:00:00"), None),
        (packet(xmp__CreateDate="yesterday"), None),
        (packet("<xmp:ModifyDate>2019-06-03T22:15:00</xmp:ModifyDate>"), None),
        (packet(xmp__CreateDate="2019-06-03T22:15:00")[:-30], xmp.XmpDate(datetime(2019, 6, 3, 22, 15))),
        (b"", None), (b"\xff\xfe not xml", None), (b"<a>" * 1000, None),
        (b"\xef\xbb\xbf" + packet(xmp__CreateDate="2019-06-03T22:15:00") + b"\0\0", xmp.XmpDate(datetime(2019, 6, 3, 22, 15))),
    ],
)  # fmt: skip
def test_xmp(notes, found):
    assert xmp.taken(notes) == found


def test_xmp_that_unpacks_without_end_is_not_unpacked():
    bomb = b'<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa">' + b"".join(
        b'<!ENTITY %c "%s">' % (98 + n, b"&%c;" % (97 + n) * 10) for n in range(9)
    ) + b"]>"
    assert xmp.taken(bomb + packet("<xmp:CreateDate>&j;</xmp:CreateDate>")) is None
    assert xmp.taken(bomb + packet(xmp__CreateDate="2019-06-03T22:15:00")) is None
    assert xmp.taken(packet(xmp__CreateDate="2019-06-03T22:15:00") + b" " * xmp.MOST_BYTES) is None


@pytest.mark.parametrize(
    ("name", "moment"),
    [
        ("IMG_20190603_221500.jpg", datetime(2019, 6, 3, 22, 15)),
        ("PXL_20210503_193022123.jpg", datetime(2021, 5, 3, 19, 30, 22)),
        ("20190603_221500(1).jpg", datetime(2019, 6, 3, 22, 15)),
        ("2019-06-03 22.15.00.jpg", datetime(2019, 6, 3, 22, 15)),
        ("2019-06-03T22-15-00.jpg", datetime(2019, 6, 3, 22, 15)),
        ("Screenshot 2019-06-03 at 22.15.00.png", datetime(2019, 6, 3, 22, 15)),
    ],
)
def test_a_name_that_tells_the_second(name, moment):
    assert file_dates.taken(name) == (moment, False)


@pytest.mark.parametrize("name", ["IMG-20190603-WA0001.jpg", "2019-06-03.jpg", "2019-06-03 the harbour.jpg", "harbour 2019.06.03.png"])
def test_a_name_that_tells_the_day(name):
    assert file_dates.taken(name) == (datetime(2019, 6, 3, 12), True)


@pytest.mark.parametrize(
    "name",
    ["IMG_1234.jpg", "DSC_20190603.jpg", "20190603.jpg", "20190603221500.jpg", "120190603_221500.jpg",
     "IMG_20191303_221500.jpg", "IMG_20190231_221500.jpg", "2019-02-30.jpg", "IMG_20190603_251500.jpg",
     "2019-06-03 to 2019-06-10.jpg", "20190603_221500 and 20190604_221500.jpg", "invoice-20190603-1234.jpg",
     "1.2019-06-03.jpg", "2019-06-03-1.jpg", "03-06-2019.jpg", "06-03-19.jpg", "", "1200-06-03 10.00.00.jpg"],
)  # fmt: skip
def test_a_name_that_can_be_mistaken_tells_nothing(name):
    assert file_dates.taken(name) is None


@pytest.mark.parametrize("ending", ["jpg", "png", "webp", "tif"])
def test_all_of_it_is_read_from_files_of_each_kind(tmp_path, ending):
    notes = packet(photoshop__DateCreated="2019-06-03T22:15:00+02:00")
    more = {"tiffinfo": {700: notes}} if ending == "tif" else {"xmp": notes}
    if ending == "png":
        from PIL import PngImagePlugin

        more = {"pnginfo": PngImagePlugin.PngInfo()}
        more["pnginfo"].add_itxt("XML:com.adobe.xmp", notes.decode())
    path = tmp_path / f"a.{ending}"
    quarters().save(path, **more)
    facts = read_picture(path)
    assert (facts.taken_local, facts.taken_offset_minutes, facts.dated_by) == (datetime(2019, 6, 3, 22, 15), 120, "notes")


def test_the_name_that_counts_is_the_one_the_file_came_under(tmp_path):
    from keeper.exchange.picture import read_with_thumbnail

    path = tmp_path / ".coming-1"
    path.write_bytes(jpeg_bytes(quarters()))
    facts, _ = read_with_thumbnail(path, 64, called=tmp_path / "IMG_20190603_221500.jpg")
    assert (facts.taken_local, facts.dated_by, facts.day_only) == (datetime(2019, 6, 3, 22, 15), "name", False)
    assert read_picture(save(tmp_path / "2019-06-03.png")).day_only


def test_offsets():
    assert [exif.read_offset(text) for text in ("Z", "+05:45", "-0330", "", "+15:00", "+01:75")] == [0, 345, -210, None, None, None]


def test_notes_that_tell_a_day_alone_and_notes_from_before_nights_begin():
    assert dating.dated({}, packet(photoshop__DateCreated="2019-06-03"), "") == Dated(datetime(2019, 6, 3, 12), None, "notes", True)
    assert dating.dated({}, packet(exif__DateTimeOriginal="1800-01-02T10:00:00"), "").by == "notes"
    assert dating.dated({}, packet(exif__DateTimeOriginal="1800-01-01T10:00:00"), "") == Dated()


@pytest.mark.parametrize("text", ["+01:60", "-00:60", "+14:01"])
def test_an_offset_no_clock_has_is_none(text):
    assert exif.read_offset(text) is None
    assert exif.read_offset("+13:59") == 839


def test_a_longer_number_is_no_date_with_its_hour():
    assert file_dates.taken("20190603_2215001") is None
    assert file_dates.taken("20190603_221500") == (datetime(2019, 6, 3, 22, 15), False)
