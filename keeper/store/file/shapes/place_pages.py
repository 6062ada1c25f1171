"""What the person says of a place: a note, what it is, and the photo that stands for it."""

PLACE_PAGES = (
    """CREATE TABLE place_page (
        place_id TEXT PRIMARY KEY REFERENCES place (id) ON DELETE CASCADE,
        note TEXT NOT NULL DEFAULT '',
        roof TEXT NOT NULL DEFAULT '' CHECK (roof IN ('', 'home', 'with someone', 'room', 'inn', 'canvas', 'on board', 'in care')),
        photo_id TEXT REFERENCES photo (id)
    ) STRICT, WITHOUT ROWID""",
)
