"""The row above a line is as tall whatever stands in it: nothing below moves when a line is kept."""

from datetime import timedelta

import pytest


@pytest.mark.parametrize("size", ["100", "200"])
def test_the_row_above_a_line_stays_as_tall_when_buttons_come(qtbot, frame, page, tonight, write, size):
    frame.desk.change_setting("text_size", size)
    frame.dress_anew()
    frame.go("night", tonight)
    qtbot.wait(50)
    before = {kind: block.head.geometry().height() for kind, block in page.blocks.items()}
    assert not page.blocks["gratitude"].buttons.button("rest").isVisible()
    for kind in page.blocks:
        write(tonight - timedelta(days=1), kind, "The heron again.")
    frame.go("night", tonight - timedelta(days=1))
    qtbot.waitUntil(lambda: all(block.buttons.button("rest").isVisible() for block in page.blocks.values()))
    qtbot.wait(50)
    after = {kind: block.head.geometry().height() for kind, block in page.blocks.items()}
    assert before == after and len({*before.values()}) == 1
