"""The keys that work on every page, and what the settings page says of them."""

PAGE_KEYS = {"night": "Ctrl+1", "looking back": "Ctrl+2", "find": "Ctrl+3", "settings": "Ctrl+,"}

KEYS = (
    ("Enter, Down", "the next line of the night; Shift+Enter begins a new row"),
    ("Ctrl+1, Ctrl+2, Ctrl+3", "the pages in their order"),
    ("Ctrl+F", "find"),
    ("Ctrl+T", "tonight"),
    ("Ctrl+PageUp, Ctrl+PageDown", "the night before, the night after"),
    ("Ctrl+G", "go to a date"),
    ("Ctrl+L", "say where you are"),
    ("Ctrl+Z, Ctrl+Y", "undo and redo, also across what was kept"),
    ("Ctrl+,", "settings"),
    ("Ctrl+Q", "close; everything is kept"),
)
