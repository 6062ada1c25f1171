"""What a line stands in besides its theme, and what comes nearest to a line that is in none: found again, like themes."""

SECOND_THEMES = (
    # offered: the line has no theme, and would come nearest to this one.
    """CREATE TABLE theme_second (
        line_id TEXT PRIMARY KEY REFERENCES line (id) ON DELETE CASCADE,
        theme INTEGER NOT NULL REFERENCES theme (number),
        closeness REAL NOT NULL,
        offered INTEGER NOT NULL DEFAULT 0 CHECK (offered IN (0, 1))
    ) STRICT, WITHOUT ROWID""",
    "CREATE INDEX theme_second_theme ON theme_second (theme)",
    # A line that has to find its theme again has to find both; one that found another may stand in this no more.
    "CREATE TRIGGER theme_line_gone AFTER DELETE ON theme_line BEGIN DELETE FROM theme_second WHERE line_id = old.line_id; END",
    """CREATE TRIGGER theme_line_moved AFTER UPDATE OF theme ON theme_line WHEN old.theme IS NOT new.theme BEGIN
        DELETE FROM theme_second WHERE line_id = old.line_id;
    END""",
)
