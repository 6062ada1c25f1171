"""Names on the map: a place that stands alone has its name beside it, wherever it falls."""

from types import SimpleNamespace

import pytest
from PySide6.QtCore import QRectF

from keeper.model import Place
from keeper.review.places import PlaceKept
from keeper.study.chart import Chart
from keeper.window.desk.look import Look
from keeper.window.parts.places.map_picture import Picture


@pytest.fixture
def picture(qapp):
    """A drawing of places at these pixels, ten dots a degree."""
    look = Look(qapp)
    look.dress({})
    marks = SimpleNamespace(ratio=1.0, stamp=lambda *_: None)

    def draw(*spots: tuple[float, float], nights: int = 41) -> Picture:
        made = Picture(look, marks, Chart(scale=10.0, width=400.0, height=300.0))
        kept = [
            PlaceKept(
                Place(f"{at}", f"Gothenburg {at}", latitude=(150 - y) / 10, longitude=(x - 200) / 10), nights=nights
            )
            for at, (x, y) in enumerate(spots)
        ]
        made.draw(QRectF(0, 0, 400, 300), (), (), kept)
        return made

    return draw


@pytest.mark.parametrize("nights", [1, 41, 200, 900])
def test_a_mark_is_never_in_the_way_of_its_own_name(picture, nights):
    for step in range(24):
        x, y = 100 + step * 0.5, 150 + step * 0.25
        ((room, _),) = picture((x, y), nights=nights)._written
        assert room.left() > x and abs(room.center().y() - y) < 1, "at its right"


def test_a_name_keeps_off_the_mark_of_another(picture):
    made = picture((100, 150), (118, 150))
    rooms = {name: room for room, name in made._written}
    assert rooms["Gothenburg 0"].right() < 118 and rooms["Gothenburg 1"].left() > 118
