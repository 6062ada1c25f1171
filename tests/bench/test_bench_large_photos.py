"""The memory that large photos take when many come at once: no more than two of them would, whatever the cores."""

import subprocess
import sys
from pathlib import Path

import pytest
from PIL import Image

WIDTH, HEIGHT = 9000, 6000
"""54 megapixels: large, in a form that has to be unpacked whole."""

MANY, WORKERS = 6, 6

SCRIPT = """
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from keeper.exchange.picture import read_picture
files = [Path(name) for name in sys.argv[2:]]
read_picture(Path(sys.argv[1]))
def most():
    # What getrusage tells begins with what the parent had.
    return next(int(line.split()[1]) for line in open("/proc/self/status") if line.startswith("VmHWM"))
before = most()
with ThreadPoolExecutor(len(files)) as pool:
    list(pool.map(read_picture, files))
print((most() - before) / 1024)
"""


def grown(small: Path, files: list[Path]) -> float:
    """Megabytes by which a process grows that reads these at once, beyond reading a small one."""
    done = subprocess.run([sys.executable, "-c", SCRIPT, small, *files], capture_output=True, text=True, check=True)
    return float(done.stdout)


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="The system does not tell a process's most memory this way.")
def test_many_large_photos_take_the_memory_of_two(tmp_path, capsys):
    Image.new("RGB", (300, 200)).save(tmp_path / "small.png")
    files = [tmp_path / f"{number}.png" for number in range(MANY)]
    for number, file in enumerate(files):
        Image.new("RGB", (WIDTH, HEIGHT), (number, 90, 120)).save(file, compress_level=1)
    one, two, many = (grown(tmp_path / "small.png", files[:count]) for count in (1, 2, MANY))
    with capsys.disabled():
        print(f"\n{WIDTH * HEIGHT / 1e6:.0f} megapixels: one takes {one:.0f} MB, two {two:.0f}, {MANY} at once {many:.0f}")
    assert many <= 1.25 * max(two, 2 * one)
