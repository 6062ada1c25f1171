"""The newest whole keeper among a keeper's backups, also such as the person put there under any name."""

from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from keeper.store.damage.building import is_whole
from keeper.store.file.folder import BACKUPS, FILE


def newest_whole(folder: Path) -> Path | None:
    """The file of the newest that is a whole keeper, or None; reads whole files until one is."""
    return next((file for file in _newest_first(folder / BACKUPS) if is_whole(file)), None)


def _newest_first(place: Path) -> Iterator[Path]:
    found: list[tuple[float, Path]] = []
    with suppress(OSError):
        for file in (*place.glob("*.db"), *place.glob(f"[!.]*/{FILE}")):
            found.append((file.stat().st_mtime, file))
    yield from (file for _, file in sorted(found, reverse=True))
