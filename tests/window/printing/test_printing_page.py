"""Pages to print and a page to send, as a person makes them."""

from datetime import date
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QAbstractButton, QComboBox, QFileDialog, QLineEdit, QWidget

from keeper.actions import people
from keeper.actions.printing import making as printing
from keeper.actions.sending import making as sending
from keeper.window.printing.wording import STOPPED, WHAT

NOVEMBER = date(2026, 11, 1)


@pytest.fixture
def filled(store, write):
    for day in range(1, 6):
        write(date(2026, 11, day), "memory", f"Ilze sang on evening {day}.")
    people.add(store, "Ilze")


@pytest.fixture
def pages(qtbot, frame, filled):
    frame.go("printing", NOVEMBER)
    yield frame.pages["printing"]
    frame.desk.worker.finish()


@pytest.fixture
def leaf(pages):
    return pages.leaf


def answer(monkeypatch, path: Path | None) -> list[str]:
    offered = []

    def asked(parent, title, name, kinds):
        offered.append(Path(name).name)
        return (str(path) if path else ""), ""

    monkeypatch.setattr(QFileDialog, "getSaveFileName", asked)
    return offered


def choose(box: QComboBox, value: str) -> None:
    box.setCurrentIndex(box.findData(value))


def test_it_is_behind_more_and_begins_with_the_month_the_window_is_on(pages, leaf):
    assert pages.currentWidget() is leaf and leaf.form.what.hasFocus()
    wanted = leaf.form.wanted()
    assert (wanted.what, wanted.first, wanted.last, wanted.size) == ("month", NOVEMBER, date(2026, 11, 30), "a5")
    assert leaf.form.when.placeholderText() == "November 2026" and not leaf.preview.isVisible()


def test_pages_are_looked_at_before_they_are_saved(qtbot, leaf):
    qtbot.keyClick(leaf.show_button, Qt.Key.Key_Return)
    assert leaf.under_way.bar.isVisible() and leaf.under_way.stop.isVisible() and not leaf.save_button.isVisible()
    qtbot.waitUntil(leaf.preview.isVisible)
    assert leaf.preview.told.text() == "Side 1 of 2" and leaf.preview.side.shown.width() > 300
    leaf.preview.setFocus()
    qtbot.keyClick(leaf.preview, Qt.Key.Key_Right)
    assert leaf.preview.told.text() == "Side 2 of 2" and leaf.preview.accessibleName() == "Side 2 of 2"
    assert not leaf.preview.onward.isEnabled()
    folder = Path(leaf._folder.name)
    # What is shown is what would be printed, or nothing is.
    leaf.form.boxes["readings"].toggle()
    assert not leaf.preview.isVisible() and leaf._folder is None
    assert leaf.desk.worker.finish() and not folder.exists()


def test_pages_lie_where_the_person_says(qtbot, leaf, tmp_path, monkeypatch):
    offered = answer(monkeypatch, tmp_path / "mine")
    qtbot.mouseClick(leaf.save_button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: leaf.under_way.saved is not None)
    assert offered == ["November 2026 to fill in.pdf"]
    assert (tmp_path / "mine.pdf").read_bytes().startswith(b"%PDF")
    assert leaf.under_way.told.text() == "Saved as \u201cmine.pdf\u201d, 2 sides." and leaf.under_way.open_folder.isVisible()


def test_nothing_is_made_without_a_file(qtbot, leaf, monkeypatch):
    answer(monkeypatch, None)
    qtbot.mouseClick(leaf.save_button, Qt.MouseButton.LeftButton)
    assert not leaf.under_way.working and leaf.save_button.isVisible()


@pytest.mark.parametrize("what", WHAT)
def test_each_kind_shows_the_fields_it_has_and_is_made(qtbot, leaf, what):
    form = leaf.form
    choose(form.what, what)
    assert form.ground.isVisible() == (what in ("month", "nights")) and form.ticked.isVisible() == (what == "year")
    assert form.when.isVisible() == (what != "ruler") and form.boxes["marks"].isVisible() == (what in ("month", "filled"))
    form.when.setText("2027-11-03" if what == "cards" else "2026-11")
    if what == "cards":
        assert (form.size.currentData(), form.paper.currentData(), form.holes.text()) == ("a7", "a4", "0")
    leaf.look()
    qtbot.waitUntil(leaf.preview.isVisible)
    assert leaf.under_way.told.text() == (printing.FOR_THE_PRINTER if what == "cards" else "")


def test_pages_that_are_shown_come_into_sight_in_a_small_window(qtbot, frame, leaf):
    frame.resize(1024, 700)
    qtbot.mouseClick(leaf.show_button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: leaf.preview.isVisible() and leaf.verticalScrollBar().value() > 0)
    assert not leaf.preview.onward.visibleRegion().isEmpty()


def test_what_is_chosen_is_what_is_made(leaf):
    form = leaf.form
    for box, value in ((form.size, ""), (form.ground, "dots"), (form.paper, "a4"), (form.sides, "by hand")):
        choose(box, value)
    form.own.setText("10 x 15 cm")
    form.holes.setText("8,5")
    form.booklet.setChecked(True)
    form.boxes["photo"].setChecked(False)
    form.when.setText("June 2027")
    form._follow()
    wanted = form.wanted()
    assert (wanted.leaf.width, wanted.leaf.height, wanted.leaf.holes, wanted.leaf.facing) == (100, 150, 8.5, True)
    assert (wanted.ground, wanted.paper, wanted.sides, wanted.booklet, wanted.parts.photo) == ("dots", "a4", "by hand", True, False)
    assert form.understood.text() == "June 2027"


@pytest.mark.parametrize(("field", "typed", "told"), [("when", "soon", "not a date"), ("holes", "wide", "number of millimetres"),
                                                      ("holes", "60", "margin for holes"), ("own", "big", "not a size")])  # fmt: skip
def test_what_cannot_be_is_told_and_what_was_typed_stays(leaf, field, typed, told):
    choose(leaf.form.size, "")
    getattr(leaf.form, field).setText(typed)
    leaf.look()
    assert told in leaf.under_way.told.text() and getattr(leaf.form, field).text() == typed and not leaf.under_way.working


def test_the_making_can_be_stopped(qtbot, leaf, monkeypatch):
    def proof(store, wanted, folder, progress, stopped):
        while True:
            progress(0.2, "Setting the pages")

    monkeypatch.setattr(printing, "proof_pages", proof)
    leaf.look()
    qtbot.waitUntil(lambda: leaf.under_way.told.text() == "Setting the pages")
    qtbot.mouseClick(leaf.under_way.stop, Qt.MouseButton.LeftButton)
    assert leaf.under_way.told.text() == STOPPED and not leaf.under_way.working
    assert leaf.show_button.isVisible() and leaf.desk.worker.finish()


def test_a_window_that_closes_leaves_nothing_laid_out(qtbot, frame, leaf):
    leaf.look()
    qtbot.waitUntil(leaf.preview.isVisible)
    folder = Path(leaf._folder.name)
    frame.leave()
    assert not folder.exists()


# a page to send


def test_a_page_to_send_is_a_press_away_and_escape_leads_back(qtbot, pages, leaf):
    qtbot.mouseClick(leaf.send, Qt.MouseButton.LeftButton)
    assert pages.currentWidget() is pages.sending and pages.sending.what.hasFocus()
    qtbot.keyClick(pages, Qt.Key.Key_Escape)
    assert pages.currentWidget() is leaf and leaf.form.what.hasFocus()


@pytest.mark.parametrize(("what", "name"), [("month", "2026-11"), ("year", "2026"), ("person", "Ilze")])
@pytest.mark.parametrize("ending", [".html", ".pdf"])
def test_a_page_is_sent_to_where_the_person_says(qtbot, frame, pages, tmp_path, monkeypatch, what, name, ending):
    offered = answer(monkeypatch, tmp_path / "page")
    frame.go("printing", NOVEMBER, (what, name if what == "person" else ""))
    sent = pages.sending
    qtbot.waitUntil(lambda: bool(sent._names))
    choose(sent.form, ending)
    qtbot.mouseClick(sent.save_button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: sent.under_way.saved is not None)
    assert offered == [f"{name}{ending}"] and (tmp_path / f"page{ending}").stat().st_size > 1000
    assert sent.under_way.told.text() == f"Saved as \u201cpage{ending}\u201d."


def test_what_is_sent_is_what_was_chosen(qtbot, pages, leaf, tmp_path, monkeypatch):
    asked = []
    monkeypatch.setattr(sending, "make_sent", lambda store, wanted, target, *_: asked.append(wanted) or sending.PageSent(target))
    answer(monkeypatch, tmp_path / "page")
    leaf.send.click()
    sent = pages.sending
    sent.when.setText("October 2026")
    assert not sent.boxes["positions"].isChecked() and not sent.boxes["resting"].isChecked() and not sent.boxes["readings"].isChecked()
    for part in ("positions", "resting", "readings"):
        sent.boxes[part].setChecked(True)
    sent.save()
    qtbot.waitUntil(lambda: bool(asked))
    choose(sent.what, "year")
    sent.when.setText("2025")
    qtbot.waitUntil(lambda: not sent.under_way.working)
    sent.save()
    qtbot.waitUntil(lambda: len(asked) == 2)
    assert (asked[0].what, asked[0].month, asked[0].positions, asked[0].resting, asked[0].readings) == ("month", date(2026, 10, 1), True, True, True)
    # What rests is never among what stands for a year.
    assert (asked[1].what, asked[1].month, asked[1].resting) == ("year", date(2025, 1, 1), False)


def test_where_there_is_none_to_send_that_is_told(qtbot, pages, leaf):
    leaf.send.click()
    qtbot.waitUntil(lambda: bool(pages.sending._names))
    choose(pages.sending.what, "theme")
    assert pages.sending.understood.text() == "There is none yet."
    pages.sending.save()
    assert pages.sending.under_way.told.text() == "There is none yet."


@pytest.mark.parametrize("page", ["month", "year"])
def test_months_and_years_lead_to_it(qtbot, frame, filled, page):
    frame.go(page, NOVEMBER)
    shown = frame.pages[page]
    if page == "month":
        qtbot.waitUntil(shown.sheet.is_shown)
        way = next(button for button in shown.sheet.ways if button.text().startswith("Send"))
    else:
        way = shown.currentWidget().send
        qtbot.waitUntil(way.isVisible)
    way.click()
    sent = frame.pages["printing"].sending
    assert frame.pages["printing"].currentWidget() is sent and sent.what.currentData() == page
    assert sent.wanted().month.year == 2026


def test_every_control_has_a_name_and_is_reached_by_tab(qtbot, pages, leaf):
    leaf.send.click()
    for page in (leaf, pages.sending):
        controls = [one for one in page.findChildren(QWidget) if isinstance(one, QAbstractButton | QLineEdit | QComboBox)
                    and one.focusPolicy() & Qt.FocusPolicy.TabFocus]  # fmt: skip
        assert len(controls) > 6
        unnamed = [one for one in controls if not QAccessible.queryAccessibleInterface(one).text(QAccessible.Text.Name)]
        assert unnamed == []
