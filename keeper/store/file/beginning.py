"""Beginning a keeper: a whole file, or none; and never in the place of another."""

import os
from datetime import UTC, datetime
from pathlib import Path

from keeper import private
from keeper.errors import CannotWrite, NotAKeeper
from keeper.store.file.folder import BACKUPS, FILE, PHOTOS, no_folder
from keeper.store.file.opening import Store, connected, is_keeper, open_store, upgrade
from keeper.store.file.sentences import reason, told
from keeper.store.ids import new_id
from keeper.store.moments import utc_text


def create_store(folder: Path) -> Store:
    """Begin a new keeper in a folder, which may not yet exist.

    Raises CannotWrite when the folder cannot be made, NotAKeeper when a
    keeper is there already.
    """
    if is_keeper(folder):
        raise NotAKeeper(f"There is a keeper in {folder} already.")
    with told(folder):
        if what := no_folder(folder):
            raise CannotWrite(f"A keeper cannot be made in {folder}: {what}.")
    try:
        for part in (folder, folder / PHOTOS, folder / BACKUPS):
            private.make_folder(part)
    except OSError as error:
        raise CannotWrite(f"A keeper cannot be made in {folder}: {reason(error)}.") from error
    return _begun(folder, folder / FILE)


def _begun(folder: Path, file: Path) -> Store:
    from keeper.store.file.passing import end_mark, mark

    # The new file gets its name only when it is whole, so a keeper half made
    # by a power cut is never taken for one.
    with told(folder):
        unfinished = folder / f"{FILE}.{mark(folder)}.new"
        try:
            private.make_file(unfinished)
            with Store(folder, connected(unfinished)) as store:
                _fill(store)
            _give_name(unfinished, file)
        finally:
            for rest in folder.glob(f"{unfinished.name}*"):
                rest.unlink(missing_ok=True)
            end_mark(folder)
    return open_store(folder)


def _give_name(unfinished: Path, file: Path) -> None:
    """Let a whole file be the keeper's, unless another program has begun one meanwhile: that one stays."""
    try:
        # Not a renaming, which would take the place of what is there.
        os.link(unfinished, file)
    except FileExistsError:
        return
    except OSError:
        # Some disks (FAT) have no links. An empty file holds the name until the whole one is in its place.
        try:
            os.close(os.open(file, os.O_CREAT | os.O_EXCL | os.O_WRONLY, private.FILE))
        except FileExistsError:
            return
        unfinished.replace(file)


def _fill(store: Store) -> None:
    upgrade(store)
    with store.writing() as connection:
        about = {"id": new_id(), "begun_at": utc_text(datetime.now(UTC))}
        connection.executemany("INSERT INTO about (name, value) VALUES (?, ?)", about.items())
    store.connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
