"""Whether a bag is whole (RFC 8493, section 3): every file that is listed is there and as listed, and no other is.

Bags come from anywhere. Nothing that they name is opened outside of them, no
link is followed, and nothing is unpacked.
"""

import hashlib
import os
import re
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from keeper.errors import BadArchive, Stopped
from keeper.exchange.archive import names
from keeper.exchange.archive.names import PAYLOAD

ALGORITHMS = ("sha512", "sha256", "sha1", "md5")
"""Those of which a manifest is read, the strongest first."""

_MOST_TOLD = 64 << 20
"""Bytes of a manifest; a million files are listed in less."""

_ROW = re.compile(r"([0-9A-Fa-f]{32,128})[ \t]+\*?(\S.*)")
_VERSION = re.compile(r"\s*BagIt-Version:\s*(\d+)\.(\d+)\s*Tag-File-Character-Encoding:\s*UTF-8\s*", re.IGNORECASE)
_AT_A_TIME = 1 << 17
"""Bytes; memory for more is asked of the system anew each time, which costs as much as the hash."""

Progress = Callable[[float, str], None]


@dataclass(frozen=True, slots=True)
class BagListed:
    """What a bag says of itself: the hashes of its files by their paths, how they were made, and its information."""

    folder: Path
    algorithm: str
    hashes: Mapping[str, str]
    info: Mapping[str, str]


def listed(folder: Path) -> BagListed:
    """What a bag lists. No file of its payload is opened yet. Raises BadArchive."""
    if not folder.is_dir():
        raise BadArchive(f"There is no folder {names.shown(str(folder))}.")
    if not _VERSION.fullmatch(_told(folder, "bagit.txt", 1 << 12)):
        raise BadArchive("This folder is not an archive: its bagit.txt is not as the BagIt standard has it.")
    for algorithm in ALGORITHMS:
        manifest = f"manifest-{algorithm}.txt"
        if os.path.lexists(folder / manifest):
            hashes = dict(_rows(_told(folder, manifest, _MOST_TOLD), manifest, algorithm))
            return BagListed(folder, algorithm, hashes, _info(folder))
    raise BadArchive("The archive has no list of its files: manifest-sha256.txt is missing.")


def _told(folder: Path, name: str, most: int) -> str:
    try:
        size = names.found(folder, name).st_size
    except BadArchive:
        raise BadArchive(f"This folder is not a whole archive: {name} is missing from it, or is a link.") from None
    if size > most:
        raise BadArchive(f"{name} in the archive is larger than any archive needs. It was not read.")
    try:
        return (folder / name).read_text("utf-8-sig")
    except (OSError, UnicodeDecodeError):
        raise BadArchive(f"{name} in the archive cannot be read as text in UTF-8.") from None


def _rows(text: str, manifest: str, algorithm: str) -> Iterator[tuple[str, str]]:
    seen = set()
    digits = 2 * hashlib.new(algorithm).digest_size
    # Not splitlines: a name may hold what other systems take for the end of a row.
    for row in re.split(r"\r\n|\n|\r", text):
        if not row.strip():
            continue
        spelt = _ROW.fullmatch(row)
        if not spelt or len(spelt[1]) != digits:
            raise BadArchive(f"A row of {manifest} in the archive cannot be read: {names.shown(row)}.")
        path = names.read(spelt[2].removeprefix("./"))
        if manifest.startswith("manifest") and not path.startswith(f"{PAYLOAD}/"):
            raise BadArchive(f"The archive names a file outside of its contents, {names.shown(path)}. Nothing was read of it.")
        if path in seen:
            raise BadArchive(f"The archive lists {names.shown(path)} twice.")
        seen.add(path)
        yield path, spelt[1].lower()


def _info(folder: Path) -> dict[str, str]:
    if not os.path.lexists(folder / "bag-info.txt"):
        return {}
    found: dict[str, str] = {}
    last = ""
    for row in _told(folder, "bag-info.txt", 1 << 20).splitlines():
        name, colon, value = row.partition(":")
        if row[:1] in (" ", "\t") and last:
            found[last] += f" {row.strip()}"
        elif colon:
            last = name.strip()
            found[last] = value.strip()
    return found


def check(bag: BagListed, progress: Progress = lambda *_: None, stopped: Callable[[], bool] = lambda: False) -> None:
    """Read every file back. Raises BadArchive, naming the first that is not as listed; Stopped."""
    _check_size(bag)
    _check_that_nothing_else_is_there(bag)
    bad = next(differing(bag.folder, bag.hashes, bag.algorithm, progress, stopped), None)
    if bad is not None:
        raise BadArchive(f"{names.shown(bad)} in the archive was changed or damaged since it was written.")
    for algorithm in ALGORITHMS:
        manifest = f"tagmanifest-{algorithm}.txt"
        if os.path.lexists(bag.folder / manifest):
            tags = dict(_rows(_told(bag.folder, manifest, _MOST_TOLD), manifest, algorithm))
            for bad in differing(bag.folder, tags, algorithm, stopped=stopped):
                raise BadArchive(f"{names.shown(bad)} in the archive was changed or damaged since it was written.")


def _check_that_nothing_else_is_there(bag: BagListed) -> None:
    for path in _walked(bag.folder / PAYLOAD, PAYLOAD):
        if path not in bag.hashes:
            raise BadArchive(f"The archive holds {names.shown(path)}, which is not in its list of files.")


def _walked(folder: Path, name: str) -> Iterator[str]:
    waiting = [(folder, name)]
    while waiting:
        at, its = waiting.pop()
        try:
            with os.scandir(at) as there:
                entries = list(there)
        except OSError:
            raise BadArchive(f"The folder {names.shown(its)} of the archive cannot be read.") from None
        for entry in entries:
            if entry.is_dir(follow_symlinks=False):
                waiting.append((at / entry.name, f"{its}/{entry.name}"))
            else:
                yield f"{its}/{entry.name}"


def _check_size(bag: BagListed) -> None:
    size = sum(names.found(bag.folder, path).st_size for path in bag.hashes)
    told = bag.info.get("Payload-Oxum", "")
    if told and told != f"{size}.{len(bag.hashes)}":
        raise BadArchive("The archive is not as large as it says: files were added, cut short or lost.")


def differing(
    folder: Path, hashes: Mapping[str, str], algorithm: str = "sha256", progress: Progress = lambda *_: None,
    stopped: Callable[[], bool] = lambda: False,
) -> Iterator[str]:  # fmt: skip
    """The files, in order, whose hash is another. Raises BadArchive for one that is gone or is a link, Stopped."""
    those = sorted(hashes)

    def looked_at(path: str) -> tuple[int, bool]:
        size = names.found(folder, path).st_size
        return size, _hash(folder / path, algorithm, stopped) == hashes[path]

    sizes = sum(names.found(folder, path).st_size for path in those) or 1
    done = 0
    # Hashing lets other threads go on.
    with ThreadPoolExecutor(min(4, os.cpu_count() or 1), "hashes") as pool:
        try:
            for path, (size, same) in zip(those, pool.map(looked_at, those), strict=True):
                done += size
                progress(done / sizes, "Reading back")
                if not same:
                    yield path
        finally:
            pool.shutdown(wait=True, cancel_futures=True)


def _hash(file: Path, algorithm: str, stopped: Callable[[], bool]) -> str:
    digest = hashlib.new(algorithm)
    try:
        with file.open("rb", buffering=0) as source:
            while chunk := source.read(_AT_A_TIME):
                if stopped():
                    raise Stopped
                digest.update(chunk)
    except OSError as error:
        raise BadArchive(f"{names.shown(file.name)} in the archive cannot be read: {(error.strerror or str(error)).lower()}.") from error
    return digest.hexdigest()
