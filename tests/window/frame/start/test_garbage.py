"""Garbage is taken up, and what takes long of it waits until nobody types."""

import gc
import weakref

import pytest

from keeper.window.frame.start import garbage


class Circle:
    """Something that holds itself, and so ends only as garbage."""

    def __init__(self) -> None:
        self.itself = self


@pytest.fixture
def ended():
    """Has something once a circle of the middle generation ended; the next look would be at that generation."""
    gc.collect()
    circle, ended = Circle(), []
    weakref.finalize(circle, ended.append, True)
    for _ in range(gc.get_threshold()[1] + 1):
        gc.collect(0)
    del circle
    return ended


def young() -> list[Circle]:
    """As many as are looked through at the next look."""
    return [Circle() for _ in range(gc.get_threshold()[0] + 100)]


def test_while_somebody_types_the_young_alone_are_looked_through(ended):
    taken, some = garbage.Garbage(), young()
    of_young = []
    weakref.finalize(some[0], of_young.append, True)
    del some
    taken.take_up_what_is_due(quiet=False)
    assert of_young and not ended
    some = young()
    del some
    taken.take_up_what_is_due(quiet=True)
    assert ended


def test_very_many_wait_too_but_not_for_ever(ended, monkeypatch):
    monkeypatch.setattr(garbage, "_MANY", 500)
    monkeypatch.setattr(garbage, "_LONGEST", 3)
    taken, some, of_young = garbage.Garbage(), young(), []
    weakref.finalize(some[0], of_young.append, True)
    del some
    for _ in range(3):
        taken.take_up_what_is_due(quiet=False)
        assert not of_young
    taken.take_up_what_is_due(quiet=False)
    assert of_young and ended
