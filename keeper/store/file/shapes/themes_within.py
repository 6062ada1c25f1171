"""What is asked of themes that the person begins, and what lies within wide themes; all found anew by each look."""

THEMES_WITHIN = (
    """CREATE TABLE theme_asked (
        theme INTEGER NOT NULL REFERENCES theme (number),
        position INTEGER NOT NULL,
        line_id TEXT NOT NULL REFERENCES line (id) ON DELETE CASCADE,
        PRIMARY KEY (theme, position)
    ) STRICT, WITHOUT ROWID""",
    "CREATE INDEX theme_asked_line ON theme_asked (line_id)",
    # A part has a number of the themes' own, so that it can become a theme of its own under the same number.
    """CREATE TABLE theme_part (
        number INTEGER PRIMARY KEY REFERENCES theme (number),
        theme INTEGER NOT NULL REFERENCES theme (number),
        name TEXT NOT NULL,
        retired INTEGER NOT NULL DEFAULT 0 CHECK (retired IN (0, 1))
    ) STRICT""",
    """CREATE TABLE theme_part_line (
        line_id TEXT PRIMARY KEY REFERENCES line (id) ON DELETE CASCADE,
        part INTEGER NOT NULL REFERENCES theme_part (number)
    ) STRICT, WITHOUT ROWID""",
    "CREATE INDEX theme_part_line_part ON theme_part_line (part)",
    # Other words may lie elsewhere.
    """CREATE TRIGGER line_reworded_within AFTER UPDATE OF text ON line WHEN old.text <> new.text BEGIN
        DELETE FROM theme_part_line WHERE line_id = old.id;
    END""",
)
