"""Where one was for a span of nights, said by keys alone: on a night, a place's page and the ribbon."""

from datetime import date, timedelta

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication

from keeper.actions import writing
from keeper.actions.places import towns
from keeper.dates.written import full_date
from keeper.window.parts.places.span_dialog import SUCH_AS, SpanDialog

NIGHT = date(2026, 11, 14)


@pytest.fixture(scope="module")
def gazetteer(tmp_path_factory):
    return tmp_path_factory.mktemp("gazetteer")


@pytest.fixture(autouse=True)
def own_cache(gazetteer, monkeypatch):
    monkeypatch.setattr(towns, "towns_folder", lambda: gazetteer)


@pytest.fixture
def asked(monkeypatch):
    """The dialogs that were opened, which are shown without waiting for an answer."""
    found: list[SpanDialog] = []

    def show(self):
        found.append(self)
        self.show()

    monkeypatch.setattr(SpanDialog, "exec", show)
    return found


def where(store) -> dict[int, str]:
    rows = store.rows("SELECT date, name FROM night JOIN place ON place.id = place_id")
    return {int(night[-2:]): name for night, name in rows}


def press(qtbot, *keys) -> None:
    for key in keys:
        target = QApplication.activePopupWidget() or QApplication.focusWidget()
        if isinstance(key, str):
            qtbot.keyClicks(target, key)
        else:
            qtbot.keyClick(target, key)


@pytest.fixture
def dialog(qtbot, frame):
    """A dialog that knows nothing yet."""
    made = SpanDialog(frame.desk, frame)
    qtbot.addWidget(made)
    made.show()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def test_lisbon_from_the_3rd_to_the_12th_by_keys_and_taken_back(qtbot, dialog, store):
    assert dialog.place.hasFocus()
    press(qtbot, "Lisbon", Qt.Key.Key_Return)
    # Without a window manager the list that was open stays the active window.
    dialog.activateWindow()
    qtbot.waitUntil(dialog.first.hasFocus)
    press(qtbot, "2026-11-03", Qt.Key.Key_Return, "2026-11-12")
    assert dialog.told.text() == "10 nights, 3 to 12 Nov 2026."
    press(qtbot, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: dialog.said is not None)
    assert where(store) == dict.fromkeys(range(3, 13), dialog.said.place.name)
    assert dialog.told.text().startswith("3 to 12 Nov 2026: 10 nights at Lisbo")
    qtbot.waitUntil(dialog.leave.hasFocus)
    qtbot.keyClick(dialog.leave, Qt.Key.Key_Tab, Qt.KeyboardModifier.ShiftModifier)
    press(qtbot, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: where(store) == {})
    qtbot.waitUntil(lambda: dialog.told.text() == "Took back: Lisbon for the nights of 3 to 12 Nov 2026.")
    press(qtbot, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: len(where(store)) == 10)


def test_nights_said_to_be_elsewhere_are_told_first(qtbot, dialog, store, clock):
    for day in (5, 6):
        writing.set_place(store, NIGHT.replace(day=day), "Sintra", clock)
    dialog._on_chosen("The old mill")
    dialog.first.setFocus()
    press(qtbot, "2026-11-03", Qt.Key.Key_Return, "2026-11-12")
    assert "2 nights were said to be elsewhere: Sintra (5 to 6 Nov 2026). They stay." in dialog.told.text()
    dialog.take()
    qtbot.waitUntil(lambda: dialog.said is not None)
    assert where(store)[5] == "Sintra" and dialog.told.text().endswith("2 nights stayed where you had said.")


def test_what_was_only_carried_on_is_told_to_change(qtbot, dialog, store, clock):
    writing.set_place(store, NIGHT.replace(day=4), "Riga", clock)
    writing.write_line(store, NIGHT.replace(day=5), "memory", "The tram.", clock)
    dialog._on_chosen("The old mill")
    dialog.first.setText("2026-11-05")
    dialog.last.setFocus()
    press(qtbot, "2026-11-06")
    assert dialog.told.text().endswith("1 night carried on at Riga changes.")
    dialog.take()
    qtbot.waitUntil(lambda: dialog.said is not None)
    assert dialog.told.text().endswith("1 night had been carried on elsewhere.")


def test_these_too(qtbot, dialog, store, clock):
    writing.set_place(store, NIGHT.replace(day=5), "Sintra", clock)
    dialog._on_chosen("The old mill")
    dialog.last.setFocus()
    dialog.first.setText("2026-11-03")
    press(qtbot, "2026-11-06")
    assert "1 night was said to be elsewhere: Sintra (5 Nov 2026). It stays." in dialog.told.text()
    dialog.over.setFocus()
    press(qtbot, Qt.Key.Key_Space)
    assert dialog.told.text().endswith("It changes too.")
    dialog.take()
    qtbot.waitUntil(lambda: set(where(store).values()) == {"The old mill"})


@pytest.mark.parametrize("last, said", [("2026-11-20", "still to come"), ("2026-11-01", "comes before"), ("soon", "soon")])
def test_what_cannot_be_is_said_and_nothing_is_kept(qtbot, dialog, store, last, said):
    dialog._on_chosen("The old mill")
    dialog.first.setText("2026-11-03")
    dialog.last.setFocus()
    press(qtbot, last, Qt.Key.Key_Return)
    assert said in dialog.told.text()
    dialog.desk.writer.finish()
    assert where(store) == {} and dialog.said is None


def test_without_a_place_it_is_asked_for(qtbot, dialog, store):
    dialog.first.setText("2026-11-03")
    dialog.last.setText("2026-11-04")
    dialog.take()
    qtbot.waitUntil(lambda: dialog.told.text() == "Say which place it was.")
    assert dialog.act.isEnabled()


def test_from_the_place_of_a_night(qtbot, page, asked, store, tonight):
    page.place.setFocus()
    page.place.selectAll()
    press(qtbot, "The old mill")
    popup = QApplication.activePopupWidget()
    qtbot.keyClick(popup or page.place, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: bool(asked))
    assert (asked[0].place.text(), asked[0].first.text(), asked[0].last.text()) == ("The old mill", full_date(tonight), "")
    assert where(store) == {14: "The old mill"}


def test_from_the_page_of_a_place(qtbot, frame, asked, store, clock):
    place = writing.set_place(store, NIGHT, "The old mill", clock)
    frame.go("places")
    frame.pages["places"].show_place(place.id)
    shown = frame.pages["places"].place
    qtbot.waitUntil(lambda: shown.view is not None)
    shown.span.setFocus()
    press(qtbot, Qt.Key.Key_Space)
    (dialog,) = asked
    qtbot.waitUntil(dialog.isActiveWindow)
    assert dialog.place.text() == "The old mill" and dialog.first.hasFocus()
    press(qtbot, "2026-11-01", Qt.Key.Key_Return, "2026-11-02", Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: "3 nights" in shown.nights.text())


def test_from_the_ribbon_by_keys(qtbot, frame, asked, store, clock):
    writing.set_place(store, NIGHT, "The old mill", clock)
    frame.desk.changed.emit()
    qtbot.waitUntil(lambda: frame.ribbon.place_of(NIGHT) is not None)
    frame.ribbon.setFocus()
    for _ in range(3):
        qtbot.keyClick(frame.ribbon, Qt.Key.Key_Left, Qt.KeyboardModifier.ShiftModifier)
    qtbot.keyClick(frame.ribbon, Qt.Key.Key_Return)
    (dialog,) = asked
    assert (dialog.place.text(), dialog.first.text(), dialog.last.text()) == ("The old mill", "11 November 2026", "14 November 2026")
    assert frame.night == NIGHT and frame.ribbon._from is None


def test_from_the_ribbon_by_a_click_with_shift(qtbot, frame, asked):
    ribbon = frame.ribbon
    there = NIGHT - timedelta(days=40)
    spot = QPoint(int(ribbon._x(there) + 1), int(ribbon._band().center().y()))
    qtbot.mouseClick(ribbon, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.ShiftModifier, spot)
    (dialog,) = asked
    assert (dialog.place.text(), dialog.first.text(), dialog.last.text()) == ("", full_date(there), full_date(NIGHT))
    qtbot.mouseClick(ribbon, Qt.MouseButton.LeftButton, pos=spot)
    assert frame.night == there


def test_shift_is_let_go_by_an_arrow_or_escape(qtbot, frame, asked):
    frame.ribbon.setFocus()
    qtbot.keyClick(frame.ribbon, Qt.Key.Key_Left, Qt.KeyboardModifier.ShiftModifier)
    qtbot.keyClick(frame.ribbon, Qt.Key.Key_Escape)
    qtbot.keyClick(frame.ribbon, Qt.Key.Key_Return)
    assert asked == [] and frame.night == NIGHT - timedelta(days=1)


def test_everything_in_it_has_a_name(dialog):
    for part in (dialog.place, dialog.first, dialog.last, dialog.over, dialog.act, dialog.leave, dialog.back):
        assert part.accessibleName() or part.text()


def test_a_whole_date_is_seen_in_the_fields(qtbot, frame, tonight):
    made = SpanDialog(frame.desk, frame, None, tonight - timedelta(days=9), tonight)
    qtbot.addWidget(made)
    made.show()
    for edit in (made.first, made.last):
        letters = edit.fontMetrics()
        assert edit.width() > letters.horizontalAdvance(edit.text())
        assert edit.width() > letters.horizontalAdvance(SUCH_AS), "the example in an empty one is not cut"
