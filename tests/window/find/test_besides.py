"""What answers besides lines, seen on the page Find."""

from datetime import date

from PySide6.QtWidgets import QPushButton

from keeper.actions import writing


def test_a_town_typed_leads_to_its_page(qtbot, frame, store, clock):
    writing.set_place(store, date(2025, 8, 9), "Visby", clock)
    frame.go("find")
    find = frame.pages["find"]
    assert find.besides.isHidden()
    find.typed.setText("visb")
    qtbot.waitUntil(lambda: len(find.besides.shown) == 1)
    (button,) = find.besides.findChildren(QPushButton)
    assert (button.text(), button.accessibleName()) == ("Place: Visby", "Open Place: Visby")
    button.click()
    qtbot.waitUntil(lambda: frame.pages["places"].isVisible())
    find.typed.setText("")
    qtbot.waitUntil(find.besides.isHidden)
