"""The window on themes: they are looked for in this process."""

import pytest
from theme_keeper import fill_with_themes
from waiting.not_apart import here
from waiting.themes_seen import shown

from keeper.actions.themes import asking as themes
from keeper.store.themes import found as kept_themes


@pytest.fixture(autouse=True)
def _not_apart(request, monkeypatch):
    """Unless a test asks for ``really_apart``."""
    if "really_apart" not in request.fixturenames:
        monkeypatch.setattr("keeper.actions.themes.looking.apart", here)


@pytest.fixture
def made(store):
    """A keeper with 160 lines and their themes."""
    fill_with_themes(store)
    return themes.themes_view(store)


@pytest.fixture
def page(qtbot, made, frame):
    """The page of threads."""
    frame.go("themes")
    page = frame.pages["themes"]
    qtbot.waitUntil(lambda: page.overview.list.rows.rowCount() == len(made.threads))
    qtbot.waitUntil(page.overview.list.hasFocus)
    return page


@pytest.fixture
def loose(qtbot, store, page):
    """The page of three loose lines, each with what would come nearest: theme by id."""
    nearest = dict(store.rows("SELECT line_id, theme FROM theme_line WHERE theme IS NOT NULL ORDER BY closeness DESC LIMIT 3"))
    kept_themes.put(store, [(line, None, 0.0) for line in nearest], [(line, theme, 0.0, True) for line, theme in nearest.items()])
    with store.writing() as connection:  # So that they stay loose when decisions are laid over.
        connection.executemany("UPDATE theme_base SET theme = NULL WHERE line_id = ?", [(line,) for line in nearest])
    page.overview.ask()
    qtbot.waitUntil(page.overview.loose.isVisible)
    page.overview.loose.click()
    theme = shown(qtbot, page)
    qtbot.waitUntil(lambda: theme.heading.text() == "Loose lines" and theme.lines.rows.rowCount() >= 3)
    return nearest
