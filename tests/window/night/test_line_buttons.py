"""The buttons of a line come with it, each in its place."""

from datetime import timedelta

from keeper.window.night.line_buttons import EARLIER, KEPT, LATER, LIKE, MOVE, REST


def test_where_there_is_no_line_there_are_no_buttons(page):
    assert all(block.buttons.all_made() == [] for block in page.blocks.values())


def test_buttons_that_come_late_are_reached_by_tab_in_the_order_in_which_they_stand(page, frame, tonight, write, qtbot):
    write(tonight - timedelta(days=1), "memory", "The heron again.")
    frame.go("night", tonight - timedelta(days=1))
    buttons = page.blocks["memory"].buttons
    assert buttons.all_made() == [buttons.button(name) for name in (MOVE, LIKE, REST, LATER)]
    reached, at = [], page.first_button
    for _ in range(200):
        at = at.nextInFocusChain()
        if at in buttons.all_made():
            reached.append(at)
    assert list(dict.fromkeys(reached)) == buttons.all_made()


def test_a_button_that_comes_after_others_stands_before_them_where_its_place_is(page, frame, tonight, write):
    write(tonight, "memory", "The heron again.")
    frame.go("night", tonight)
    block = page.blocks["memory"]
    for name in (EARLIER, KEPT):
        block.buttons.button(name)
    head = [block.head.itemAt(place).widget() for place in range(block.head.count())]
    assert [one for one in head if one in block.buttons.all_made()] == [
        block.buttons.button(name) for name in (KEPT, EARLIER, MOVE, LIKE, REST)
    ]
    assert block.buttons.button(EARLIER).accessibleName() == "Earlier wordings of the memory"
