"""The places page with fifty years of nights: how soon it opens, how smoothly it moves.

Seconds are those of the window's own thread (``time.thread_time``), beside a
bare reference in the same run; they are told, with their targets, and fail nothing.
"""

import time
from datetime import datetime
from statistics import median
from zoneinfo import ZoneInfo

import fifty_years
import pytest
from PySide6.QtCore import QPointF
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget

from keeper.actions import reading
from keeper.actions.places import known as places
from keeper.actions.places import towns
from keeper.clock import StoppedClock
from keeper.store import nights
from keeper.store.places import named as kept
from keeper.window.frame import opening
from keeper.window.parts.places import map_shapes

OPENS_IN, BLOCKS_NO_LONGER, KEY_IN = 200, 50, 50
"""Targets, in milliseconds."""


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    folder = tmp_path_factory.mktemp("fifty") / "keeper"
    fifty_years.make(folder).close()
    return folder


@pytest.fixture(scope="module")
def frame(folder):
    app = opening.application()
    clock = StoppedClock(datetime(2026, 1, 1, 22, 0, tzinfo=ZoneInfo("Europe/Berlin")), "Europe/Berlin")
    frame = opening.make_frame(app, folder, clock)
    frame.resize(1400, 900)
    frame.show()
    opening._open_page(frame, clock.tonight(4))
    opening.at_ease(frame)
    while not frame.rest_is_loaded():
        QTest.qWait(5)
    frame.desk.reader.finish()
    QTest.qWait(100)
    yield frame
    frame.leave()


def spent(work):
    begun = time.thread_time()
    work()
    return time.thread_time() - begun


def bare_rows(store):
    nights.spent(store)
    kept.every(store)


def told(what, ours, bare, target=0):
    wanted = f" (target: at most {target} ms)" if target else ""
    print(f"\n{what}: {ours * 1000:.1f} ms, bare {bare * 1000:.2f} ms, ratio {ours / max(bare, 1e-6):.1f}{wanted}")


def settled(page):
    over = page.overview
    while over.view is None or over.travels is None:
        QTest.qWait(5)
    for _ in range(3):
        page.desk.reader.finish(60)
        QTest.qWait(50)
        over.map.grab()


def test_it_opens(frame):
    """Everything the window's thread does, and what the lane does before it can be drawn."""

    def open_page():
        frame.go("places")
        over = frame.pages["places"].overview
        while over.view is None:
            QApplication.processEvents()
            time.sleep(0.001)
        frame.grab()

    window = spent(open_page)
    lane = spent(lambda: places.places_view(frame.desk.store))
    rows = spent(lambda: bare_rows(frame.desk.store))
    told("opening: the window's thread and the lane", window + lane, rows, OPENS_IN)


def test_reading_beside_the_bare_rows(frame):
    store = frame.desk.store
    reads = median(spent(lambda: places.places_view(store)) for _ in range(9))
    told("reading", reads, median(spent(lambda: bare_rows(store)) for _ in range(9)))
    assert places.places_view(store)


@pytest.mark.parametrize("closer", [1.0, 2.2, 4.8, 10.0, 22.0, 500.0])
def test_zooming_and_pushing(frame, closer):
    frame.go("places")
    page = frame.pages["places"]
    settled(page)
    view = page.overview.map
    view.fit()
    view.zoom(closer, QPointF(view.width() * 0.6, view.height() * 0.4))
    settled(page)
    drawn = median(spent(lambda: (view.zoom(1.01), view.grab())) for _ in range(5))
    pushed = median(spent(lambda: (view._touch(view.chart.moved(3, 2)), view.grab())) for _ in range(20))
    empty = QWidget()
    empty.resize(view.size())
    bare = median(spent(empty.grab) for _ in range(5))
    told(f"{view.chart.degrees_across:.0f} degrees, drawn", drawn, bare, BLOCKS_NO_LONGER)
    told(f"{view.chart.degrees_across:.0f} degrees, pushed", pushed, bare, BLOCKS_NO_LONGER // 2)


@pytest.mark.parametrize("level", map_shapes.LEVELS)
def test_land_on_the_lane(benchmark, level):
    benchmark(map_shapes.land, level)


def test_a_key_in_the_place_field(frame, tmp_path_factory, monkeypatch):
    cache = tmp_path_factory.mktemp("towns")
    monkeypatch.setattr(towns, "towns_folder", lambda: cache)
    towns.ready(cache)
    frame.go("night", frame.desk.tonight())
    field = frame.pages["night"].place
    field.setFocus()
    QTest.qWait(50)
    store, longest, near = frame.desk.store, 0.0, (54.35, 18.65)
    for typed in ("m", "mu", "mun", "g", "gd", "gda", "gdan", "new york", "lynn"):
        window = spent(lambda typed=typed: (field.setText(typed), field._show_offers(typed)))
        lane = spent(lambda typed=typed: towns.towns(cache, typed, near))
        longest = max(longest, window + lane)
    field.show_place("", "")
    assert len(reading.known_places(store)) == fifty_years.PLACES
    bare = QLineEdit()
    told("the longest key", longest, max(spent(lambda typed=typed: bare.setText(typed)) for typed in ("m", "gdan", "new york")), KEY_IN)
