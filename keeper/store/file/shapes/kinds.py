"""Kinds of lines as rows, and sixty-four numbers of lines a night.

SQLite takes a CHECK from a column only by making the table anew ("ALTER TABLE",
section 7, the twelve steps); references are not looked at meanwhile.
"""

_KINDS = (
    # name and prompt are the person's words; '' for those of the program, which
    # only its own three have. began and ended are nights, both included.
    # A row is never deleted, so that its number is never given twice.
    """CREATE TABLE kind (
        key TEXT PRIMARY KEY CHECK (number < 3 OR length(key) = 36),
        number INTEGER NOT NULL UNIQUE CHECK (number BETWEEN 0 AND 63),
        name TEXT NOT NULL DEFAULT '' CHECK (number < 3 OR name <> ''),
        prompt TEXT NOT NULL DEFAULT '',
        position INTEGER NOT NULL,
        in_themes INTEGER NOT NULL DEFAULT 1 CHECK (in_themes IN (0, 1)),
        began TEXT,
        ended TEXT
    ) STRICT""",
    "INSERT INTO kind (key, number, position) VALUES ('gratitude', 0, 0), ('memory', 1, 1), ('reflection', 2, 2)",
)

_LINES = (
    # It reads from the table that goes.
    "DROP VIEW line_seen",
    """CREATE TABLE line_remade (
        number INTEGER PRIMARY KEY,
        id TEXT NOT NULL UNIQUE,
        night TEXT NOT NULL REFERENCES night (date),
        kind TEXT NOT NULL REFERENCES kind (key),
        text TEXT NOT NULL CHECK (text <> ''),
        folded TEXT,
        written_at TEXT NOT NULL,
        offset_minutes INTEGER NOT NULL,
        zone TEXT NOT NULL,
        UNIQUE (night, kind)
    ) STRICT""",
    # The night's ordinal stood before four numbers, and stands before sixty-four.
    """INSERT INTO line_remade (number, id, night, kind, text, folded, written_at, offset_minutes, zone)
        SELECT number / 4 * 64 + number % 4, id, night, kind, text, folded, written_at, offset_minutes, zone
        FROM line ORDER BY number""",
    "DROP TABLE line",
    "ALTER TABLE line_remade RENAME TO line",
    "CREATE INDEX line_day ON line (substr(night, 6), night)",
)

_DRAFTS = (
    """CREATE TABLE draft_remade (
        night TEXT NOT NULL,
        kind TEXT NOT NULL REFERENCES kind (key),
        text TEXT NOT NULL,
        typed_at TEXT NOT NULL,
        PRIMARY KEY (night, kind)
    ) STRICT, WITHOUT ROWID""",
    "INSERT INTO draft_remade (night, kind, text, typed_at) SELECT night, kind, text, typed_at FROM draft",
    "DROP TABLE draft",
    "ALTER TABLE draft_remade RENAME TO draft",
)

# As they were, but for the table they hang on.
_HANGING_ON_LINES = (
    """CREATE TRIGGER line_changed BEFORE UPDATE OF text ON line WHEN old.text <> new.text BEGIN
        INSERT INTO wording (line_id, night, kind, text, written_at, offset_minutes, zone)
        VALUES (old.id, old.night, old.kind, old.text, old.written_at, old.offset_minutes, old.zone);
    END""",
    """CREATE TRIGGER line_gone BEFORE DELETE ON line BEGIN
        INSERT INTO wording (line_id, night, kind, text, written_at, offset_minutes, zone)
        VALUES (old.id, old.night, old.kind, old.text, old.written_at, old.offset_minutes, old.zone);
    END""",
    "CREATE VIEW line_seen AS SELECT number, coalesce(folded, text) AS words FROM line",
    """CREATE TRIGGER line_words_in AFTER INSERT ON line BEGIN
        INSERT INTO line_words (rowid, words) VALUES (new.number, coalesce(new.folded, new.text));
    END""",
    """CREATE TRIGGER line_words_out AFTER DELETE ON line BEGIN
        INSERT INTO line_words (line_words, rowid, words)
        VALUES ('delete', old.number, coalesce(old.folded, old.text));
    END""",
    """CREATE TRIGGER line_words_anew AFTER UPDATE OF text, folded ON line BEGIN
        INSERT INTO line_words (line_words, rowid, words)
        VALUES ('delete', old.number, coalesce(old.folded, old.text));
        INSERT INTO line_words (rowid, words) VALUES (new.number, coalesce(new.folded, new.text));
    END""",
    """CREATE TRIGGER line_reworded AFTER UPDATE OF text ON line WHEN old.text <> new.text BEGIN
        DELETE FROM theme_line WHERE line_id = old.id;
        DELETE FROM theme_base WHERE line_id = old.id;
    END""",
    # It finds the lines by their numbers, and those are others.
    "INSERT INTO line_words (line_words) VALUES ('rebuild')",
)

KINDS_AS_ROWS = (*_KINDS, *_LINES, *_DRAFTS, *_HANGING_ON_LINES)
