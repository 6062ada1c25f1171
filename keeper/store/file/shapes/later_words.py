"""Later words under old lines."""

LATER_WORDS = (
    # No reference to the line: one that is taken out and written anew is the same line, and its later words are there again.
    # One a line and night, so that what is typed on an evening is one word, however often it is taken up.
    """CREATE TABLE later_word (
        line_id TEXT NOT NULL,
        said_on TEXT NOT NULL CHECK (said_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]' AND date(said_on) IS said_on),
        text TEXT NOT NULL DEFAULT '',
        tracker_id TEXT,
        value REAL,
        written_at TEXT NOT NULL,
        offset_minutes INTEGER NOT NULL,
        zone TEXT NOT NULL,
        PRIMARY KEY (line_id, said_on),
        CHECK ((tracker_id IS NULL) = (value IS NULL)),
        CHECK (text <> '' OR value IS NOT NULL)
    ) STRICT, WITHOUT ROWID""",
)
