"""The track below a reading: not noted, nought, no and yes are told apart without a letter, and in one ink."""

from datetime import date

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter

from keeper.model import FORMS, Reading, Tracker
from keeper.settings import INKS, PAPERS
from keeper.window.desk.palette import palette
from keeper.window.night.readings.track import paint_track, share

NIGHT = date(2026, 6, 3)


def tracker(form: str) -> Tracker:
    ends = (0.0, 10.0) if form in ("scale", "amount") else (None, None)
    return Tracker("t", "it", form, *ends, "", "neither", NIGHT)


def drawn(qapp, form: str, value: float | None, dark: bool) -> QImage:
    image = QImage(120, 12, QImage.Format.Format_RGB32)
    colours = palette(INKS["blue-black"], PAPERS["night" if dark else "day"])
    image.fill(colours.paper)
    painter = QPainter(image)
    paint_track(painter, colours, tracker(form), None if value is None else Reading(NIGHT, "t", value), QRectF(0, 1, 120, 10))
    painter.end()
    return image


@pytest.mark.parametrize("dark", [False, True])
@pytest.mark.parametrize("form", FORMS)
def test_not_noted_nought_and_more_look_different(qapp, form, dark):
    nothing, nought, more = (drawn(qapp, form, value, dark) for value in (None, 0.0, 1.0))
    assert nothing != nought != more != nothing


@pytest.mark.parametrize(("form", "value", "far"), [("scale", 7.0, 0.7), ("scale", 12.0, 1.0), ("hours", 6.0, 0.5), ("amount", 2.0, 0.2), ("count", 3.0, None)])
def test_a_reading_stands_where_its_scale_says(form, value, far):
    assert share(tracker(form), Reading(NIGHT, "t", value)) == (pytest.approx(far) if far is not None else None)


def test_a_reading_of_an_old_scale_stands_as_high_as_it_did():
    assert share(tracker("scale"), Reading(NIGHT, "t", 3.0, low=1.0, high=5.0)) == pytest.approx(0.5)
