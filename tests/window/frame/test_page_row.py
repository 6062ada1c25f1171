"""Names and acts in a row that goes on below where there is no more room."""

import pytest
from PySide6.QtWidgets import QPushButton

from keeper.window.parts.flow import Flow


def cut(things) -> list[str]:
    """The texts that do not have the room they need."""
    return [one.text() for one in things if one.isVisible() and one.width() < one.sizeHint().width()]


@pytest.mark.parametrize(("percent", "wide"), [("100", 700), ("100", 1024), ("150", 1024), ("200", 1024), ("200", 700)])
def test_no_name_of_a_page_is_cut(qtbot, opened, store, percent, wide):
    frame = opened()
    frame.desk.kept["text_size"] = percent
    frame.dress_anew()
    frame.resize(wide, 700)
    qtbot.waitUntil(lambda: (frame.width(), frame.height()) == (wide, 700))
    qtbot.wait(50)
    buttons = list(frame.buttons.values())
    assert cut(buttons) == []
    bar = buttons[0].parentWidget()
    assert all(bar.rect().contains(button.geometry()) for button in buttons)
    for one in buttons:
        assert not any(one.geometry().intersects(other.geometry()) for other in buttons if other is not one)


def test_the_smallest_window_is_no_wider_than_a_small_screen(opened, store):
    from keeper.actions.opening import change_settings

    change_settings(store, {"text_size": "200"})
    assert opened().minimumWidth() <= 700


@pytest.fixture
def flow(qtbot, frame):
    made = Flow(frame.desk.look, *(QPushButton(text) for text in ("one", "two", "three")), apart=True)
    qtbot.addWidget(made)
    made.show()
    return made


def test_the_last_thing_stands_apart_at_the_right(qtbot, flow):
    flow.resize(900, 60)
    assert flow.things[-1].geometry().right() == flow.width() - 1
    assert flow.things[0].y() == flow.things[-1].y()


def test_where_there_is_no_room_a_row_begins(flow):
    wide = max(thing.sizeHint().width() for thing in flow.things)
    flow.resize(wide, 300)
    assert len({thing.y() for thing in flow.things}) == 3
    assert flow.heightForWidth(wide) == 3 * flow.heightForWidth(2000)


def test_what_is_hidden_takes_no_room(qtbot, flow):
    flow.resize(900, 60)
    before = flow.things[1].x()
    flow.things[0].hide()
    qtbot.waitUntil(lambda: flow.things[1].x() == 0 < before)
    flow.things[0].show()
    flow.things[0].setText("a longer one")
    qtbot.waitUntil(lambda: flow.things[1].x() > before)


def test_nothing_but_hidden_things_is_no_height(flow):
    for thing in flow.things:
        thing.hide()
    assert flow.heightForWidth(100) == 0
