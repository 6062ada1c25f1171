"""Archives: their lists, their rows, their files and the names of those, each changed so that it lies; all sums right, or not."""

import hashlib
import json
import os
import random
import shutil
import unicodedata
import zipfile
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from kept_things import fill
from whole_keeper import content

from keeper.actions.giving.making import give
from keeper.actions.giving.taking import look, take
from keeper.actions.giving.wanted import ToGive
from keeper.actions.history import undoing
from keeper.actions.opening import open_or_begin
from keeper.clock import StoppedClock
from keeper.errors import BadArchive
from meaning_ill import must_be_a_sentence

CLOCK = StoppedClock(datetime(2026, 11, 14, 22, 30, tzinfo=ZoneInfo("Europe/Riga")), "Europe/Riga")
_JSON = "data/json/keeper.json"
_PATHS = ("../x", "data/../../x", "/etc/passwd", "data//x", "data/./x", "~/x", "C:/x", "data\\..\\x", "x", "data/", "data/\0", "data/" + "n" * 3000, "data/" + "d/" * 900 + "x",
          "data/e\u0301.txt", "data/\u00e9.txt", "data/\u202egpj.txt", "data/\U0001f33b.txt", "data/%0A", "data/%00", "data/%2e%2e/x", "data/\u2025/x", "data/CON", "data/a:b", " ", "data/ ")  # fmt: skip
_VALUES = (None, "", 0, -1, 1 << 62, -(1 << 63), 1e308, 1.5, True, "../../x", "x" * 3000, "a\0b", "\ud800", "\u202ex", "[]", "{}", "[[1]]", "2026-02-30", "2026-11-14",
           "0001-01-01", "9999-12-31", "2026-11-14T20:00:00Z", "9" * 30, "'); DROP TABLE line; --", {"base64": "AAAA"}, {"base64": "?"}, {"base64": 5}, [], {}, "null", "<b>x</b>")  # fmt: skip
_TEXTS = (b"\0", b"\n", b"\xff", b'"', b"[" * 3000, b"{", b"]", b"}", b",", b"1e999", b"NaN", b"9" * 400, b"\\u0000", b"\\ud800", b"\xef\xbb\xbf", b'"tables": {', b'"version": 9', b"  ")


def archive(folder: Path) -> Path:
    """A small archive, as one gives it."""
    with open_or_begin(folder / "given") as store:
        fill(store, CLOCK, folder)
        give(store, folder / "archive", ToGive(), CLOCK)
    return folder / "archive"


_MOST = 50_000_000

_of_this_process: list[tuple[int, Path]] = []


def case(number: int, folder: Path) -> Path:
    """An archive that means ill."""
    if not _of_this_process:
        import atexit
        import tempfile

        room = Path(tempfile.mkdtemp(prefix="archive-"))
        atexit.register(shutil.rmtree, room, ignore_errors=True)
        _of_this_process.append(archive(room))
    chance, bag = random.Random(number), folder / "archive"
    shutil.copytree(_of_this_process[0], bag)
    for _ in range(chance.randint(1, 2)):
        # What was made of it first may be no document, no list and no text any more for what is made of it next.
        with suppress(OSError, ValueError, TypeError, AttributeError, LookupError, RecursionError):
            chance.choice((_rows, _rows, _rows, _rows, _rows, _text, _listed, _listed, _files, _files, _told, _photos))(bag, chance)
        if any(one.is_symlink() for one in bag.rglob("*")):
            # Nothing more is made of it: it would be written where the link leads.
            break
    return bag if chance.randrange(5) else _in_one_file(bag, chance)


def _in_one_file(bag: Path, chance: random.Random) -> Path:
    """The same as one file, whole or itself cut and turned."""
    file = bag.with_suffix(".zip")
    files = [one for one in sorted(bag.rglob("*")) if one.is_file() and not one.is_symlink() and one.stat().st_size < 10_000_000]
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as made:
        for one in files:
            made.writestr(f"archive/{one.relative_to(bag).as_posix()}", one.read_bytes())
        if not chance.randrange(4):
            made.writestr(chance.choice(("../x", "/tmp/x", "archive/../../x", "other/x", "x", "archive/\u202ex", "archive/data")), b"x")
    shutil.rmtree(bag)
    data = bytearray(file.read_bytes())
    for _ in range(chance.choice((0, 0, 1, 3))):
        # Near the end lies its list of files.
        at = chance.randint(max(0, len(data) - chance.choice((30, 3000, len(data)))), len(data) - 1)
        data[at : at + chance.choice((0, 1, 1, 20))] = chance.choice((b"\0", b"\xff", b"PK\x05\x06", chance.randbytes(4)))
    file.write_bytes(data)
    return file


def _bytes(file: Path) -> bytes:
    """What is in a file; a pipe would be waited for without end, and a device, or a hole of some gigabytes, be read without end."""
    if not file.is_file() or file.stat().st_size > _MOST:
        raise FileNotFoundError(file)
    return file.read_bytes()


def _put(file: Path, data: bytes | str) -> None:
    """Put a file there, never through a link that leads out of the archive, nor into a pipe."""
    file.unlink(missing_ok=True)
    file.write_bytes(data.encode("utf-8", "surrogatepass") if isinstance(data, str) else data)


def _rows(bag: Path, chance: random.Random) -> None:
    """Rows of the document with values that lie, and the sums made right."""
    try:
        document = json.loads(_bytes(bag / _JSON))
    except ValueError:
        return
    its = [table for table in document["tables"].values() if table]
    for _ in range(chance.randint(1, 6)):
        rows = chance.choice(its)
        row = chance.choice(rows)
        what, name = chance.randrange(8), chance.choice(sorted(row)) if row else "id"
        if what < 4:
            row[name] = chance.choice(_VALUES)
        elif what == 4:
            row.pop(name, None)
        elif what == 5:
            rows.append({**row, name: chance.choice(_VALUES)})
        elif what == 6:
            # Something that is elsewhere in the document.
            row[name] = chance.choice(list(chance.choice(chance.choice(its)).values()) or [None])
        else:
            rows.remove(row) if len(rows) > 1 else rows.append(chance.choice(([], 5, None, {"x": {}}, "row")))
        if not all(isinstance(one, dict) for one in rows):
            break
    if not chance.randrange(12):
        document[chance.choice(("format", "version", "schema", "whole", "tables", "more"))] = chance.choice(_VALUES)
    _put(bag / _JSON, json.dumps(document))
    _made_right(bag)


def _text(bag: Path, chance: random.Random) -> None:
    """The document's text cut and turned."""
    data = bytearray(_bytes(bag / _JSON))
    for _ in range(chance.randint(1, 4)):
        at = chance.randint(0, len(data))
        data[at : at + chance.choice((0, 0, 1, 500))] = chance.choice(_TEXTS)
    _put(bag / _JSON, data[: chance.choice((len(data), len(data), chance.randint(0, len(data))))])
    _made_right(bag)


def _listed(bag: Path, chance: random.Random) -> None:
    """A list of files that lies."""
    manifest = bag / chance.choice(("manifest-sha256.txt", "manifest-sha256.txt", "tagmanifest-sha256.txt"))
    rows = _bytes(manifest).decode().splitlines()
    at, what = chance.randrange(len(rows)), chance.randrange(7)
    digest, _, path = rows[at].partition("  ")
    if what == 0:
        rows.append(f"{'0' * 64}  {chance.choice(_PATHS)}")
    elif what == 1:
        rows[at] = f"{digest}  {chance.choice(_PATHS)}"
    elif what == 2:
        rows[at] = f"{digest[: chance.choice((0, 32, 63))]}{chance.choice(('', 'g', ' '))}  {path}"
    elif what == 3:
        del rows[at]
    elif what == 4:
        rows.append(rows[at])
    elif what == 5:
        rows[at] = f"{chance.choice(digest) * 64}  {path}"
    else:
        rows[at] = "".join(chance.sample(rows[at], len(rows[at])))
    data = "\n".join(rows).encode("utf-8", "surrogatepass")
    if not chance.randrange(6):
        data = data[: chance.randint(0, len(data))] + chance.choice(_TEXTS)
    _put(manifest, data)
    if chance.randrange(2):
        _made_right(bag, payload=False)


def _files(bag: Path, chance: random.Random) -> None:
    """Files that are gone, too many, links, pipes, or called something odd."""
    its = sorted(one for one in bag.rglob("*") if one.is_file() and not one.is_symlink())
    file, what = chance.choice(its), chance.randrange(9)
    if what == 0:
        file.unlink()
    elif what == 1:
        file.unlink()
        file.symlink_to(chance.choice((bag.parent.parent / "beside" / "secret", "../../beside/secret", "/dev/zero", ".", str(file))))
    elif what == 2 and hasattr(os, "mkfifo"):
        file.unlink()
        os.mkfifo(file)
    elif what == 3:
        (bag / "data" / chance.choice(("\u202egpj.x", "e\u0301", "\u00e9", "a\nb", "a\rb", "%0A", "\U0001f33b", "CON", " ", "a" * 200, "a\x1b[2J"))).write_bytes(b"x")
        _made_right(bag)
    elif what == 4:
        os.truncate(file, chance.choice((0, file.stat().st_size // 2, 1 << 33)))
    elif what == 5:
        folder = chance.choice([one for one in bag.rglob("*") if one.is_dir()])
        shutil.rmtree(folder)
        folder.symlink_to(chance.choice((bag.parent.parent / "beside", "..", "../../beside")))
    elif what == 6:
        file.rename(file.with_name(unicodedata.normalize(chance.choice(("NFC", "NFD")), f"{file.stem}\u00e9{file.suffix}")))
    elif what == 7:
        database = next((one for one in its if one.suffix == ".db"), file)
        os.truncate(database, database.stat().st_size // 3)
        _made_right(bag)
    else:
        (bag / "data" / "json" / "deep" / "deeper").mkdir(parents=True)


def _told(bag: Path, chance: random.Random) -> None:
    """What tells of the archive, changed."""
    file = bag / chance.choice(("bagit.txt", "bag-info.txt", "bag-info.txt"))
    data = bytearray(_bytes(file))
    at = chance.randint(0, len(data))
    data[at : at + chance.choice((0, 1, 9))] = chance.choice((*_TEXTS, b"BagIt-Version: 0.97\n", b"Payload-Oxum: 9999999999999999999.1\n", b"Payload-Oxum: x\n", b": \n", b" " * 70_000))
    _put(file, data)
    _made_right(bag, payload=False)


def _photos(bag: Path, chance: random.Random) -> None:
    """A photo that is none, with the sums and the document's own made right."""
    photos = sorted((bag / "data" / "photos").rglob("*.jpg"))
    if not photos:
        return
    photo = chance.choice(photos)
    was = hashlib.sha256(_bytes(photo)).hexdigest()
    _put(photo, chance.choice((b"", b"x", chance.randbytes(500), _bytes(photo)[:200], b"\x89PNG\r\n\x1a\n" + bytes(40))))
    document = _bytes(bag / _JSON).decode("utf-8", "replace")
    _put(bag / _JSON, document.replace(was, hashlib.sha256(_bytes(photo)).hexdigest()))
    _made_right(bag)


def _made_right(bag: Path, payload: bool = True) -> None:
    """The lists and the size, as they ought to be for what is there."""
    if payload:
        files = sorted(one for one in (bag / "data").rglob("*") if one.is_file() and not one.is_symlink())
        if sum(one.stat().st_size for one in files) > _MOST:
            return
        rows = {f"data/{one.relative_to(bag / 'data').as_posix()}": one for one in files}
        spelt = {name.replace("%", "%25").replace("\n", "%0A").replace("\r", "%0D"): one for name, one in rows.items()}
        _put(bag / "manifest-sha256.txt", "".join(f"{hashlib.sha256(one.read_bytes()).hexdigest()}  {name}\n" for name, one in spelt.items()))
        told = _bytes(bag / "bag-info.txt").decode("utf-8", "replace").splitlines()
        told = [row for row in told if not row.startswith("Payload-Oxum")]
        told.append(f"Payload-Oxum: {sum(one.stat().st_size for one in files)}.{len(files)}")
        _put(bag / "bag-info.txt", "\n".join(told) + "\n")
    tags = [bag / name for name in ("bagit.txt", "bag-info.txt", "manifest-sha256.txt") if (bag / name).is_file()]
    _put(bag / "tagmanifest-sha256.txt", "".join(f"{hashlib.sha256(_bytes(one)).hexdigest()}  {one.name}\n" for one in tags))


class Reader:
    """Looks at an archive and takes it in; what came is taken back. What is refused leaves nothing."""

    def __init__(self, room: Path) -> None:
        self._store = open_or_begin(room / "keeper")
        self._before, self._files = content(self._store), self._photos()

    def _photos(self) -> list[str]:
        folder = self._store.folder / "photos"
        return sorted(str(one.relative_to(folder)) for one in folder.rglob("*") if one.is_file())

    def read(self, bag: Path) -> bool:
        """Whether it was taken in."""
        try:
            look(self._store, bag)
            taken = take(self._store, bag, CLOCK)
        except BadArchive as told:
            must_be_a_sentence(told)
            assert content(self._store) == self._before and self._photos() == self._files
            return False
        assert self._store.rows("PRAGMA foreign_key_check") == []
        taken.sentence.encode()
        if taken.act is not None:
            undoing.turn(self._store, taken.act)
        assert content(self._store) == self._before
        # What was undone can be done again, and needs its photos.
        self._files = self._photos()
        return True
