"""Mends a keeper, to be killed on the way: ``python killed_mender.py FOLDER``."""

import sys
from datetime import datetime
from pathlib import Path

from keeper.actions.damage import mending

if __name__ == "__main__":
    folder = Path(sys.argv[1])
    print(".", end="", flush=True)
    survey = mending.look(folder)
    mending.mend(survey, survey.choice.doubtful, datetime(2026, 11, 15, 9))
    mending.put_into_place(folder)
    print("done", end="", flush=True)
