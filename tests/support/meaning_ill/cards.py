"""Cards and calendars of people: rows that are none, folded without end, names of any letters, days that there are not."""

import random
from datetime import date
from pathlib import Path

from whole_keeper import content

from keeper.actions.history import undoing
from keeper.actions.one_person import cards
from keeper.actions.one_person.cards_looked import look
from keeper.actions.opening import open_or_begin
from keeper.errors import UnreadableFile
from meaning_ill import must_be_a_sentence

TONIGHT = date(2026, 11, 14)
SEEDS = (
    b"BEGIN:VCARD\r\nVERSION:4.0\r\nFN:Henning Raun\r\nN:Raun;Henning;;;\r\nNICKNAME:Enne,Raun\r\nBDAY:19600229\r\nANNIVERSARY:--0603\r\nNOTE:Lent me the\r\n"
    b"  fork\\, twice\r\nitem1.X-DAY-TO-REMEMBER;X-CALLED=First concert:20010412\r\nEND:VCARD\r\n",
    b"BEGIN:VCARD\nVERSION:3.0\nFN:K\xc3\xa4the\nBDAY;X-ANY-OMIT-YEAR=1604:1604-05-09\nPHOTO;ENCODING=b:" + b"QUJD" * 400 + b"\nEND:VCARD\n",
    b"BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nDTSTART;VALUE=DATE:20200603\r\nRRULE:FREQ=YEARLY\r\nSUMMARY:Henning's birthday\r\nEND:VEVENT\r\nBEGIN:VEVENT\r\n"
    b"DTSTART:20260603T120000Z\r\nSUMMARY:Geburtstag von K\xc3\xa4the (1961)\r\nCATEGORIES:Birthday\r\nX-YEAR:known\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n",
    "BEGIN:VCARD\nVERSION:4.0\nFN:\u05e0\u05d5\u05e2\u05d4\nBDAY:1971-02-28\nEND:VCARD\n".encode("utf-16"),
    "BEGIN:VCARD\nVERSION:2.1\nFN:K\u00e4the\nBDAY:unknown\nEND:VCARD\n".encode("cp1252"),
)
_PIECES = (b"\0", b"\r", b"\n", b"\n ", b"\n " * 400, b":", b";", b",", b"\\", b"\\n", b'"', b"=" * 60, b"BEGIN:VCARD\n", b"END:VCARD\n", b"BEGIN:VEVENT\n" * 50,
           b"FN:\n", b"FN:;;;\n", b"BDAY:00000000\n", b"BDAY:20260230\n", b"BDAY:--0229\n", b"BDAY:99991231\n", b"BDAY;VALUE=text:in spring\n", b"NICKNAME:" + b"a," * 900 + b"\n",
           b"NOTE:" + b"x" * 9000 + b"\n", b"\xe2\x80\xae", b"\xed\xa0\x80", b"\xff\xfe", b"\xef\xbb\xbf", b"<b>x</b>", b"=1+1", b"FN:" + b"\xcc\x81" * 300 + b"\n",
           b"RRULE:FREQ=SECONDLY\n", b"SUMMARY:" + b"birthday " * 400 + b"\n", b"SUMMARY:" + b" ,(" * 3000 + b"birthday\n", b"DTSTART:\n", b"1" * 500)  # fmt: skip


def case(number: int, folder: Path) -> Path:
    """A file of cards that is none, or nearly."""
    chance = random.Random(number)
    file = folder / f"people{chance.choice(('.vcf', '.ics', '.vcard', '.ical'))}"
    file.write_bytes(chance.randbytes(chance.randint(0, 400)) if not chance.randrange(15) else _mangled(chance.choice(SEEDS), chance))
    return file


def _mangled(seed: bytes, chance: random.Random) -> bytes:
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
            data[at:at] = bytes(data[at : at + 30]) * chance.randint(1, 30)
        else:
            data[at:at] = chance.choice(SEEDS)[: chance.randint(1, 300)]
    return bytes(data)


class Reader:
    """Looks at a file, keeps all that it would bring, and takes that back."""

    def __init__(self, room: Path) -> None:
        self._store = open_or_begin(room / "keeper")
        self._before = content(self._store)

    def read(self, file: Path) -> bool:
        """Whether it was read."""
        try:
            looked = look(self._store, file, TONIGHT)
        except UnreadableFile as told:
            must_be_a_sentence(told)
            return False
        for trouble in looked.troubles:
            assert trouble.endswith(".") and "\n" not in trouble, trouble
            trouble.encode()
        if cards.keep(self._store, looked, everybody=True):
            undoing.undo(self._store)
        assert content(self._store) == self._before
        return True
