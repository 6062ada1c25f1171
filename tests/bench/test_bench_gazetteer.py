"""How much the look-up adds to the bare index, and what memory it takes.

Ratios to a bare loop over the same file in the same run, so that a busy
machine slows both.
"""

import subprocess
import sys
from statistics import median
from time import perf_counter

import pytest

from keeper.shipped import resource
from keeper.store.places.towns import Gazetteer
from keeper.store.places.towns_file import unpack

TYPED = ["m", "mu", "mun", "munch", "munchen", "p", "pa", "par", "san", "san fran", "gdansk", "lynn", "new york"]
NEAR = (54.352, 18.647)
BARE = "SELECT town.*, names FROM word JOIN town ON town.id = word.rowid JOIN spelling USING (id) WHERE word MATCH ? LIMIT 8"


@pytest.fixture(scope="module")
def cache(tmp_path_factory):
    return tmp_path_factory.mktemp("cache")


@pytest.fixture(scope="module")
def towns(cache):
    gazetteer = Gazetteer(unpack(cache, resource("gazetteer")))
    yield gazetteer
    gazetteer.close()


def every_key(look_up):
    for typed in TYPED:
        look_up(typed)


def seconds(work, times=15):
    taken = []
    for _ in range(times):
        begun = perf_counter()
        work()
        taken.append(perf_counter() - begun)
    return median(taken)


def bare(towns):
    """One plain prefix query a key, with its eight rows: the least there is to do."""

    def ask(typed):
        towns._base.execute(BARE, (f'"{typed.replace(" ", "")}" *',)).fetchall()

    return lambda: every_key(ask)


def test_look_up(benchmark, towns):
    benchmark(every_key, towns.look_up)
    assert seconds(lambda: every_key(towns.look_up)) < 7 * seconds(bare(towns))


def test_look_up_near(benchmark, towns):
    def near(typed):
        return towns.look_up(typed, near=NEAR)

    benchmark(every_key, near)
    assert seconds(lambda: every_key(near)) < 10 * seconds(bare(towns))


def test_nearest(benchmark, towns):
    benchmark(towns.nearest, *NEAR)


@pytest.mark.skipif(sys.platform != "linux", reason="reads /proc")
def test_memory(cache, towns):
    looked_up = f"""
import sys
from pathlib import Path
from keeper.shipped import resource
from keeper.store.places.towns import Gazetteer
from keeper.store.places.towns_file import unpack
def held():
    return int(Path('/proc/self/statm').read_text().split()[1]) * 4096
before = held()
towns = Gazetteer(unpack(Path(sys.argv[1]), resource('gazetteer')))
for typed in {TYPED!r}:
    towns.look_up(typed, near={NEAR!r})
for latitude in range(-90, 91, 5):
    towns.nearest(latitude, 10.0)
print(held() - before)
"""
    grown = subprocess.run([sys.executable, "-c", looked_up, str(cache)], capture_output=True, text=True, check=True)
    assert int(grown.stdout) < 60e6
