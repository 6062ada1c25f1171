"""The keys that work on every page, and what the settings page says of them."""

PAGES = ("night", "looking back", "month", "year", "themes", "places", "find")
"""The pages in their order, as the row above them and the number keys have it; settings apart."""

PAGE_KEYS = {page: f"Ctrl+{number}" for number, page in enumerate(PAGES, 1)} | {"settings": "Ctrl+,"}

KEYS = (
    ("Enter, Down", "the next line of the night; Shift+Enter begins a new row"),
    (f"Ctrl+1 to Ctrl+{len(PAGES)}", "the pages in their order"),
    ("Ctrl+F", "find"),
    ("Ctrl+T", "tonight"),
    ("Ctrl+PageUp, Ctrl+PageDown", "the night before, the night after"),
    ("Alt+PageUp, Alt+PageDown", "on the page of a month: the month before, the month after"),
    ("Ctrl+G", "go to a date"),
    ("Ctrl+L", "say where you are; Ctrl+Enter there: for other nights too"),
    ("Shift+Left, Shift+Right", "on the ribbon: several nights; Enter says where you were"),
    ("Enter, P, R, F2, Delete", "on a photo: open it, make it the night\u2019s, let it rest, caption it, take it away"),
    ("+, -, 0, 1, S", "in a photo\u2019s full view: closer, farther, all of it, its own size, save a copy"),
    ("+, -, arrows, Home", "on the map of places: closer, farther, move it, all of it"),
    ("Ctrl+Z, Ctrl+Y", "undo and redo, also across what was kept"),
    ("Ctrl+,", "settings"),
    ("Ctrl+Q", "close; everything is kept"),
)
