"""Opens a keeper, which brings an older one up to date: ``python killed_upgrader.py FOLDER``, to be killed meanwhile."""

import sys
from pathlib import Path

from keeper.store import open_store

open_store(Path(sys.argv[1])).close()
