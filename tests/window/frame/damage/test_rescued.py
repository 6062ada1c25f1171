"""Words that were rescued are offered when the keeper is well again, and kept when chosen."""

from datetime import date
from pathlib import Path

import pytest
from PySide6.QtTest import QTest

from keeper.actions.damage import rescued
from keeper.actions.rescue import rescue
from keeper.store import lines, open_store
from keeper.store.file import known_damage
from keeper.window.frame.damage.rescued import RescuedDialog
from keeper.window.frame.only_reading import OnlyReading

NIGHT = date(2026, 11, 14)


@pytest.fixture(autouse=True)
def home(tmp_path, monkeypatch):
    """No words of others."""
    monkeypatch.setattr(Path, "home", lambda: tmp_path)
    monkeypatch.setattr("tempfile.gettempdir", lambda: str(tmp_path))


def test_words_come_back_as_they_were_typed(store, write, folder):
    write(NIGHT, "memory", "Kept already.")
    words = {(NIGHT, "gratitude"): "Two rows:\n2026 was long.", (NIGHT, "memory"): "Kept already.", ("question", "2026-11"): "Why?"}
    file = rescue(words, folder, NIGHT)
    found = rescued.waiting(store)
    assert [(one.night, one.kind, one.text, one.file) for one in found] == [(NIGHT, "gratitude", "Two rows:\n2026 was long.", file)]


def test_they_are_added_and_offered_no_more_but_stay_on_the_disk(store, write, folder, clock):
    write(NIGHT, "memory", "Before.")
    file = rescue({(NIGHT, "memory"): "After."}, folder, NIGHT)
    found = rescued.waiting(store)
    assert found[0].there == "Before." and rescued.keep(store, found, clock) == ()
    rescued.decided([file])
    assert rescued.waiting(store) == () and not file.exists()
    assert lines.one(store, NIGHT, "memory").text == "Before. After."
    assert "After." in next(folder.parent.glob("keeper-was-unkept-*")).read_text()


def test_typed_while_broken_offered_when_well(qtbot, store, write, opened, folder):
    write(NIGHT, "memory", "The kettle sang.")
    known_damage.note(folder, "One line is not as it was written.")
    frame = opened(rest=False)
    assert frame.findChild(OnlyReading) is not None
    field = frame.pages["night"].fields["gratitude"]
    field.setFocus()
    QTest.keyClicks(field, "Swam in the cold")
    qtbot.waitUntil(lambda: any(folder.parent.glob("keeper-unkept-*")))
    frame.leave()
    known_damage.clear(folder)
    frame = opened()
    qtbot.waitUntil(lambda: frame.rest.rescued_offer.button.isVisible())
    frame.rest.rescued_offer.button.click()
    dialog = frame.findChild(RescuedDialog)
    qtbot.waitUntil(dialog.keep.hasFocus)
    assert dialog.boxes[0].isChecked()
    dialog.keep.click()
    qtbot.waitUntil(lambda: not dialog.isVisible())
    qtbot.waitUntil(lambda: not frame.rest.rescued_offer.button.isVisible())
    with open_store(folder) as again:
        assert lines.one(again, NIGHT, "gratitude").text == "Swam in the cold"
