"""Where the files that travel with the program lie."""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent
_INSTALLED = _PACKAGE / "_shipped"


def _root() -> Path:
    # An installed copy carries the folders inside the package; a checkout has
    # them beside it.
    return _INSTALLED if _INSTALLED.is_dir() else _PACKAGE.parent


def resource(relative: str) -> Path:
    """The path of a file or folder below ``resources/``."""
    return _root() / "resources" / relative


def demo_keeper() -> Path:
    """The folder of the demo keeper that is copied before it is shown."""
    return _root() / "demo_db" / "keeper"
