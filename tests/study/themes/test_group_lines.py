"""`group_lines` stands in the room's own door, and opening that door brings in nothing else."""

import subprocess
import sys

from diary_lines import diary

from keeper.study.themes import group_lines
from keeper.study.themes.rebuilding import rebuild


def test_it_groups_from_the_rooms_own_name():
    texts = [line.text for line in diary(10)[0]]
    labels = group_lines(texts, count=6)
    assert len(labels) == len(texts) and set(labels) == set(range(6))


def test_the_room_brings_in_nothing_until_it_is_called():
    program = (
        "import sys; from keeper.study.themes import group_lines;"
        "print(sorted(n for n in sys.modules if n.startswith(('keeper.study.', 'numpy', 'sklearn'))))"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "['keeper.study.themes']"


def test_it_goes_the_programs_own_way():
    """Which lines the program shows together, they are together here too; single themes may be left out there."""
    lines = diary(240)[0]
    labels = dict(zip((line.id for line in lines), group_lines([line.text for line in lines]), strict=True))
    shown = [{labels[line] for line, _ in theme.members} for theme in rebuild(lines).themes]
    assert len(shown) > 3 and all(len(one) == 1 for one in shown)
    assert len(set().union(*shown)) == len(shown)
