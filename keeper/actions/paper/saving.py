"""What was made put into a file that the person named."""

import os
from contextlib import suppress
from pathlib import Path

from keeper import private
from keeper.errors import CannotWrite


def put_into(target: Path, content: bytes, name: str) -> None:
    """Put what is called ``name`` into a file. Raises CannotWrite; then a file that was there is still what it was."""
    unfinished = target.with_name(f".{target.name}.{os.getpid()}.part")
    try:
        with open(unfinished, "wb", opener=private.opener) as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        unfinished.replace(target)
    except OSError as error:
        with suppress(OSError):
            unfinished.unlink(missing_ok=True)
        reason = (error.strerror or str(error)).lower()
        raise CannotWrite(f"{name} cannot be put into {target}: {reason}.") from error
