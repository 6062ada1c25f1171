"""What can go wrong, told as finished sentences for the person."""

import os
import unicodedata


class KeeperError(Exception):
    """Anything the person has to be told; ``str(error)`` is the sentence."""


class NotAKeeper(KeeperError):
    """The folder or file is something else, or is damaged."""


class NewerKeeper(KeeperError):
    """The keeper was written by a newer version of the program."""


class CannotWrite(KeeperError):
    """The disk is full or read-only, or another program holds the keeper."""


class HeldElsewhere(CannotWrite):
    """Another program is at the same work just now."""


class UnreadableText(KeeperError):
    """The text cannot be kept as it is: too long, or not text."""


class UnreadableReading(KeeperError):
    """What was typed is no reading of its tracker's form."""


class UnreadableDate(KeeperError):
    """The typed date is no day of the calendar."""


class BadArchive(KeeperError):
    """The folder is no archive that can be taken in, or is not as it was written."""


class AlreadyKept(KeeperError):
    """The night has such a line already, and nobody said what becomes of it."""


class UnknownThing(KeeperError):
    """What was asked for is not in the keeper."""


class CannotTry(KeeperError):
    """What is to be tried cannot be, or not so."""


class TooManyKinds(KeeperError):
    """A night would ask for more kinds of line than it has room for."""


class CannotTurn(KeeperError):
    """What was done cannot be taken back, or not be done again: something done since leans on it."""


class BadSetting(KeeperError):
    """A setting has a value it cannot have."""


class MissingLibrary(KeeperError):
    """A library of the operating system is not installed."""


class Stopped(KeeperError):
    """The person asked for the work to be broken off."""

    def __init__(self, told: str = "Stopped.") -> None:
        super().__init__(told)


class UnreadablePhoto(KeeperError):
    """The file is no picture that can be read: broken, cut short, too large, or something else."""


class UnreadableFile(KeeperError):
    """A file of others is nothing that can be read in: broken, locked, far too large, or something else."""


class CutOffPhoto(UnreadablePhoto):
    """The end of a picture is missing; what there is of it can be taken all the same."""


class DamagedPhoto(KeeperError):
    """A photo of the keeper is gone from the disk, or is no longer what it was."""


def shown_name(path: str | os.PathLike) -> str:
    """A file's name as a sentence may hold it: quoted, and nothing in it that plays tricks.

    Bytes that are no text, control codes and marks that turn the direction of
    writing become U+FFFD; more than 80 characters are cut.
    """
    name = os.path.basename(os.fspath(path).rstrip("/\\")) or os.fspath(path)
    plain = name.encode("utf-8", "surrogateescape").decode("utf-8", "replace")
    safe = "".join("\ufffd" if unicodedata.category(letter) in ("Cc", "Cf", "Zl", "Zp") else letter for letter in plain)
    return f"\u201c{safe if len(safe) <= 80 else safe[:79] + chr(0x2026)}\u201d"
