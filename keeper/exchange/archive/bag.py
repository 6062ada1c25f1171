"""A bag being written (RFC 8493): its files, and in the end the manifests that tell of them."""

import hashlib
import os
import shutil
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

from keeper import private
from keeper.exchange.archive.names import PAYLOAD, spelt

_BUFFER = 1 << 18
_CHUNK = 1 << 20

DECLARATION = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"
ALGORITHM = "sha256"


class Written:
    """A file of text under way; what was written so far is known by its hash."""

    def __init__(self, out: BinaryIO) -> None:
        self._out, self._hash = out, hashlib.new(ALGORITHM)
        self._waiting: list[str] = []
        self._many = 0

    def write(self, text: str) -> None:
        """Take this much. Raises OSError."""
        self._waiting.append(text)
        self._many += len(text)
        if self._many >= _BUFFER:
            self.flush()

    def flush(self) -> None:
        """Hand over what waits. Raises OSError."""
        data = "".join(self._waiting).encode("utf-8", "replace")
        self._waiting, self._many = [], 0
        self._hash.update(data)
        self._out.write(data)

    @property
    def sha256(self) -> str:
        """The SHA-256 of all that was handed over."""
        return self._hash.hexdigest()


class Bag:
    """A bag in a folder that is there and empty; ``payload`` and ``tags`` are the SHA-256 of its files by their paths.

    Its files are the owner's alone. All of it raises OSError.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.payload: dict[str, str] = {}
        self.tags: dict[str, str] = {}

    @contextmanager
    def text(self, path: str) -> Iterator[Written]:
        """A text file below the payload, in UTF-8, with the ends of rows as they are written."""
        name = f"{PAYLOAD}/{path}"
        with open(self._made(name), "xb", opener=private.opener) as out:
            written = Written(out)
            yield written
            written.flush()
        self.payload[name] = written.sha256

    def awaited(self, path: str, sha256: str) -> Path:
        """Where others are to put a file whose SHA-256 is known; ``archive.checking`` finds out whether it is."""
        name = f"{PAYLOAD}/{path}"
        self.payload[name] = sha256
        return self._made(name)

    def file(self, source: Path, path: str, sha256: str) -> None:
        """A copy of such a file."""
        target = self.awaited(path, sha256)
        private.make_file(target)
        # By the system itself, where it can.
        shutil.copyfile(source, target)

    def bytes(self, data: bytes, path: str) -> str:
        """A file of these bytes; its SHA-256."""
        name = f"{PAYLOAD}/{path}"
        with open(self._made(name), "xb", opener=private.opener) as out:
            out.write(data)
        self.payload[name] = hashlib.new(ALGORITHM, data).hexdigest()
        return self.payload[name]

    def kept(self, path: str) -> None:
        """A file that was put there by others."""
        name = f"{PAYLOAD}/{path}"
        with (self.folder / name).open("rb") as source:
            self.payload[name] = hashlib.file_digest(source, ALGORITHM).hexdigest()

    def known(self, path: str, sha256: str) -> None:
        """The same of one whose SHA-256 they told."""
        self.payload[f"{PAYLOAD}/{path}"] = sha256

    def path(self, path: str) -> Path:
        """Where a file below the payload is to be put; its folders are made."""
        return self._made(f"{PAYLOAD}/{path}")

    def let_go(self, name: str) -> None:
        """Take a file of the payload away again."""
        (self.folder / name).unlink(missing_ok=True)
        self.payload.pop(name, None)

    def tag(self, name: str, text: str) -> None:
        """A file beside the payload that tells of the bag."""
        data = text.encode("utf-8", "replace")
        with open(self.folder / name, "xb", opener=private.opener) as out:
            out.write(data)
        self.tags[name] = hashlib.new(ALGORITHM, data).hexdigest()

    def close(self, info: Iterable[tuple[str, str]]) -> None:
        """Write what tells of all of it: ``info`` is what bag-info.txt says besides its size."""
        private.make_folder(self.folder / PAYLOAD)
        told = "".join(f"{name}: {' '.join(value.split())}\n" for name, value in [*info, ("Payload-Oxum", self._oxum())])
        self.tag("bagit.txt", DECLARATION)
        self.tag("bag-info.txt", told)
        self.tag(f"manifest-{ALGORITHM}.txt", _manifest(self.payload))
        self.tag(f"tagmanifest-{ALGORITHM}.txt", _manifest(self.tags))

    def _oxum(self) -> str:
        size = sum(os.stat(self.folder / name).st_size for name in self.payload)
        return f"{size}.{len(self.payload)}"

    def _made(self, name: str) -> Path:
        target = self.folder / name
        private.make_folder(target.parent)
        return target


def _manifest(hashes: dict[str, str]) -> str:
    return "".join(f"{hashes[name]}  {spelt(name)}\n" for name in sorted(hashes))
