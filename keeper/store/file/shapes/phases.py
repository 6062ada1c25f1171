"""Where the second phase of a cycle begins, as the person says it; what the rule finds is not kept."""

PHASES = (
    # A cycle goes by its mark and the night it begins. NULL: it has no second phase.
    """CREATE TABLE cycle_phase (
        mark_id TEXT NOT NULL REFERENCES tracker (id) ON DELETE CASCADE,
        begins TEXT NOT NULL,
        rise TEXT CHECK (rise > begins),
        PRIMARY KEY (mark_id, begins)
    ) STRICT, WITHOUT ROWID""",
)
