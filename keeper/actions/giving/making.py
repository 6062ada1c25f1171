"""An archive made: written beside its place under a passing name, read back, and only then given its own."""

import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from dataclasses import replace as replace_in
from itertools import islice
from pathlib import Path

from keeper import __version__, private
from keeper.actions.giving.copying import Copying
from keeper.actions.giving.limits import Limits
from keeper.actions.giving.notebook import NotebookGiven
from keeper.actions.giving.outcome import Given, not_in_it
from keeper.actions.giving.pictures import PicturesGiven
from keeper.actions.giving.wanted import ToGive, given_parts, held_back
from keeper.actions.giving.writing_out import WritingOut
from keeper.clock import Clock
from keeper.errors import AlreadyKept, BadArchive, CannotWrite, UnknownThing, shown_name
from keeper.exchange.archive import one_file
from keeper.exchange.archive.bag import Bag
from keeper.exchange.archive.checking import differing, listed
from keeper.exchange.out.readme import ReadmeFacts, readme
from keeper.store import Store
from keeper.store.backups.inside import opened
from keeper.store.backups.place import told_of
from keeper.store.file import passing
from keeper.store.file.copies import copied_and_checked_meanwhile, force_folder

DATABASE = "database/keeper.db"
_PASSING = "passing.db"

Progress = Callable[[float, str], None]

_FOLDER_THERE = 0.7
"""How far one file is when all that goes into it is there."""

_COPIED, _PHOTOS, _WRITTEN, _COPIES_THERE = 0.08, 0.3, 0.75, 0.95
"""How far it is when the database, the photos without their positions, the texts and the photos as they are are there."""


def refuse(store: Store, target: Path, wanted: ToGive, replace: bool = False) -> None:
    """Raise AlreadyKept where something lies there, CannotWrite for a place that can hold no archive, UnknownThing for no part."""
    if not given_parts(wanted):
        held = " ".join(one.sentence for one in held_back(wanted))
        raise UnknownThing(f"Nothing is left to give. {held}" if held else "Choose at least one part to give.")
    if wanted.first and wanted.last and wanted.last < wanted.first:
        raise UnknownThing("The last night lies before the first.")
    if target.resolve().is_relative_to(store.folder.resolve()):
        raise CannotWrite("An archive cannot lie in the keeper itself. Choose another folder.")
    if os.path.lexists(target):
        if not replace:
            raise AlreadyKept(f"There is something named {shown_name(target)} in {target.parent} already. It was left as it is.")
        there = one_file.holds_a_bag(target) if target.is_file() else (target / "bagit.txt").is_file()
        if target.is_symlink() or not there or target.is_file() != one_file.is_one_file(target):
            raise AlreadyKept(f"{shown_name(target)} in {target.parent} is not an archive, so it was left as it is.")


def give(
    store: Store, target: Path, wanted: ToGive, clock: Clock, progress: Progress = lambda *_: None,
    stopped: Callable[[], bool] = lambda: False, replace: bool = False,
) -> Given:  # fmt: skip
    """Write what is wanted of a keeper to a folder that is not there yet, or to one file (.zip); with ``replace`` in place of an archive.

    All of it is of one moment, however long it takes. Raises as ``refuse``
    does, CannotWrite when the disk is full or closed, NotAKeeper when the
    keeper is damaged, Stopped; then nothing is left of it.
    """
    refuse(store, target, wanted, replace)
    with _told(target):
        private.make_folder(target.parent)
        # What was broken off before holds the person's words too, where nobody sees it.
        passing.sweep_elsewhere(store.folder, target.parent)
        coming = target.parent / passing.name_elsewhere(store.folder, target.name)
        coming.mkdir(mode=private.FOLDER)
        packed = coming.with_name(f"{coming.name}{one_file.ENDING}")
        try:
            if one_file.is_one_file(target):
                giving = _Giving(store, coming, wanted, clock, lambda share, words: progress(_FOLDER_THERE * share, words), stopped)
                given = giving.in_one_file(giving.all_of_it(target), packed, lambda share, words: progress(_FOLDER_THERE + (1 - _FOLDER_THERE) * share, words))
                _settle(packed, target, replace)
            else:
                given = _Giving(store, coming, wanted, clock, progress, stopped).all_of_it(target)
                _settle(coming, target, replace)
        finally:
            # Of what went well nothing lies there any more, but for what was packed.
            _away(coming)
            _away(packed)
    return given


@dataclass
class _Giving:
    store: Store
    coming: Path
    wanted: ToGive
    clock: Clock
    progress: Progress
    stopped: Callable[[], bool]

    def __post_init__(self) -> None:
        self.bag = Bag(self.coming)
        self.parts = given_parts(self.wanted)

    def all_of_it(self, target: Path) -> Given:
        """Write and read back all of it."""
        self.progress(0, "The database")
        file = self.bag.path(DATABASE) if "database" in self.parts else self.coming / _PASSING
        with copied_and_checked_meanwhile(self.store.connection, file, self.stopped), opened(file) as copy:
            limits = Limits(copy, self.wanted)
            pictures = PicturesGiven(limits, self.store.folder, self.bag)
            notebook = NotebookGiven(limits, self.store.folder, self.bag)
            if "photos" in self.parts:
                pictures.bring(self._from_to(_COPIED, _PHOTOS), self.stopped)
                notebook.bring(self.stopped)
            with Copying(self.store, pictures.to_copy, self.stopped).under_way() as photos:
                out = WritingOut(self.store, file, limits, self.bag, pictures, notebook, self._from_to(_PHOTOS, _WRITTEN), self.stopped)
                if "database" in self.parts:
                    self.bag.kept(DATABASE)
                out.write(self.parts, lambda: photos.help(self._from_to(_WRITTEN, _COPIES_THERE)))
                self._read_back(pictures, out, photos)
        if "database" not in self.parts:
            file.unlink()
        return self._closed(target, pictures, notebook, out)

    def in_one_file(self, given: Given, packed: Path, progress: Progress) -> Given:
        """The same in one file, which is read back."""
        name = given.path.stem
        one_file.pack(self.coming, packed, name, progress, self.stopped)
        if next(one_file.differing(packed, name, self.bag.payload | self.bag.tags, self.stopped), None):
            raise CannotWrite("The file could not be read again as it was written. Is the disk sound? Nothing was given.")
        return replace_in(given, bytes=packed.stat().st_size)

    def _from_to(self, first: float, last: float) -> Progress:
        return lambda share, words: self.progress(first + share * (last - first), words)

    def _read_back(self, pictures: PicturesGiven, out: WritingOut, photos: Copying) -> None:
        copies = {self._name(one.target) for one in pictures.to_copy}
        bad = [self._name(one) for one in photos.bad(self._from_to(_WRITTEN, _COPIES_THERE))]
        while bad or (bad := list(islice(self._differing(copies), 1))):
            for name in bad:
                if not pictures.let_go_of(name):
                    raise CannotWrite(f"{shown_name(name)} could not be read again as it was written. Is the disk sound? Nothing was given.")
            # They tell of photos that are not in it.
            out.write_again_without_photos_that_lack(self.parts)
            bad = []

    def _differing(self, but_for: set[str]) -> Iterator[str]:
        rest = {name: its for name, its in self.bag.payload.items() if name not in but_for}
        return differing(self.coming, rest, progress=self._from_to(_COPIES_THERE, 1), stopped=self.stopped)

    def _name(self, file: Path) -> str:
        return file.relative_to(self.coming).as_posix()

    def _closed(self, target: Path, pictures: PicturesGiven, notebook: NotebookGiven, out: WritingOut) -> Given:
        held = held_back(self.wanted)
        size = sum(os.stat(self.coming / name).st_size for name in self.bag.payload)
        given = Given(target, len(self.bag.payload), size, out.nights, out.lines, len(pictures.given), len(pictures.lacking),
                      held, pictures.redrawn, len(notebook.given), len(notebook.lacking), self.parts)  # fmt: skip
        today = self.clock.now().date()
        told = ReadmeFacts(self.parts, today, __version__, out.nights, out.lines, len(pictures.given), out.first, out.last, tuple(not_in_it(given, self.wanted)))
        self.bag.tag("README.md", readme(told))
        self.bag.close([
            ("Source-Organization", "Keeper of Days"), ("External-Identifier", out.keeper_id), ("Bagging-Date", today.isoformat()),
            ("Bag-Software-Agent", f"Keeper of Days {__version__}"), ("Bag-Size", f"{size} bytes"),
            ("External-Description", "A diary kept night by night: see README.md"),
        ])  # fmt: skip
        listing = listed(self.coming)
        if dict(listing.hashes) != self.bag.payload or next(differing(self.coming, self.bag.tags), None):
            raise CannotWrite("The list of files could not be read again as it was written. Is the disk sound? Nothing was given.")
        return given


def _away(there: Path) -> None:
    if there.is_dir() and not there.is_symlink():
        shutil.rmtree(there, ignore_errors=True)
    else:
        with suppress(OSError):
            there.unlink(missing_ok=True)


def _settle(coming: Path, target: Path, replace: bool) -> None:
    # All at once: each by itself takes as long as all of them.
    if hasattr(os, "sync"):
        os.sync()
    aside = target.with_name(f".{target.name[:80]}.going-{os.urandom(6).hex()}")
    if replace and target.exists():
        target.rename(aside)
    elif os.path.lexists(target):
        raise AlreadyKept(f"Something named {shown_name(target)} came into {target.parent} meanwhile. It was left as it is.")
    try:
        coming.rename(target)
    except BaseException:
        with suppress(OSError):
            aside.rename(target)
        raise
    force_folder(target.parent)
    _away(aside)


@contextmanager
def _told(target: Path) -> Iterator[None]:
    with told_of(target.parent, "was not written", "The archive"):
        try:
            yield
        except BadArchive as error:
            raise CannotWrite(f"The archive in {target.parent} was not written: what was written cannot be read again.") from error
