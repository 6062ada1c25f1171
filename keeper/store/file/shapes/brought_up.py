"""When nights were last brought up."""

BROUGHT_UP = (
    # evening is the last on which it was, before the one before that: what is chosen on an evening stays until it is over.
    """CREATE TABLE brought_up (
        night TEXT PRIMARY KEY,
        evening TEXT NOT NULL,
        before TEXT
    ) STRICT, WITHOUT ROWID""",
)
