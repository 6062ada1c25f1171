"""``python -m keeper`` is the command ``keeper``."""

import sys

from keeper.start import main

sys.exit(main())
