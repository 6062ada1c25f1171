"""The buttons of a line come with it, each in its place."""

from datetime import timedelta

from keeper.window.night.line_buttons import EARLIER, KEPT, LATER, LIKE, MOVE, REST


def test_where_there_is_no_line_there_are_no_buttons(page):
    assert all(block.buttons.all_made() == [] for block in page.blocks.values())


def test_buttons_that_come_late_are_reached_by_tab_in_the_order_in_which_they_stand(page, frame, tonight, write):
    night, kinds = tonight - timedelta(days=1), list(page.blocks)[:2]
    # The lower line comes first.
    for kind in reversed(kinds):
        write(night, kind, "The heron again.")
        frame.go("night", night)
    standing = [button for kind in kinds for button in page.blocks[kind].buttons.all_made()]
    assert standing == [page.blocks[kind].buttons.button(name) for kind in kinds for name in (MOVE, LIKE, REST, LATER)]
    reached, at = [], page.first_button
    for _ in range(200):
        at = at.nextInFocusChain()
        if at in standing:
            reached.append(at)
    assert list(dict.fromkeys(reached)) == standing


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
